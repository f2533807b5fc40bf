"""Laws of a framed roof, measured in the world: planes, bearings, ridge, layout, rakes and eaves."""

from __future__ import annotations

from itertools import groupby, pairwise
from math import hypot

import numpy as np
import pytest
from measured import Site, framed, outline_points, site, world_box, world_corners
from shapely import Point, Polygon, box, union_all
from shop import with_role
from strategies import for_any_building

from takeoff.catalog.profiles import profile
from takeoff.geometry.vec import Vec
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.schema import Building

NEAR = 1e-5
"""Of two points that are one [in]: float noise of a building a thousand feet from its origin."""

RAFTERS = ("common-rafter", "end-rafter")
PLATES = ("top-plate", "cap-plate")


def slopes(frame: FramedBuilding, *roles: str) -> dict[str, list[Member]]:
    """Sticks by the slope they lie in: ``south slope``, and the rake of it, are one."""
    lying = sorted(with_role(frame.members, *roles), key=lambda m: m.face)
    return {name: list(group) for name, group in groupby(lying, key=lambda m: m.face.removesuffix(" rake"))}


def centre_points(member: Member) -> list[Vec]:
    """Corners of the side outline at mid-thickness, in the world."""
    return [member.placement.to_world((x, y, 0.0)) for x, y in outline_points(member)]


def along(member: Member, at: Site) -> tuple[float, float]:
    """From where to where the stick reaches along the ridge [in]."""
    reach = [at.measured(corner)[0] for corner in world_corners(member)]
    return min(reach), max(reach)


def away(member: Member, at: Site) -> tuple[float, float]:
    """How near the ridge's centre line the stick comes, and how far from it [in]; crossing it is less than nothing."""
    out = [at.measured(corner)[1] for corner in world_corners(member)]
    sign = 1 if sum(out) > 0 else -1
    return min(sign * c for c in out), max(sign * c for c in out)


@for_any_building
def test_top_edges_of_all_rafters_of_a_slope_lie_in_one_plane_of_the_pitch(building: Building) -> None:
    for rafters in slopes(framed(building), *RAFTERS, "barge").values():
        tops = np.array(
            [
                m.placement.to_world((x, y, z))
                for m in rafters
                for x, y in outline_points(m)
                if abs(y - m.profile.depth_in) < NEAR
                for z in (-m.profile.thickness_in / 2, m.profile.thickness_in / 2)
            ]
        )
        centre = tops.mean(axis=0)
        normal = np.linalg.svd(tops - centre, full_matrices=False)[2][2]
        assert np.abs((tops - centre) @ normal).max() < NEAR
        assert hypot(normal[0], normal[1]) / abs(normal[2]) == pytest.approx(building.roof.pitch.slope, abs=1e-7)


@for_any_building
def test_the_tops_of_both_slopes_meet_over_the_ridge(building: Building) -> None:
    frame, at = framed(building), site(building)
    slope = building.roof.pitch.slope
    peaks = [
        z + abs(c) * slope  # run up from the ridge cut to the centre line
        for m in with_role(frame.members, *RAFTERS, "barge")
        for _, c, z in [max((at.measured(p) for p in centre_points(m)), key=lambda p: p[2])]
    ]
    assert max(peaks) - min(peaks) < NEAR


@for_any_building
def test_every_rafter_bears_on_its_plate_with_the_seat_stated(building: Building) -> None:
    frame = framed(building)
    plates = [m for m in with_role(frame.members, *PLATES) if abs(world_box(m)[1][2] - building.walls.height) < NEAR]
    under = union_all([Polygon([p[:2] for p in top_face(m)]) for m in plates])
    plate_of = {f"{side} slope": profile(building.walls.for_side(side).studs).depth_in for side in building.sides or ()}
    for index, member in enumerate(frame.members):
        if member.role.name not in RAFTERS:
            continue
        assert member.rafter is not None
        heel, inner = seat_of(member, building.walls.height)
        seat = hypot(inner[0] - heel[0], inner[1] - heel[1])
        assert seat == pytest.approx(member.rafter.seat, abs=NEAR)
        assert building.roof.rafters.seat in (None, pytest.approx(seat, abs=NEAR))
        assert under.distance(Point(heel[:2])) < NEAR
        # A seat longer than the plate is wide runs on over its inner edge.
        wanted = min(seat, plate_of[member.face])
        touching = under.buffer(NEAR).intersection(between(heel, inner)).length
        assert touching == pytest.approx(wanted, abs=1e-3)
        (joint,) = (j for j in frame.joints if j.upper == index and j.kind == "bears")
        assert frame.members[joint.lower].role.name in PLATES
        assert joint.bearing_in == pytest.approx(wanted, abs=NEAR)


