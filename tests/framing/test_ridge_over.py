"""Rafters that run over a ridge beam: second bird's mouth, peak cut, where the beam lies; figures by hand."""

from __future__ import annotations

from math import atan, cos, hypot
from typing import Any

import pytest
from measured import clashes, outline_points, world_box
from shop import built, gable, with_role

from takeoff.findings import Place, PlanError
from takeoff.framing.frame import frame
from takeoff.geometry.rafter import BeamUnder, RafterGeometry
from takeoff.model.building import FramedBuilding
from takeoff.plan.schema import Building

PLATE = 97.125
OVER: dict[str, Any] = {"kind": "beam", "size": "5-1/2x14", "material": "glulam", "support": "over"}
RAKED: dict[str, Any] = {
    "overhang": {"eave": '16"', "rake": '12"'},
    "barge": {"size": "2x10"},
    "outlookers": {"spacing": '32"'},
    "fascia": {"size": "2x6"},
    "tail": {"size": "2x6"},
}
BALLOON: dict[str, Any] = {"by_side": {"east": {"frame": "balloon"}}}
DEPTH = 9.25
HALF = 2.75


def plan(**roof: Any) -> Building:
    walls = roof.pop("walls", BALLOON)
    return gable(walls=walls, roof={"ridge": OVER, **roof})


def hut(**roof: Any) -> FramedBuilding:
    return built(plan(**roof))


def test_the_beams_top_is_the_rafters_plumb_depth_under_the_peak() -> None:
    # 2x10 at 8/12: 11.117 plumb; over the plate 11.117 - 4-1/8 x 8/12 = 8.367, and 120 x 8/12 = 80 of rise
    (beam,) = with_role(hut().members, "ridge-beam")
    assert world_box(beam)[1][2] - PLATE == pytest.approx(8.367 + 80 - 11.117, abs=0.001)


def test_rafters_meet_on_the_centre_line_with_no_shortening_and_their_whole_plumb_cut() -> None:
    rafters = with_role(hut().members, "common-rafter")
    for rafter in rafters:
        assert rafter.rafter is not None
        assert rafter.rafter.ridge_shortening == 0
        assert rafter.rafter.peak_cut == pytest.approx(DEPTH * hypot(1, 8 / 12))
        low, high = world_box(rafter)
        assert 120.0 in (pytest.approx(low[1]), pytest.approx(high[1]))


def test_the_seat_is_half_the_beam_and_its_notch_is_a_right_angle_in_the_outline() -> None:
    # A notch of 2-3/4 level is 2.75 x 8/12 = 1.833 plumb; its corners along and across the stick by cosine and sine
    rafter = with_role(hut().members, "common-rafter")[0]
    assert rafter.rafter is not None
    assert rafter.rafter.beam_seat == pytest.approx(HALF)
    assert rafter.rafter.beam_heel == pytest.approx(HALF * 8 / 12)
    # the notch's inner corner lies 2.75 level from the peak, the heel's height over the underside there
    slope, (x, y) = 8 / 12, rafter.rafter.to_stick(120 - HALF, rafter.rafter.beam.top if rafter.rafter.beam else 0)
    assert y == pytest.approx(HALF * slope * cos(atan(slope)))
    assert any(p == (pytest.approx(x, abs=1e-5), pytest.approx(y, abs=1e-5)) for p in outline_points(rafter))


@pytest.mark.parametrize("pitches", [{}, {"north": "5/12"}, {"south": "12/12"}], ids=["equal", "flatter", "steeper"])
def test_each_rafter_bears_on_the_beam_along_its_whole_seat(pitches: dict[str, str]) -> None:
    building = hut(pitches=pitches)
    (beam,) = (k for k, m in enumerate(building.members) if m.role.name == "ridge-beam")
    joints = [j for j in building.joints if j.lower == beam]
    rafters = [k for k, m in enumerate(building.members) if m.role.name in ("common-rafter", "end-rafter")]
    assert sorted(j.upper for j in joints) == rafters
    assert {j.kind for j in joints} == {"bears"}
    assert {round(j.bearing_in, 4) for j in joints} == {HALF}


