"""Tail cuts: square, level and plumb, of commons, hips and valleys; the fascia that goes with them.

The arithmetic is plane geometry, no outside source: a square cut takes depth x slope off the long point of a plumb one.
"""

from __future__ import annotations

from math import hypot, sqrt

import pytest
from measured import clashes, outline_points, world_box, world_corners
from shop import Written, built, gable, only, roofed, with_role

from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.frame import frame
from takeoff.geometry.vec import dot
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.schema import Building

SLOPE = 8 / 12
THIRTY_SECOND_IN = 1 / 32
EAVES: Written = {"overhang": {"eave": '16"'}, "fascia": {"size": "2x6"}}

ELL = [(0, 0), (360, 0), (360, 192), (168, 192), (168, 384), (0, 384)]


def tailed(cut: str, **roof: object) -> FramedBuilding:
    tail = {"size": "2x6", "cut": cut, **roof.pop("tail", {})}  # type: ignore[dict-item]
    return built(gable(roof={**EAVES, "tail": tail, **roof}))


def common(building: FramedBuilding) -> Member:
    return only(m for m in with_role(building.members, "common-rafter"))


def test_a_square_tail_is_shorter_at_its_long_point_by_its_depth_times_the_slope() -> None:
    plumb, square = common(tailed("plumb")), common(tailed("square"))
    assert plumb.length_in - square.length_in == pytest.approx(5.5 * SLOPE)
    end = sorted(p for p in outline_points(square) if p[0] < 1e-6)
    assert [y for _, y in end] == pytest.approx([9.25 - 5.5, 9.25])
    assert square.cuts[0].normal == pytest.approx((-1, 0, 0))
    assert square.cuts[0].miter_deg == pytest.approx(0)


@pytest.mark.parametrize("cut", ["plumb", "square", "level"])
def test_the_overhang_is_measured_to_the_top_of_the_cut(cut: str) -> None:
    rafter = common(tailed(cut))
    assert rafter.rafter is not None
    tops = [p for p in world_corners(rafter) if abs(rafter.placement.from_world(p)[1] - 9.25) < 1e-6]
    south = min(abs(p[1] + 16) for p in tops)
    north = min(abs(p[1] - 256) for p in tops)
    assert min(south, north) == pytest.approx(0, abs=1e-6)
    assert rafter.rafter.tail == pytest.approx(16 * hypot(1, SLOPE))


def test_a_level_tail_is_cut_at_the_lower_edge_of_the_fascia() -> None:
    building = tailed("level")
    fascia = {world_box(m)[0][2] for m in with_role(building.members, "fascia")}
    tails = {round(world_box(m)[0][2], 6) for m in with_role(building.members, "common-rafter")}
    assert tails == {round(min(fascia), 6)}
    # 5-1/2 of fascia and 1-1/2 x 8/12 that its front is lower than its back
    assert {m.rafter.tail_level_drop for m in with_role(building.members, "common-rafter") if m.rafter} == {6.5}


def test_a_level_cut_may_be_told_instead() -> None:
    rafter = common(tailed("level", tail={"soffit_drop": '4"'}, fascia=None))
    bottoms = sorted(outline_points(rafter))[:2]
    heights = [rafter.placement.to_world((x, y, 0.0))[2] for x, y in bottoms]
    top = rafter.placement.to_world((0.0, 9.25, 0.0))[2]
    assert top - min(heights) == pytest.approx(4)


def test_a_level_cut_stops_at_the_wall_and_leaves_the_seat() -> None:
    # 3 of overhang under a 2x4 fascia: the level cut would come 1.9 over the plate
    keys: Written = {"overhang": {"eave": '3"'}, "fascia": {"size": "2x4"}, "tail": {"cut": "level"}}
    building = built(gable(roof=keys))
    rafter = common(building)
    assert rafter.rafter is not None
    assert {j.bearing_in for j in building.joints if j.kind == "bears" and building.members[j.upper].rafter} == {4.125}
    assert min(p[2] for p in world_corners(rafter) if p[1] < -1e-6 or p[1] > 240 + 1e-6) > 97.125


def test_the_fascia_lies_on_square_tails_with_its_top_in_the_slope() -> None:
    building = tailed("square")
    rafter = next(m for m in with_role(building.members, "common-rafter") if m.face == "south slope")
    boards = [m for m in with_role(building.members, "fascia") if m.face == "south eave"]
    local = [rafter.placement.from_world(p) for m in boards for p in world_corners(m)]
    assert (min(x for x, _, _ in local), max(x for x, _, _ in local)) == pytest.approx((-1.5, 0), abs=1e-9)
    assert max(y for _, y, _ in local) == pytest.approx(9.25)
    # 30 feet along the eave, no rake, in two boards
    assert sum(m.length_in for m in boards) == pytest.approx(360)


