"""Laws of framed walls, measured on the wall: room for every stud, what it stands on and under, plates, openings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise

import pytest
from measured import box_of, framed, world_box, world_corners
from shapely import Polygon, union_all
from shop import with_role
from standing import NEAR, beyond, boxed, filled
from strategies import for_any_building

from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.profiles import profile
from takeoff.geometry.placement import Placement
from takeoff.geometry.vec import UP, Vec
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.footprint import Side, footprint
from takeoff.plan.schema import Building

UPRIGHTS = ("stud", "king-stud", "jack-stud", "cripple", "corner-stud", "gable-stud", "post")
PLATES = ("bottom-plate", "top-plate", "cap-plate")
CARRIERS = (*PLATES, "sill", "header")
LIDS = ("top-plate", "sill", "header", "end-rafter", "common-rafter", "ridge-beam", "ridge-board")


@dataclass(frozen=True, slots=True, kw_only=True)
class OnWall:
    """A stick by its extent on its wall: u along it, v up it, w outward [in]."""

    member: Member
    u: tuple[float, float]
    v: tuple[float, float]
    w: tuple[float, float]


def on_walls(building: Building, frame: FramedBuilding) -> Iterator[tuple[Side, tuple[OnWall, ...]]]:
    """The sticks of each side's wall, measured from its left end seen from outside."""
    for side in footprint(building).sides:
        yield side, tuple(on_wall(side, m) for m in frame.members if m.face == side.name)


def on_wall(side: Side, member: Member) -> OnWall:
    axes = Placement((*side.start, 0.0), (*side.direction, 0.0), UP)
    low, high = box_of(tuple(axes.from_world(corner) for corner in world_corners(member)))
    return OnWall(member=member, u=(low[0], high[0]), v=(low[1], high[1]), w=(low[2], high[2]))


def overlap(a: tuple[float, float], b: tuple[float, float]) -> float:
    return min(a[1], b[1]) - max(a[0], b[0])


@for_any_building
def test_uprights_of_a_wall_have_room_beside_each_other(building: Building) -> None:
    for _, sticks in on_walls(building, framed(building)):
        uprights = [s for s in sticks if s.member.role.name in UPRIGHTS]
        for a, b in combinations(uprights, 2):
            clear = overlap(a.u, b.u) < NEAR or overlap(a.v, b.v) < NEAR
            assert clear, f"{a.member.role.name} and {b.member.role.name} in {a.member.face} at {a.u} and {b.u}"


@for_any_building
def test_every_upright_stands_on_a_plate_a_sill_or_a_header_and_ends_under_something(building: Building) -> None:
    frame = framed(building)
    carriers, lids = (boxed(with_role(frame.members, *roles)) for roles in (CARRIERS, LIDS))
    for stud in with_role(frame.members, *UPRIGHTS):
        what = f"{stud.role.name} in {stud.face} at {stud.placement.origin}, {stud.length_in:.3f} long"
        assert any(filled(carriers, spot) for spot in beyond(stud, 0)), f"nothing under the {what}"
        assert any(filled(lids, spot) for spot in beyond(stud, 1)), f"nothing over the {what}"


@for_any_building
def test_plates_of_a_level_cover_the_walls_exactly_once_and_only_doors_are_left_out(building: Building) -> None:
    frame = framed(building)
    platform = [s for s in footprint(building).sides if building.walls.for_side(s.name).frame == "platform"]
    every = union_all([strip(building, side) for side in footprint(building).sides])
    carried = union_all([strip(building, side) for side in platform])
    doors = union_all([gap for side in footprint(building).sides for gap in door_gaps(building, side)])
    for role, wanted in (("bottom-plate", every.difference(doors)), ("top-plate", carried), ("cap-plate", carried)):
        laid = [Polygon([corner[:2] for corner in flat(m)]) for m in with_role(frame.members, role)]
        assert sum(p.area for p in laid) == pytest.approx(union_all(laid).area, abs=0.01), f"{role}s overlap"
        assert union_all(laid).symmetric_difference(wanted).area < 0.05, f"{role}s cover the walls"


def strip(building: Building, side: Side) -> Polygon:
    """The wall of a side seen from above: eave walls run through, gable walls stand between them."""
    ground = footprint(building)
    ends = (0.0, 0.0)
    if side.name in building.roof.gables:
        ends = tuple(depth_of(building, n.name) for n in (ground.left_of(side.name), ground.right_of(side.name)))
    return seen_from_above(building, side, (ends[0], side.length_in - ends[1]))


def door_gaps(building: Building, side: Side) -> Iterator[Polygon]:
    for opening in building.walls.openings:
        if opening.side == side.name and not opening.has_sill:
            yield seen_from_above(building, side, (opening.left_in, opening.right_in))


def seen_from_above(building: Building, side: Side, u: tuple[float, float]) -> Polygon:
    (x, y), (ox, oy), depth = side.direction, side.normal, depth_of(building, side.name)
    x0, y0 = side.start
    return Polygon(
        [(x0 + x * a - ox * w, y0 + y * a - oy * w) for a, w in ((u[0], 0), (u[1], 0), (u[1], depth), (u[0], depth))]
    )


