"""Shed roofs, lean-tos, and gables whose slopes or walls are unlike."""

from __future__ import annotations

from math import hypot

import pytest
from shop import built, gable, only, with_role

from takeoff.checks.audit import overlaps
from takeoff.findings import Place, PlanError
from takeoff.framing.frame import frame
from takeoff.model.building import FramedBuilding
from takeoff.plan.schema import Building

PLATE = 97.125
TOLERANCE_IN = 1e-6


def roofed(roof: dict[str, object], *, studs: str = "2x6", **walls: object) -> Building:
    """A 16' by 10' hut under a roof of its own."""
    return Building.model_validate(
        {
            "name": "hut",
            "outline": [[0, 0], ["16'", 0], ["16'", "10'"], [0, "10'"]],
            "walls": {"studs": studs, "sheathing": {"product": "osb-7/16"}, **walls},
            "roof": {"pitch": "4/12", "rafters": {"size": "2x8"}, "sheathing": {"field": "cdx-5/8"}, **roof},
        }
    )


def shed(**roof: object) -> Building:
    return roofed({"shape": "shed", "low": "south", **roof})


def top_of(frame: FramedBuilding, face: str, role: str = "cap-plate") -> float:
    """Height of the upper side of a wall's plate [in]."""
    plate = next(m for m in with_role(frame.members, role) if m.face == face)
    return plate.placement.origin[2] + plate.profile.thickness_in / 2


def test_the_high_wall_of_a_shed_is_built_up_by_the_rise_to_its_inside() -> None:
    # the inside of the high wall is 120 - 5-1/2 = 114-1/2 from the outside of the low one, at 4 in 12: 38.167
    frame = built(shed())
    assert top_of(frame, "south") == pytest.approx(PLATE)
    assert top_of(frame, "north") == pytest.approx(PLATE + 114.5 / 3)


def test_a_shed_rafter_bears_on_both_walls_with_equal_seats() -> None:
    frame = built(shed(overhang={"eave": '12"'}))
    for index, member in enumerate(frame.members):
        if member.role.name in ("common-rafter", "end-rafter"):
            assert member.rafter is not None
            bearings = [j.bearing_in for j in frame.joints if j.upper == index and j.kind == "bears"]
            assert bearings == pytest.approx([member.rafter.seat] * 2)


def test_a_shed_rafter_reaches_from_tail_cut_to_tail_cut() -> None:
    # 120 + 12 + 6 level, at 4 in 12; the plumb cut of a 2x8 adds 7-1/4 x 4/12 at the low end
    frame = built(shed(overhang={"eave": '12"', "high": '6"'}))
    rafter = only(with_role(frame.members, "common-rafter"))
    assert rafter.length_in == pytest.approx(138 * hypot(1, 1 / 3) + 7.25 / 3)


def test_a_shed_has_blocks_and_fascia_at_both_walls_and_no_ridge() -> None:
    frame = built(shed(overhang={"eave": '12"'}, fascia={"size": "2x6"}))
    blocks = with_role(frame.members, "eave-block")
    assert len({round(m.placement.origin[1], 3) for m in blocks}) == 2
    assert len({round(m.placement.origin[1], 3) for m in with_role(frame.members, "fascia")}) == 2
    assert not with_role(frame.members, "ridge-beam", "ridge-board")


@pytest.mark.parametrize("studs", ["2x4", "2x6"])
@pytest.mark.parametrize("pitch", ["2/12", "4/12", "9/12"])
@pytest.mark.parametrize("low", ["south", "east"])
def test_the_sticks_of_a_shed_leave_each_other_room(studs: str, pitch: str, low: str) -> None:
    roof = {"shape": "shed", "low": low, "pitch": pitch, "overhang": {"eave": '12"', "rake": '6"'}}
    trim = {"barge": {"size": "2x6"}, "outlookers": {}, "fascia": {"size": "2x6"}}
    assert list(overlaps(built(roofed({**roof, **trim}, studs=studs)).members)) == []


LEAN_TO = {"shape": "edges", "edges": {"north": "abutment", "east": "gable", "west": "gable"}}