def top_face(plate: Member) -> list[Vec]:
    """Corners of the upper wide face of a plate; its thickness stands up."""
    half = plate.profile.thickness_in / 2
    upper = half if plate.placement.z[2] > 0 else -half
    return [plate.placement.to_world((x, y, upper)) for x, y in outline_points(plate)]


def between(a: Vec, b: Vec) -> object:
    from shapely import LineString

    return LineString([a[:2], b[:2]])


def seat_of(rafter: Member, height: float) -> tuple[Vec, Vec]:
    """Heel and inner end of the seat: the corners of the outline that lie level with the top of the plate."""
    level = [p for p in centre_points(rafter) if abs(p[2] - height) < NEAR]
    ordered = sorted(level, key=lambda p: rafter.placement.from_world(p)[0])
    return ordered[0], ordered[1]


@for_any_building
def test_every_rafter_meets_the_face_of_the_ridge(building: Building) -> None:
    frame, at = framed(building), site(building)
    half = profile(building.roof.ridge.size).thickness_in / 2
    for member in with_role(frame.members, *RAFTERS):
        from_centre = [abs(at.measured(p)[1]) for p in centre_points(member)]
        assert min(from_centre) == pytest.approx(half, abs=NEAR)
        assert sum(abs(c - half) < NEAR for c in from_centre) >= 2  # the ridge cut is plumb
    ridges = with_role(frame.members, "ridge-beam", "ridge-board")
    for ridge in ridges:
        across = [at.measured(corner)[1] for corner in world_corners(ridge)]
        assert (min(across), max(across)) == (pytest.approx(-half, abs=NEAR), pytest.approx(half, abs=NEAR))
    runs = sorted(along(ridge, at) for ridge in ridges)
    assert covers_once(runs, (0.0, at.length))


def covers_once(runs: list[tuple[float, float]], whole: tuple[float, float]) -> bool:
    """Whether runs, in order, lie end to end over the whole."""
    ends = [whole[0], *(x for run in runs for x in run), whole[1]]
    return all(abs(a - b) < NEAR for a, b in zip(ends[::2], ends[1::2], strict=True))


@for_any_building
def test_end_rafters_are_flush_and_commons_stand_on_every_multiple_of_the_spacing_with_room(building: Building) -> None:
    frame, at = framed(building), site(building)
    spacing, t = building.roof.rafters.spacing, profile(building.roof.rafters.size).thickness_in
    standing = {
        name: sorted(sum(along(m, at)) / 2 for m in rafters) for name, rafters in slopes(frame, *RAFTERS).items()
    }
    first, second = standing.values()
    assert first == pytest.approx(second, abs=NEAR), "rafters of the two slopes stand opposite each other"
    assert (first[0], first[-1]) == (pytest.approx(t / 2), pytest.approx(at.length - t / 2))
    steps = [k * spacing for k in range(1, int(at.length / spacing) + 2)]
    with_room = [p for p in steps if 1.5 * t - NEAR <= p <= at.length - 1.5 * t + NEAR]
    other_end = sorted(at.length - p for p in with_room)
    assert first[1:-1] in (pytest.approx(with_room, abs=NEAR), pytest.approx(other_end, abs=NEAR))
    assert len(with_role(frame.members, "end-rafter")) == 4


@for_any_building
def test_an_end_rafter_with_its_outlookers_in_the_pockets_is_a_whole_rafter(building: Building) -> None:
    frame, at = framed(building), site(building)
    outlookers = slopes(frame, "outlooker")
    for name, rafters in slopes(frame, "end-rafter", "common-rafter").items():
        whole = next((m.side for m in rafters if m.role.name == "common-rafter"), None)
        for end in with_role(rafters, "end-rafter"):
            here = along(end, at)
            crossing = [
                o
                for o in outlookers.get(name, [])
                if along(o, at)[0] < here[0] + NEAR and along(o, at)[1] > here[1] - NEAR
            ]
            filled = [cross_section(o, end) for o in crossing]
            assert sum(shape.intersection(end.side).area for shape in filled) < NEAR
            assert bool(filled) == bool(building.roof.outlookers)
            if whole is not None:
                assert union_all([end.side, *filled]).symmetric_difference(whole).area < NEAR * whole.length