def depth_of(building: Building, side: str) -> float:
    return profile(building.walls.for_side(side).studs).depth_in


def flat(plate: Member) -> list[Vec]:
    """Corners of the wide face of a plate."""
    return [plate.placement.to_world((float(x), float(y), 0.0)) for x, y in plate.side.exterior.coords[:-1]]


@for_any_building
def test_joints_of_top_and_cap_plates_are_two_feet_apart_and_no_plate_is_longer_than_stock(building: Building) -> None:
    for _, sticks in on_walls(building, framed(building)):
        joints = {role: splices(sticks, role) for role in PLATES}
        assert all(abs(a - b) >= 24 - NEAR for a in joints["top-plate"] for b in joints["cap-plate"])
        studs = [sum(s.u) / 2 for s in sticks if s.member.role.name in UPRIGHTS]
        for joint in (*joints["bottom-plate"], *joints["top-plate"]):
            assert min(abs(joint - u) for u in studs) < NEAR, "joints of plates on studs are on the middle of a stud"
        for stick in sticks:
            if stick.member.role.name in PLATES:
                on_sale = stock_lengths(stick.member.profile, stick.member.grade)
                assert stick.member.length_in <= on_sale[-1] + NEAR


def splices(sticks: tuple[OnWall, ...], role: str) -> list[float]:
    """Where two plates of one level meet along a wall [in]."""
    runs = sorted(s.u for s in sticks if s.member.role.name == role)
    return [a[1] for a, b in pairwise(runs) if b[0] - a[1] < NEAR]


@for_any_building
def test_no_stick_stands_in_a_rough_opening_and_it_is_as_wide_and_high_as_wanted(building: Building) -> None:
    frame = framed(building)
    for side, sticks in on_walls(building, frame):
        for opening in (o for o in building.walls.openings if o.side == side.name):
            u, v = (opening.left_in, opening.right_in), (opening.sill_in, opening.head_in)
            assert u[1] - u[0] == pytest.approx(opening.rough_width_in)
            assert v[1] - v[0] >= opening.rough_height_in - NEAR
            for stick in (on_wall(side, m) for m in frame.members if m.role.load == 1):
                through = overlap(stick.w, (-depth_of(building, side.name), 0.0))
                into = min(overlap(stick.u, u), overlap(stick.v, v), through)
                assert into < NEAR, f"{stick.member.role.name} in {opening.call} of {side.name}"
            jacks = [s.u for s in sticks if s.member.role.name == "jack-stud"]
            assert any(abs(jack[1] - u[0]) < NEAR for jack in jacks)
            assert any(abs(jack[0] - u[1]) < NEAR for jack in jacks)
            heads = [s.v[0] for s in sticks if s.member.role.name == "header" and overlap(s.u, u) > NEAR]
            assert heads == pytest.approx([v[1]] * len(heads))
            assert len(heads) >= 1
            sills = [s.v[1] for s in sticks if s.member.role.name == "sill" and overlap(s.u, u) > NEAR]
            assert sills == pytest.approx([v[0]] if opening.has_sill else [])


@for_any_building
def test_headers_bear_on_every_jack_beside_them(building: Building) -> None:
    for _, sticks in on_walls(building, framed(building)):
        headers = [s for s in sticks if s.member.role.name == "header"]
        for jack in (s for s in sticks if s.member.role.name == "jack-stud"):
            over = [h for h in headers if overlap(h.u, jack.u) > NEAR]
            assert over
            assert all(abs(h.v[0] - jack.v[1]) < NEAR and overlap(h.u, jack.u) > 1.5 - NEAR for h in over)


@for_any_building
def test_studs_stand_on_the_layout_from_one_corner_through_openings(building: Building) -> None:
    for side, sticks in on_walls(building, framed(building)):
        spacing = building.walls.for_side(side.name).spacing_in
        middles = sorted(sum(s.u) / 2 for s in sticks if s.member.role.name in UPRIGHTS)
        reaches = [s.u for s in sticks if s.member.role.name in UPRIGHTS]
        ends = min(u for u, _ in reaches), max(u for _, u in reaches)
        steps = [k * spacing for k in range(1, int(side.length_in / spacing) + 1)]
        from_left = [u for u in steps if ends[0] + 0.75 <= u <= ends[1] - 0.75]
        from_right = [u for u in (side.length_in - s for s in steps) if ends[0] + 0.75 <= u <= ends[1] - 0.75]
        assert supported(from_left, middles, reaches) or supported(from_right, middles, reaches)


def supported(layout: list[float], middles: list[float], reaches: list[tuple[float, float]]) -> bool:
    """Whether on each layout line a stick is centred, or others are in its way."""
    return all(
        any(abs(u - m) < NEAR for m in middles) or any(a - 0.75 < u < b + 0.75 for a, b in reaches) for u in layout
    )


@for_any_building
def test_sticks_of_a_wall_stay_in_its_thickness(building: Building) -> None:
    for side, sticks in on_walls(building, framed(building)):
        depth = depth_of(building, side.name)
        for stick in sticks:
            assert -depth - NEAR <= stick.w[0] < stick.w[1] <= NEAR, stick.member.role.name
            assert world_box(stick.member)[0][2] >= -NEAR
