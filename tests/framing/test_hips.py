"""Hip rafters as a framer meets them: over the corners, up to the ridge, under the sheathing, out to the fascia."""

from __future__ import annotations

from functools import cache

import pytest
from any_roofs import GLULAM, rectangle
from measured import world_corners
from roof_measure import RIDGES, end_normals, fills, on_slope, slope_plane, top_line, upper_end_on_centre
from shop import built, roofed, with_role

from takeoff.geometry.vec import Vec, dot
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member

LONG, WIDE = 288.0, 200.0
APEXES = ((100.0, 100.0), (188.0, 100.0))


@cache
def hip_roof(**roof: object) -> FramedBuilding:
    overhang = {"eave": 16}
    return built(roofed(rectangle(LONG, WIDE), overhang=overhang, fascia={"size": "2x6"}, **roof))


def south_west(framed: FramedBuilding) -> Member:
    return next(m for m in with_role(framed.members, "hip") if max(top_line(m).low[:2]) < 0)


def planes_in_world(member: Member, end: int) -> list[Vec]:
    return [member.placement.direction_to_world(normal) for normal in end_normals(member, end)]


def test_a_hip_roof_has_a_hip_over_each_corner_and_one_ridge_between_their_heads():
    framed = hip_roof()
    hips, (ridge,) = with_role(framed.members, "hip"), with_role(framed.members, *RIDGES)
    assert len(hips) == 4
    corners = [(0.0, 0.0), (LONG, 0.0), (LONG, WIDE), (0.0, WIDE)]
    for hip in hips:
        assert min(top_line(hip).beside(corner) for corner in corners) == pytest.approx(0, abs=1e-6)
        assert min(top_line(hip).beside(apex) for apex in APEXES) == pytest.approx(0, abs=1e-6)
    assert ridge.length_in == pytest.approx(LONG - WIDE)


def test_hips_of_one_size_roof_are_one_mark():
    assert len({hip.mark for hip in with_role(hip_roof().members, "hip")}) == 1


def test_at_the_ridge_a_hip_has_a_double_cheek_one_against_the_other_hip_and_one_against_the_ridge():
    one, other = planes_in_world(south_west(hip_roof()), 1)
    # The ridge runs east from the apex: its end faces west; the other hip lies mirrored beyond the ridge's line.
    assert sorted([one, other]) == [pytest.approx((0, 1, 0), abs=1e-9), pytest.approx((1, 0, 0), abs=1e-9)]


def test_on_a_square_building_four_hips_meet_in_a_point_each_between_its_neighbours():
    framed = built(roofed(rectangle(240, 240), overhang={"eave": 12}))
    assert not with_role(framed.members, *RIDGES)
    for hip in with_role(framed.members, "hip"):
        (x, y, _), cuts = top_line(hip).high, planes_in_world(hip, 1)
        assert (x, y) == pytest.approx((120, 120), abs=1e-6), "its top edge reaches the middle"
        assert len(cuts) == 2
        along = tuple(hip.placement.x[k] for k in range(2))
        # Each cheek is half of the right angle between two hips: 45 degrees off this one in plan.
        level = (along[0] ** 2 + along[1] ** 2) ** 0.5
        assert [(n[0] * along[0] + n[1] * along[1]) / level for n in cuts] == pytest.approx([0.5**0.5] * 2)


def test_a_hip_is_dropped_until_both_its_edges_lie_in_the_slopes():
    framed = hip_roof()
    hip = south_west(framed)
    slopes = [slope_plane(on_slope(framed, name, "hip-jack")[0]) for name in ("side 1 slope", "side 4 slope")]
    for z in (-0.75, 0.75):
        x, y, height = hip.placement.to_world((hip.length_in / 2, hip.profile.depth_in, z))
        assert min(slope.height_over((x, y)) for slope in slopes) == pytest.approx(height, abs=1e-6)
    x, y, height = hip.placement.to_world((hip.length_in / 2, hip.profile.depth_in, 0.0))
    # At 8 in 12 the slopes fall 8 / 16.97 to the inch square to the hip: 0.354 in over half of 1-1/2.
    assert slopes[0].height_over((x, y)) - height == pytest.approx(0.75 * 8 / (12 * 2**0.5), abs=1e-6)