def test_a_lean_to_hangs_its_rafters_on_a_ledger_and_frames_no_wall_behind_it() -> None:
    frame = built(roofed(dict(LEAN_TO)))
    assert not [m for m in frame.members if m.face == "north"]
    ledgers = {i for i, m in enumerate(frame.members) if m.role.name == "ledger"}
    hung = [j for j in frame.joints if j.kind == "hangs" and j.lower in ledgers]
    assert len(hung) == len(with_role(frame.members, "common-rafter", "end-rafter"))


@pytest.mark.parametrize("ledger", ["2x6", "2x8", "2x12"])
def test_the_sticks_of_a_lean_to_leave_each_other_room(ledger: str) -> None:
    assert list(overlaps(built(roofed({**LEAN_TO, "ledger": {"size": ledger}})).members)) == []


@pytest.mark.parametrize("east", ["gable", "eave"])
def test_slopes_that_run_up_beside_a_standing_wall_end_with_a_rafter_against_it(east: str) -> None:
    edges = {"west": "abutment", "east": east}
    trim = {"overhang": {"eave": '12"', "rake": '6"'}, "barge": {"size": "2x6"}, "outlookers": {}}
    made = built(roofed({"shape": "edges", "edges": edges, "ridge": RIDGE, **trim}))
    rafters = [m for m in made.members if m.role.category == "rafters" and m.rafter is not None]
    nearest = min(m.placement.origin[0] for m in rafters)
    assert nearest == pytest.approx(0.75)
    against = [m for m in rafters if m.placement.origin[0] == pytest.approx(nearest)]
    assert {m.face for m in against} == {"south slope", "north slope"}
    assert {m.role.name for m in against} == {"common-rafter"}
    assert not [m for m in with_role(made.members, "barge") if m.placement.origin[0] < 12]
    assert list(overlaps(made.members)) == []


def test_slopes_that_meet_without_a_ridge_written_are_refused_in_words() -> None:
    edges = {"east": "gable", "west": "gable"}
    with pytest.raises(PlanError, match="write ridge"):
        frame(roofed({"shape": "edges", "edges": edges}), lambda path: Place(path=path))


RIDGE = {"kind": "board", "size": "2x12"}


def test_a_steeper_slope_reaches_out_less_so_that_all_eaves_are_at_one_height() -> None:
    frame = built(gable(roof={"pitches": {"north": "5/12"}, "overhang": {"eave": '16"'}}))
    tails = {}
    for m in with_role(frame.members, "common-rafter"):
        assert m.rafter is not None
        tails[m.face] = (m.rafter.overhang, m.placement.to_world((0.0, m.profile.depth_in, 0.0))[2])
    (south, south_height), (north, north_height) = tails["south slope"], tails["north slope"]
    assert north == pytest.approx(16.0)
    assert south < 16.0
    assert south_height == pytest.approx(north_height, abs=TOLERANCE_IN)


def test_walls_are_built_higher_where_the_plan_keeps_the_eave_line() -> None:
    frame = built(gable(roof={"pitches": {"north": "5/12"}, "overhang": {"eave": '16"'}, "keep": "eave_line"}))
    rafters = with_role(frame.members, "common-rafter")
    assert {round(m.rafter.overhang, 6) for m in rafters if m.rafter} == {16.0}
    assert top_of(frame, "north") == pytest.approx(PLATE)
    assert top_of(frame, "south") > PLATE


def test_a_lower_wall_moves_the_ridge_away_from_it() -> None:
    # at one pitch the ridge moves by half the difference over the slope: 24 / 2 / (8/12) = 18
    walls = {"by_side": {"north": {"height": PLATE - 24}, "east": {"frame": "balloon"}, "west": {"frame": "balloon"}}}
    frame = built(gable(walls=walls))
    (beam,) = with_role(frame.members, "ridge-beam")
    assert beam.placement.origin[1] == pytest.approx(120 - 18)
    assert list(overlaps(frame.members)) == []


def test_a_platform_gable_over_a_low_wall_is_told_to_be_balloon_framed() -> None:
    with pytest.raises(PlanError, match="balloon"):
        frame(gable(walls={"by_side": {"north": {"height": PLATE - 24}}}), lambda path: Place(path=path))
