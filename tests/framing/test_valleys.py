"""Valley rafters as a framer meets them: from the inner corner up to the ridge, jacks down on both sides."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest
from any_roofs import ell, tee
from measured import world_corners
from roof_measure import RIDGES, end_normals, on_slope, slope_plane, top_line
from shop import built, roofed, with_role

from takeoff.geometry.vec import dot
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member

INNER = (192.0, 240.0)


@cache
def ell_roof(**roof: object) -> FramedBuilding:
    """A main roof 360 x 240 with a wing of 168 in to the north; the wing's ridge is 84 in from its walls."""
    return built(roofed(ell(360, 240, 168, 160), overhang={"eave": 16}, fascia={"size": "2x6"}, **roof))


def valley(framed: FramedBuilding) -> Member:
    (only,) = with_role(framed.members, "valley")
    return only


def test_the_valley_runs_from_the_inner_corner_to_the_wings_ridge():
    line = top_line(valley(ell_roof()))
    assert line.beside(INNER) == pytest.approx(0, abs=1e-6)
    assert line.beside((276.0, 156.0)) == pytest.approx(0, abs=1e-6)
    assert line.level_to((276.0, 156.0)) > line.run - 3 > 0, "up to the node, less what the ridge takes off"


def test_the_valleys_middle_lies_where_the_slopes_meet_and_needs_no_drop():
    framed = ell_roof()
    line = top_line(valley(framed))
    for name in ("side 4 slope", "side 5 slope"):
        plane = slope_plane(on_slope(framed, name)[0])
        for spot in (INNER, (250.0, 182.0)):
            assert line.height_over(spot) == pytest.approx(plane.height_over(spot), abs=1e-6)


def test_the_valley_is_cut_with_a_double_cheek_at_its_head_and_square_at_its_foot():
    stick = valley(ell_roof())
    assert len(end_normals(stick, 1)) == 2
    (foot,) = end_normals(stick, 0)
    assert foot[2] == pytest.approx(0, abs=1e-9)


def test_the_heel_of_the_valley_bears_on_the_inner_corner():
    stick = valley(ell_roof())
    assert stick.rafter is not None
    x, y, z = stick.placement.to_world((*stick.rafter.to_stick(0.0, 0.0), 0.0))
    assert z == pytest.approx(97.125, abs=1e-6)
    # Its faces come over the walls first: half of 1-1/2 in before the corner, along it.
    assert ((x - INNER[0]) ** 2 + (y - INNER[1]) ** 2) ** 0.5 == pytest.approx(0.75, abs=1e-6)


def test_valley_jacks_stand_on_the_face_of_the_valley_with_no_seat_and_no_tail():
    framed = ell_roof()
    jacks = with_role(framed.members, "valley-jack")
    assert len(jacks) >= 4
    across = valley(framed).placement.z
    for jack in jacks:
        assert jack.rafter is not None
        if jack.rafter.foot is None or jack.rafter.seat:
            continue
        (foot,) = end_normals(jack, 0)
        assert abs(dot(jack.placement.direction_to_world(foot), across)) == pytest.approx(1), "cut to the valley's face"
        assert jack.rafter.tail == 0


def test_valley_jacks_of_one_side_differ_by_the_same_length():
    """16 in of run at 8 in 12 are 19.23 in along the slope, as for jacks on a hip."""
    jacks = [m for m in on_slope(ell_roof(), "side 5 slope", "valley-jack") if m.rafter and not m.rafter.seat]
    lengths = sorted(top_line(jack).length for jack in jacks)
    steps = [b - a for a, b in pairwise(lengths)]
    assert steps
    assert steps == pytest.approx([16 * (1 + (8 / 12) ** 2) ** 0.5] * len(steps), abs=1e-6)


def test_cripple_jacks_run_from_the_valley_to_the_hip_over_it():
    framed = ell_roof()
    cripples = with_role(framed.members, "cripple-jack")
    assert cripples
    for cripple in cripples:
        assert cripple.rafter is not None
        assert not cripple.rafter.seat


def test_cripple_jacks_lose_length_at_both_ends():
    """The hip over the valley comes down square to it: 16 in along the eave cost 32 in of run, at 8 in 12."""
    cripples = with_role(ell_roof().members, "cripple-jack")
    inside = sorted(top_line(m).length for m in cripples if len(end_normals(m, 0)) == len(end_normals(m, 1)) == 1)
    steps = [b - a for a, b in pairwise(inside)]
    assert steps
    assert steps == pytest.approx([32 * (1 + (8 / 12) ** 2) ** 0.5] * len(steps), abs=1e-6)


def test_the_ridge_of_the_lower_wing_ends_at_the_node_and_the_main_one_runs_past():
    framed = ell_roof()
    tops = sorted(round(max(c[2] for c in world_corners(ridge)), 6) for ridge in with_role(framed.members, *RIDGES))
    assert len(tops) == 2
    # 120 - 84 in of run more, at 8 in 12.
    assert tops[1] - tops[0] == pytest.approx(36 * 8 / 12)


def test_the_fascias_are_mitred_inward_at_the_inner_corner():
    boards = with_role(ell_roof().members, "fascia")
    west = next(m for m in boards if m.face == "side 4 eave")
    # Its front stops where the fronts meet: 16 in off the wall and 1-1/2 in more.
    assert min(c[1] for c in world_corners(west)) == pytest.approx(240 + 16, abs=1e-6)
    bevels = sorted(round(cut.bevel_deg, 6) for cut in west.cuts)
    assert bevels == [-45, 45]


def test_the_two_valleys_of_a_wing_are_mirror_images():
    framed = built(roofed(tee(480, 240, 160, 120, 160), overhang={"eave": 16}))
    one, other = (top_line(m) for m in with_role(framed.members, "valley"))
    assert one.length == pytest.approx(other.length)
    assert one.low[0] + other.low[0] == pytest.approx(480)
    assert one.low[1:] == pytest.approx(other.low[1:])