@pytest.mark.parametrize("size", ["2x8", "2x10", "2x12"])
def test_a_deeper_hip_keeps_its_top_edge_and_is_let_in_deeper_at_the_wall(size):
    deeper = built(roofed(rectangle(LONG, WIDE), overhang={"eave": 16}, hips={"size": size}))
    shallow, deep = south_west(hip_roof()), south_west(deeper)
    assert top_line(deep).height_over((50.0, 50.0)) == pytest.approx(top_line(shallow).height_over((50.0, 50.0)))
    assert shallow.rafter is not None
    assert deep.rafter is not None
    assert deep.rafter.height_above_plate == pytest.approx(shallow.rafter.height_above_plate, abs=1e-6)
    more = deep.rafter.heel_square - shallow.rafter.heel_square
    assert more == pytest.approx(deep.profile.depth_in - shallow.profile.depth_in, abs=1e-6)


def test_the_heel_of_a_hip_is_plumb_over_the_corner_of_the_walls():
    hip = south_west(hip_roof())
    assert hip.rafter is not None
    heel = hip.placement.to_world((*hip.rafter.to_stick(0.0, 0.0), 0.0))
    assert heel[:2] == pytest.approx((0, 0), abs=1e-6)
    assert heel[2] == pytest.approx(97.125, abs=1e-6), "on the plate"


def test_the_tail_of_a_hip_has_a_double_cheek_in_the_planes_of_both_tail_cuts():
    framed = hip_roof()
    hip = south_west(framed)
    assert sorted(planes_in_world(hip, 0)) == [
        pytest.approx((-1, 0, 0), abs=1e-9),
        pytest.approx((0, -1, 0), abs=1e-9),
    ]
    assert top_line(hip).low[:2] == pytest.approx((-16, -16), abs=1e-6), "out to the corner of the eaves"


def test_the_fascias_meet_in_a_mitre_at_the_corner_round_the_tail_of_the_hip():
    framed = hip_roof()
    boards = [m for m in with_role(framed.members, "fascia") if min(c[0] for c in world_corners(m)) < -16]
    south = next(m for m in boards if m.face == "side 1 eave")
    west = next(m for m in boards if m.face == "side 4 eave" and min(c[1] for c in world_corners(m)) < -16)
    assert min(c[0] for c in world_corners(south)) == pytest.approx(-17.5), "the front reaches the outer corner"
    assert min(c[1] for c in world_corners(west)) == pytest.approx(-17.5)
    (first,), (last,) = [south.cuts[0].normal], [west.cuts[1].normal]
    one, other = south.placement.direction_to_world(first), west.placement.direction_to_world(last)
    assert dot(one, other) == pytest.approx(-1), "face to face"
    assert abs(south.cuts[0].bevel_deg) == pytest.approx(45)


def test_jacks_of_both_slopes_meet_the_hip_at_the_same_spots():
    framed = hip_roof()
    south = [upper_end_on_centre(jack) for jack in on_slope(framed, "side 1 slope", "hip-jack")]
    west = [upper_end_on_centre(jack) for jack in on_slope(framed, "side 4 slope", "hip-jack")]
    from_south = sorted(y for x, y in south if x < 95)
    from_west = sorted(x for x, y in west if y < 95)
    assert from_south == pytest.approx(from_west)


def test_a_common_rafter_on_the_ridge_is_whole_and_a_jack_beside_it_shorter():
    framed = hip_roof()
    commons = on_slope(framed, "side 1 slope", "common-rafter")
    jacks = on_slope(framed, "side 1 slope", "hip-jack")
    assert {round(top_line(m).length, 6) for m in commons} == {round(top_line(commons[0]).length, 6)}
    assert max(top_line(m).length for m in jacks) < top_line(commons[0]).length
    assert all(100 <= m.placement.origin[0] <= 188 for m in commons)


def test_hips_end_on_the_end_of_a_beam_wider_than_they_are():
    framed = built(roofed(rectangle(LONG, WIDE), overhang={"eave": 16}, ridge=GLULAM))
    (beam,) = with_role(framed.members, *RIDGES)
    for hip in with_role(framed.members, "hip"):
        x, y, z = top_line(hip).high
        inward = 1 / 64 if x < LONG / 2 else -1 / 64
        assert fills(beam, (x + inward, y, z - 2), 1 / 64)
