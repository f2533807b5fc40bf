"""Gables on hips: where hips, ridge and hip slope end, what carries the small gable, and that nothing collides.

Expected figures are worked by hand in comments; no outside source.
"""

from __future__ import annotations

from math import hypot, sqrt
from typing import Any

import pytest
from any_roofs import tee
from shapely import Point as Spot
from shapely import Polygon
from shop import built, roofed, with_role

from takeoff.checks.audit import audit, overlaps
from takeoff.findings import Place, PlanError, Severity
from takeoff.framing.roof_plan import roof_plan
from takeoff.plan.footprint import footprint
from takeoff.plan.schema import Building

EAST = "side 2"
PLATE = 97.125
STAND = 7.25 * hypot(1, 2 / 3) - 3.25 * 2 / 3
"""Of 2x8 at 8/12 over the plate, seated 3-1/4 deep: 6.5467."""


def on_hip(*, run: float = 60, length: float = 336, **roof: Any) -> Building:
    """28 by 16 ft at 8/12; over its east hip a small gable, 5 ft in from the wall."""
    written = {"overhang": {"eave": 12}, "fascia": {"size": "2x6"}, "gablets": {EAST: {"run": run}}}
    return roofed([(0, 0), (length, 0), (length, 192), (0, 192)], **{**written, **roof})


def test_hips_and_the_ridge_end_at_the_face_of_the_small_gable() -> None:
    frame = built(on_hip())
    hips = [m for m in with_role(frame.members, "hip") if m.placement.origin[0] > 200]
    assert len(hips) == 2
    for hip in hips:
        assert hip.rafter is not None
        # From the corner of the walls 60 in level each way: 60 * sqrt(2); cut at 45 degrees in plan.
        assert hip.rafter.run == pytest.approx(60 * sqrt(2))
        assert hip.rafter.cheek == pytest.approx(0.75)
    (ridge,) = with_role(frame.members, "ridge-board")
    # From the west apex, 96 in from the wall, less what the hips there leave it, to 336 - 60.
    assert ridge.placement.origin[0] + ridge.length_in == pytest.approx(276)


def test_a_doubled_pair_stands_behind_the_face_and_the_header_before_it() -> None:
    frame = built(on_hip())
    commons = [m for m in with_role(frame.members, "common-rafter") if m.face in ("side 1 slope", "side 3 slope")]
    assert sorted(round(m.placement.origin[0], 4) for m in commons)[-4:] == [273.75, 273.75, 275.25, 275.25]
    headers = with_role(frame.members, "roof-header")
    assert [m.length_in for m in headers] == pytest.approx([192 - 120 - 1.5 * sqrt(2)] * 2)
    # Outer edges of the plies in the hip slope, 60 - 1.5 and 60 - 3 in from the wall.
    tops = sorted(m.placement.origin[2] + 7.25 for m in headers)
    assert tops == pytest.approx([PLATE + STAND + 57 * 2 / 3, PLATE + STAND + 58.5 * 2 / 3])


def test_rafters_of_the_hip_slope_hang_on_the_header() -> None:
    frame = built(on_hip())
    hung = [m.rafter for m in with_role(frame.members, "common-rafter") if m.face == f"{EAST} slope"]
    assert len(hung) == 5
    for rafter in hung:
        assert rafter is not None
        assert (rafter.run, rafter.ridge_half) == pytest.approx((60, 3))
    on = {frame.members[j.upper].role.name for j in frame.joints if frame.members[j.lower].role.name == "roof-header"}
    assert "common-rafter" in on


def test_studs_lap_the_header_and_reach_the_undersides_of_the_pair() -> None:
    frame = built(on_hip())
    studs = with_role(frame.members, "gable-stud")
    (middle,) = (m for m in studs if m.placement.origin[1] == pytest.approx(96))
    (ridge,) = with_role(frame.members, "ridge-board")
    assert middle.placement.origin[2] + middle.length_in == pytest.approx(ridge.placement.origin[2])
    # The next stand 16 in to the side: the pair's underside there is (96 - 16) * 2/3 over that at the wall's outside.
    beside = [m for m in studs if abs(m.placement.origin[1] - 96) == pytest.approx(16)]
    long_point = PLATE + STAND - 7.25 * hypot(1, 2 / 3) + (80 + 0.75) * 2 / 3
    assert [m.placement.origin[2] + m.length_in for m in beside] == pytest.approx([long_point] * 2)


@pytest.mark.parametrize("pitch", ["8/12", "6/12"])
def test_the_slopes_are_the_envelope_of_four_planes_without_the_end_behind_the_small_gable(pitch: str) -> None:
    building = on_hip(pitches={EAST: pitch}, overhang={"eave": 18})
    plan = roof_plan(building, footprint(building), lambda path: Place(path=path))
    planes, grounds = [], []
    for slope in plan.slopes:
        at = slope.bench.placement
        level = hypot(*at.y[:2])
        planes.append((at.origin, (at.y[0] / level, at.y[1] / level), slope.common.slope))
        grounds.append(Polygon([at.to_world((*edge.a, 0.0))[:2] for edge in slope.outline.edges]))

    def height(k: int, x: float, y: float) -> float:
        (ox, oy, oz), (ix, iy), rise = planes[k]
        return oz + rise * ((x - ox) * ix + (y - oy) * iy)

    east = next(k for k, slope in enumerate(plan.slopes) if slope.side == EAST)
    whole = [Polygon([line.side.start for line in plan.lines]).bounds]
    assert whole == [(0, 0, 336, 192)]
    for x in range(1, 336, 7):
        for y in range(1, 192, 7):
            there = [k for k in range(4) if k != east or x > 276]
            own = [k for k, ground in enumerate(grounds) if ground.buffer(1e-6).contains(Spot(x, y))]
            assert own
            assert height(own[0], x, y) == pytest.approx(min(height(k, x, y) for k in there), abs=1e-6)
    assert sum(a.intersection(b).area for k, a in enumerate(grounds) for b in grounds[:k]) == pytest.approx(0, abs=1e-3)