def test_the_sheathing_runs_over_a_square_fascia_by_its_thickness() -> None:
    def low(cut: str) -> float:
        return next(f for f in tailed(cut).faces if f.name == "south slope").outline.bounds[1]

    tail = -16 * hypot(1, SLOPE)
    assert low("square") == pytest.approx(tail - 1.5)
    assert low("plumb") == pytest.approx(tail - 1.5 * hypot(1, SLOPE))


@pytest.mark.parametrize("outline", [[(0, 0), (288, 0), (288, 192), (0, 192)], ELL], ids=["rectangle", "ell"])
@pytest.mark.parametrize("cut", ["square", "level"])
def test_hips_and_valleys_end_with_the_tails(outline: list[tuple[float, float]], cut: str) -> None:
    building = built(roofed(outline, **EAVES, tail={"size": "2x6", "cut": cut}, hips={"size": "2x10"}))
    assert list(clashes(building.members, THIRTY_SECOND_IN)) == []
    if cut == "level":
        low = {round(world_box(m)[0][2], 6) for m in with_role(building.members, "fascia")}
        for stick in with_role(building.members, "hip", "valley", "hip-jack", "common-rafter"):
            assert world_box(stick)[0][2] >= min(low) - 1e-6


def test_a_hip_ends_in_the_planes_of_the_square_cuts_on_both_sides() -> None:
    building = built(roofed([(0, 0), (288, 0), (288, 192), (0, 192)], **EAVES, tail={"cut": "square"}))
    hip = with_role(building.members, "hip")[0]
    faces = {f.name: f.placement for f in building.faces if f.kind == "slope"}
    cuts = (hip.cuts[0], *hip.cheeks[0])
    assert len(cuts) == 2
    normals = [hip.placement.direction_to_world(cut.normal) for cut in cuts]
    down = [tuple(-a for a in placement.y) for placement in faces.values()]
    for cut, normal in zip(cuts, normals, strict=True):
        matching = [name for name, d in zip(faces, down, strict=True) if dot(normal, d) > 1 - 1e-9]
        assert len(matching) == 1
        assert cut.through is not None
        # through the top of the tail cuts: 16 out, along the slope from the wall
        _, v, _ = faces[matching[0]].from_world(hip.placement.to_world(cut.through))
        assert v == pytest.approx(-16 * hypot(1, SLOPE))
    # equal pitches: the line the two planes have in common leans root 2 as much as the common's
    assert hip.rafter is not None
    assert hip.rafter.tail_lean == pytest.approx(sqrt(2) * SLOPE)


def test_a_barge_on_square_tails_is_cut_square_as_well() -> None:
    keys: Written = {"overhang": {"eave": '16"', "rake": '12"'}, "barge": {"size": "2x8"}, "tail": {"cut": "square"}}
    building = built(gable(roof={**keys, "fascia": {"size": "2x6"}}))
    for barge in with_role(building.members, "barge"):
        assert barge.cuts[0].normal == pytest.approx((-1, 0, 0))
    assert list(clashes(building.members, THIRTY_SECOND_IN)) == []


def test_tails_too_shallow_for_their_level_cut_are_warned_of() -> None:
    plan = gable(roof={"overhang": {"eave": '16"'}, "tail": {"size": "2x4", "cut": "level", "soffit_drop": '6"'}})
    (finding,) = (f for f in decided(plan) if f.rule == "frame.tail")
    assert finding.severity is Severity.WARNING
    # 3-1/2 / cos: 4.206
    assert '4 3/16" deep' in finding.message


def test_the_tails_are_said_once_for_all_eaves_alike() -> None:
    (finding,) = (f for f in decided(gable(roof={**EAVES, "tail": {"cut": "square"}})) if f.rule == "frame.tail")
    assert (finding.severity, finding.where) == (Severity.NOTE, "south, north eave")


@pytest.mark.parametrize(
    ("roof", "lean"),
    [
        # 9-1/4 of fascia at 12/12; 8.367 of stand at 8/12 x cos x sin
        ({"pitch": "12/12", "rafters": {"size": "2x6"}, "fascia": {"size": "2x10"}}, '6 9/16"'),
        ({"fascia": None}, '3 7/8"'),
    ],
)
def test_square_tails_that_lean_back_into_the_wall_are_refused(roof: Written, lean: str) -> None:
    with pytest.raises(PlanError) as refused:
        decided(gable(roof={"overhang": {"eave": '3"'}, "tail": {"cut": "square"}, **roof}))
    (finding,) = refused.value.findings
    assert (finding.rule, finding.place.path) == ("frame.tail", "roof.tail.cut")
    assert f"back {lean} under the south eave" in finding.message


def decided(plan: Building) -> tuple[Finding, ...]:
    return frame(plan, lambda path: Place(path=path))[1]