def cross_section(stick: Member, across: Member) -> Polygon:
    """What a stick that runs square to another takes of the other's side [in its axes]."""
    local = [across.placement.from_world(corner) for corner in world_corners(stick)]
    xs, ys = [p[0] for p in local], [p[1] for p in local]
    return box(min(xs), min(ys), max(xs), max(ys))


@for_any_building
def test_outlookers_reach_from_the_back_of_the_barge_to_the_side_of_the_first_inside_rafter(building: Building) -> None:
    frame, at = framed(building), site(building)
    back = building.roof.overhang.rake - (profile(building.roof.barge.size).thickness_in if building.roof.barge else 0)
    outlookers, commons = slopes(frame, "outlooker"), slopes(frame, "common-rafter")
    for name, sticks in outlookers.items():
        sides = sorted(x for m in commons[name] for x in along(m, at))
        reaches = {tuple(round(x, 4) + 0.0 for x in along(o, at)) for o in sticks}
        wanted = {(-back, sides[0]), (sides[-1], at.length + back)}
        assert reaches == {tuple(round(x, 4) + 0.0 for x in reach) for reach in wanted}


@for_any_building
def test_barges_stand_at_the_outside_of_the_rakes_and_meet_at_the_peak(building: Building) -> None:
    frame, at = framed(building), site(building)
    over = building.roof.overhang
    barges = with_role(frame.members, "barge")
    assert len(barges) == (4 if building.roof.barge and over.rake else 0)
    for barge in barges:
        low, high = along(barge, at)
        assert low == pytest.approx(-over.rake, abs=NEAR) or high == pytest.approx(at.length + over.rake, abs=NEAR)
        near, far = away(barge, at)
        assert (near, far) == (pytest.approx(0.0, abs=NEAR), pytest.approx(at.span / 2 + over.eave, abs=NEAR))


@for_any_building
def test_fascia_runs_on_the_tail_cuts_to_the_outside_of_the_roof_under_its_plane(building: Building) -> None:
    frame, at = framed(building), site(building)
    over, rafter_tops = building.roof.overhang, {}
    for name, rafters in slopes(frame, *RAFTERS).items():
        rafter_tops[name.removesuffix(" slope")] = max(
            (at.measured(p) for p in centre_points(rafters[0])), key=lambda p: p[2]
        )
    eaves = slopes(frame, "fascia")
    assert len(eaves) == (2 if building.roof.fascia else 0)
    for name, boards in eaves.items():
        t = boards[0].profile.thickness_in
        tail = at.span / 2 + over.eave
        assert covers_once(sorted(along(b, at) for b in boards), (-over.rake, at.length + over.rake))
        for board in boards:
            assert away(board, at) == (pytest.approx(tail, abs=NEAR), pytest.approx(tail + t, abs=NEAR))
            _, c, z = rafter_tops[name.removesuffix(" eave")]
            outer_top = z - (tail + t - abs(c)) * building.roof.pitch.slope
            assert world_box(board)[1][2] == pytest.approx(outer_top, abs=NEAR)


@for_any_building
def test_eave_blocks_fill_every_bay_over_the_plate_and_end_under_the_roof(building: Building) -> None:
    frame, at = framed(building), site(building)
    blocks, rows = slopes(frame, "eave-block"), slopes(frame, *RAFTERS)
    for name, standing in blocks.items():
        rafters = sorted(along(m, at) for m in rows[name.removesuffix(" eave") + " slope"])
        bays = [(a[1], b[0]) for a, b in pairwise(rafters) if b[0] - a[1] > NEAR]
        assert sorted(along(b, at) for b in standing) == [pytest.approx(bay, abs=NEAR) for bay in bays]
        for block in standing:
            assert away(block, at)[1] == pytest.approx(at.span / 2, abs=NEAR)
            low, high = (z for _, _, z in world_box(block))
            cut = with_role(frame.members, "end-rafter")[0].rafter
            assert cut is not None
            assert low == pytest.approx(building.walls.height, abs=NEAR)
            room = building.walls.height + cut.height_above_plate - high
            if building.roof.blocking.eave == "solid":
                # Up to the sheathing, or in an end bay up to the outlooker that crosses it.
                plumb = [pocket.depth * hypot(1, cut.slope) for pocket in cut.pockets]
                assert any(room == pytest.approx(under, abs=NEAR) for under in (0.0, *plumb))
            else:
                assert room >= 1 - NEAR
