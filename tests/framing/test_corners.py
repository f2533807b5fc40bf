"""Walls at outer and inner corners: one runs through, the other butts, and the cap plates lap over both."""

from __future__ import annotations

from functools import cache
from itertools import combinations

import pytest
from any_roofs import ell, zed
from roof_measure import in_plan
from shapely import Point, Polygon, union_all
from shop import built, roofed, with_role

from takeoff.checks.audit import overlaps
from takeoff.model.building import FramedBuilding
from takeoff.plan.verify import building_flaws

DEPTH = 5.5
LEVELS = ("bottom-plate", "top-plate", "cap-plate")
OUTLINES = {
    "ell": ell(360, 240, 168, 160),
    "zed": zed(480, 216, 240, 64),
    "corner cut off": [(0, 0), (240, 0), (240, 120), (192, 168), (0, 168)],
    "eight sides": [(60, 0), (180, 0), (240, 60), (240, 180), (180, 240), (60, 240), (0, 180), (0, 60)],
    "sharp end": [(0, 0), (300, 0), (240, 104), (0, 104)],
}
ASKEW = ("corner cut off", "eight sides", "sharp end")
OUTER = [("ell", k) for k in (0, 1, 2, 3, 5)] + [("zed", k) for k in (0, 1, 3, 4, 5, 7)]
INNER = [("ell", 4), ("zed", 2), ("zed", 6)]


@cache
def framed(name: str) -> FramedBuilding:
    return built(roofed(OUTLINES[name], overhang={"eave": 16}))


def at_corner(name: str, corner: int, level: str) -> set[str]:
    """Walls whose plate of a level fills the square that both walls share at a corner."""
    points = OUTLINES[name]
    (x, y), before, after = points[corner], points[corner - 1], points[(corner + 1) % len(points)]
    toward = [(p[0] - x, p[1] - y) for p in (before, after)]
    inward = [(u / abs(u) if u else 0.0, v / abs(v) if v else 0.0) for u, v in toward]
    sign = -1 if (name, corner) in INNER else 1
    middle = Point(
        x + sign * (inward[0][0] + inward[1][0]) * DEPTH / 2, y + sign * (inward[0][1] + inward[1][1]) * DEPTH / 2
    )
    return {p.face for p in with_role(framed(name).members, level) if in_plan(p).contains(middle)}


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("name", OUTLINES)
def test_plates_leave_no_gap_and_no_overlap_at_any_corner(name, level):
    ground = Polygon(OUTLINES[name])
    walls = ground.difference(ground.buffer(-DEPTH, join_style="mitre"))
    plates = [in_plan(p) for p in with_role(framed(name).members, level)]
    assert union_all(plates, grid_size=1e-6).symmetric_difference(walls).area == pytest.approx(0, abs=0.01)
    assert all(a.intersection(b).area < 0.01 for a, b in combinations(plates, 2))


@pytest.mark.parametrize("name", ASKEW)
def test_no_stick_of_a_wall_stands_in_another_at_corners_that_are_not_square(name):
    sides = {face.name for face in framed(name).faces if face.kind == "wall"}
    sticks = [m for m in framed(name).members if m.face in sides]
    assert [(a.role.name, a.face, b.role.name, b.face) for a, b, _ in overlaps(sticks)] == []


@pytest.mark.parametrize(("at", "flawed"), [(9.0, True), (9.5, False)])
def test_an_opening_leaves_room_for_the_corner_post_of_a_corner_cut_off_at_45_degrees(at, flawed):
    """Along the wall the one round the corner is 5-1/2 times the root of 2 deep, 7-3/4; then a stud of 1-1/2."""
    window = {"side": "side 3", "left": at + 2 * 1.5, "size": {"width": 24, "height": 24}}
    building = roofed(OUTLINES["corner cut off"], walls={"openings": [window]})
    found = [flaw.message for flaw in building_flaws(building) if "too near the left end of 'side 3'" in flaw.message]
    assert bool(found) == flawed


@pytest.mark.parametrize(("name", "corner"), OUTER + INNER)
def test_one_wall_runs_through_at_a_corner_and_its_top_plate_with_it(name, corner):
    (through,) = at_corner(name, corner, "bottom-plate")
    assert at_corner(name, corner, "top-plate") == {through}


@pytest.mark.parametrize(("name", "corner"), OUTER + INNER)
def test_the_cap_plate_of_the_other_wall_laps_over_the_one_that_runs_through(name, corner):
    (through,), (lapping,) = at_corner(name, corner, "top-plate"), at_corner(name, corner, "cap-plate")
    count = len(OUTLINES[name])
    meeting = {f"side {corner + 1}", f"side {(corner - 1) % count + 1}"}
    assert {through, lapping} == meeting


@pytest.mark.parametrize(("name", "corner"), OUTER)
def test_an_outer_corner_has_backing_for_the_inside_finish(name, corner):
    """Within a stud's depth and thickness of the corner three studs stand, of both walls."""
    x, y = OUTLINES[name][corner]
    near = [
        m
        for m in with_role(framed(name).members, "stud", "corner-stud", "king-stud")
        if max(abs(m.placement.origin[0] - x), abs(m.placement.origin[1] - y)) < DEPTH + 3 * 1.5
    ]
    assert len({m.face for m in near}) == 2
    assert len(near) >= 3


def test_sides_that_are_told_to_run_through_do_so_and_the_others_butt_between_them():
    walls = {"through": ["side 2", "side 4"]}
    hut = built(roofed([(0, 0), (240, 0), (240, 168), (0, 168)], walls=walls, overhang={"eave": 16}))
    lengths = {p.face: p.length_in for p in with_role(hut.members, "bottom-plate")}
    assert lengths == {"side 1": 240 - 2 * DEPTH, "side 2": 168, "side 3": 240 - 2 * DEPTH, "side 4": 168}
    assert not list(overlaps(hut.members))