@pytest.mark.parametrize(
    "told",
    [
        {},
        {"gablets": {EAST: {"run": 54}, "side 4": {"run": 63, "studs": "2x6"}}},
        {"pitches": {"side 1": "10/12"}, "overhang": {"eave": 18}},
        {"pitches": {EAST: "5/12"}, "overhang": {"eave": 24}},
        {"ridge": {"kind": "beam", "size": "5-1/2x14", "material": "glulam"}},
        {"tail": {"cut": "level"}, "soffit": {"kind": "boxed"}},
        {"pitch": "12/12"},
    ],
    ids=str,
)
def test_no_stick_of_a_roof_with_a_gable_on_its_hip_stands_in_another(told: dict[str, Any]) -> None:
    assert [(a.name, b.name) for a, b, _ in overlaps(built(on_hip(**told)).members)] == []


@pytest.mark.parametrize("run", [10, 85])
def test_a_small_gable_outside_the_hip_is_refused_with_the_room_there_is(run: float) -> None:
    with pytest.raises(PlanError) as caught:
        built(on_hip(run=run))
    (finding,) = caught.value.findings
    # The hips meet half of 16 ft in; 18 in less is 6'-6".
    assert "from 2'-0\" to 6'-6\": the hips meet 8'-0\" in" in finding.message
    assert finding.place.path == f"roof.gablets.{EAST}"


@pytest.mark.parametrize("told", [{"length": 192}, {"gablets": {"side 1": {"run": 60}}}], ids=str)
def test_a_small_gable_with_no_ridge_behind_it_is_refused(told: dict[str, Any]) -> None:
    with pytest.raises(PlanError, match="no single point at the end of a ridge"):
        built(on_hip(**told))


def test_the_hipped_wing_of_a_roof_told_side_by_side_may_have_a_small_gable() -> None:
    written = {"shape": "edges", "edges": {"side 2": "gable"}, "overhang": {"eave": 12}}
    frame = built(roofed(tee(480, 192, 144, 120, 160), gablets={"side 5": {"run": 30}}, **written))
    assert len(with_role(frame.members, "roof-header")) == 2
    assert list(overlaps(frame.members)) == []


def overhanging(out: float, **told: Any) -> Building:
    """Its face 45 in from the wall, so that there are 51 level inches to where the hips meet."""
    return on_hip(gablets={EAST: {"run": 45, "overhang": out}}, barge={"size": "2x6"}, **told)


def test_barges_of_a_small_gable_stand_on_the_hip_slopes_sheathing_and_meet_at_the_peak() -> None:
    barges = with_role(built(overhanging(10)).members, "barge")
    assert len(barges) == 2
    for barge in barges:
        ends = [barge.placement.to_world((x, y, 0.0)) for x, y in list(barge.side.exterior.coords)[:-1]]
        # The hip slope at the face is 45 * 2/3 over its tops at the wall. The back of a barge is 8-1/2 further out; the
        # sheathing is 5/8 square to the slope.
        foot = PLATE + STAND + (45 - 8.5) * 2 / 3 + 0.625 * hypot(1, 2 / 3)
        assert min(z for _, _, z in ends) == pytest.approx(foot)
        assert max(z for _, _, z in ends) == pytest.approx(PLATE + STAND + 96 * 2 / 3)
        assert barge.placement.origin[0] == pytest.approx(336 - 45 + 10 - 0.75)
        # Level at the foot, plumb at the peak.
        assert sorted(abs(cut.miter_deg) for cut in barge.cuts) == pytest.approx([33.690, 56.310], abs=1e-3)


def test_blocks_and_a_stub_of_the_ridge_reach_to_the_backs_of_those_barges() -> None:
    frame = built(overhanging(10))
    (stub,) = with_role(frame.members, "false-ridge")
    blocks = with_role(frame.members, "ladder-block")
    assert len(blocks) == 4
    assert {round(m.length_in, 6) for m in (stub, *blocks)} == {8.5}


def test_the_slopes_sheathing_runs_on_over_the_barges() -> None:
    frame = built(overhanging(10))
    strips = [face for face in frame.faces if face.name.startswith(f"{EAST} gablet rake")]
    assert len(strips) == 2
    for strip in strips:
        pieces = [panel for panel in frame.panels if panel.face == strip.name]
        assert sum(panel.polygon.area for panel in pieces) == pytest.approx(strip.outline.polygon.area)
        u0, _, u1, _ = strip.outline.bounds
        assert u1 - u0 == pytest.approx(10)


@pytest.mark.parametrize(
    ("out", "told"),
    [
        (1.5, {}),
        (18, {"pitch": "6/12"}),
        (10, {"pitch": "12/12"}),
        (10, {"pitches": {EAST: "6/12"}, "overhang": {"eave": 18}}),
    ],
    ids=str,
)
def test_the_audit_finds_nothing_under_an_overhanging_small_gable(out: float, told: dict[str, Any]) -> None:
    assert [str(f) for f in audit(built(overhanging(out, **told))) if f.severity is not Severity.NOTE] == []


def test_a_small_gable_too_low_for_its_barges_is_refused_by_how_much() -> None:
    with pytest.raises(PlanError, match="for barges of 2x12; take shallower ones"):
        built(on_hip(gablets={EAST: {"run": 78, "overhang": 6}}, pitch="4/12", barge={"size": "2x12"}))