def test_where_pitches_differ_both_slopes_have_the_seat_and_the_steeper_is_notched_deeper() -> None:
    building = hut(pitches={"north": "5/12"})
    cuts = {m.rafter.slope: m.rafter for m in with_role(building.members, "common-rafter") if m.rafter}
    steep, flat = cuts[8 / 12], cuts[5 / 12]
    # the beam's top lies the flatter rafter's plumb depth under the peak: 9-1/4 x hypot(1, 5/12) = 10.021
    assert flat.peak_cut == steep.peak_cut == pytest.approx(10.021, abs=0.001)
    assert flat.beam_heel == pytest.approx(HALF * 5 / 12)
    assert steep.beam_heel == pytest.approx(HALF * 8 / 12 + DEPTH * (hypot(1, 8 / 12) - hypot(1, 5 / 12)))


def test_a_stated_seat_lowers_the_beam_by_what_it_is_shorter() -> None:
    def top(seat: dict[str, str]) -> float:
        return world_box(with_role(hut(ridge={**OVER, **seat}).members, "ridge-beam")[0])[1][2]

    assert top({}) - top({"seat": '2"'}) == pytest.approx(0.75 * 8 / 12)


def test_a_steep_shallow_rafter_takes_a_seat_whose_notch_keeps_to_a_quarter() -> None:
    # 2x6 at 12/12: a quarter of 5-1/2 is 1.375 square, 1.945 level; in eighths 1-7/8
    rafter = with_role(hut(pitch="12/12", rafters={"size": "2x6"}).members, "common-rafter")[0]
    assert rafter.rafter is not None
    assert rafter.rafter.beam_seat == pytest.approx(1.875)


def test_sheets_stop_short_of_the_peak_by_the_slot() -> None:
    shut = next(face for face in hut().faces if face.kind == "slope")
    slot = next(face for face in hut(ridge={**OVER, "vent": '1"'}).faces if face.kind == "slope")
    assert shut.outline.bounds[3] - slot.outline.bounds[3] == pytest.approx(hypot(1, 8 / 12))


def test_the_ridge_is_laid_out_on_its_top() -> None:
    assert [line.name for line in hut().lines if line.name.startswith("ridge")] == ["ridge, top"]


def test_how_the_beam_lies_is_told_with_its_reason() -> None:
    _, found = frame(plan(), lambda path: Place(path=path))
    (told,) = (f for f in found if f.rule == "frame.ridge-over")
    assert '14\'-6 3/8" over the deck, 11 1/8" below the peak' in told.message
    assert "2 3/4\" (half the beam's thickness)" in told.message


@pytest.mark.parametrize(
    "roof",
    [
        {},
        RAKED,
        {**RAKED, "pitches": {"north": "5/12"}},
        {**RAKED, "outlookers": {"method": "dropped", "size": "2x4"}, "barge": {"size": "2x8"}},
        {**RAKED, "ridge": {**OVER, "vent": '2"', "seat": '1-1/2"'}},
        {**RAKED, "ridge": {"kind": "beam", "size": "6x12", "support": "over"}, "pitch": "3/12"},
        {"walls": {"by_side": {"north": {"height": "7'"}, **BALLOON["by_side"], "west": {"frame": "balloon"}}}},
        {"skylights": [{"side": "south", "center": "10'", "up": "4'", "width": '30"', "height": '46"'}]},
        {"ridge": {**OVER, "posts": ["10'", "20'"]}},
    ],
    ids=["plain", "raked", "unequal", "dropped", "short seat", "flat", "saltbox", "skylight", "posts"],
)
def test_no_stick_stands_in_another(roof: dict[str, Any]) -> None:
    found = clashes(hut(**roof).members, 1 / 32)
    assert [(a.name, b.name, a.face, b.face, round(v, 2)) for a, b, v in found] == []


def test_rafters_that_are_no_deeper_than_the_notch_are_refused_in_words() -> None:
    with pytest.raises(PlanError, match="seat on the ridge beam cuts through the top edge"):
        hut(rafters={"size": "2x4"}, pitch="4/12", pitches={"south": "24/12"})


def test_a_rafter_clear_of_its_beam_is_no_rafter() -> None:
    rafter = RafterGeometry(slope=0.5, depth=5.5, run=100, overhang=0, seat=3.5)
    with pytest.raises(ValueError, match="clear over the ridge beam"):
        RafterGeometry(
            slope=0.5, depth=5.5, run=100, overhang=0, seat=3.5, beam=BeamUnder(half=2, top=rafter.underside_at(97))
        )
