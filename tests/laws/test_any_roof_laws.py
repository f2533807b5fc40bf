"""Laws of roofs of any shape, measured on the frame: wood apart, tops in their slopes, ends and seats that touch."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from math import hypot

import pytest
from any_roofs import for_every_roof
from measured import outline_points, world_box
from roof_measure import RAFTERS, RIDGES, Plane, in_plan, seat_in_plan, slope_plane, top_line, touches
from shapely import Polygon, union_all
from shop import with_role

from takeoff.catalog.profiles import profile
from takeoff.checks.audit import overlaps
from takeoff.findings import Place
from takeoff.framing.frame import frame
from takeoff.model.building import FramedBuilding
from takeoff.model.face import Face
from takeoff.model.member import Member
from takeoff.plan.by_name import ByName
from takeoff.plan.footprint import Side, footprint
from takeoff.plan.schema import Building
from takeoff.sheathing.sheathe import sheathe

NEAR = 1e-5
THIRTY_SECOND = 1 / 32
HIPS = ("hip", "valley")


@lru_cache(maxsize=64)
def framed(building: Building) -> FramedBuilding:
    """The frame; framed once for all laws that ask for it."""
    return frame(building, lambda path: Place(path=path))[0]


@for_every_roof()
def test_no_two_sticks_stand_in_each_other_by_more_than_a_thirty_second(building: Building) -> None:
    found = [
        f"{a.role.name} of {a.face} stands {shared.depth:.3f} in {b.role.name} of {b.face} at {shared.middle}"
        for a, b, shared in overlaps(framed(building).members)
    ]
    assert found == []


def slopes(frame: FramedBuilding) -> Iterator[tuple[Face, tuple[Member, ...]]]:
    """Each slope with its rafters."""
    for face in frame.faces:
        if face.kind == "slope":
            yield face, tuple(m for m in frame.members if m.face == face.name and m.role.name in RAFTERS)


def carrier_of(building: Building, face: Face) -> Side:
    return footprint(building).side(face.name.removesuffix(" slope"))


@for_every_roof()
def test_tops_of_all_rafters_of_a_slope_lie_in_one_plane_that_rises_inward_at_its_pitch(building: Building) -> None:
    for face, rafters in slopes(framed(building)):
        side = carrier_of(building, face)
        pitch = building.roof.pitch_of(side.name)
        assert pitch is not None
        assert rafters, f"{face.name} has no rafter"
        plane = slope_plane(max(rafters, key=lambda m: top_line(m).length))
        assert plane.gradient == pytest.approx([-n * pitch.slope for n in side.normal], abs=1e-9)
        for spot, height in top_corners(rafters):
            assert height == pytest.approx(plane.height_over(spot), abs=NEAR)


def top_corners(sticks: tuple[Member, ...]) -> Iterator[tuple[tuple[float, float], float]]:
    """Corners of the top edges, at mid-thickness: in plan, and how high."""
    for stick in sticks:
        for x, y in outline_points(stick):
            if abs(y - stick.profile.depth_in) < NEAR:
                wx, wy, wz = stick.placement.to_world((x, y, 0.0))
                yield (wx, wy), wz


def planes(frame: FramedBuilding) -> list[Plane]:
    return [slope_plane(max(rafters, key=lambda m: top_line(m).length)) for _, rafters in slopes(frame)]


@for_every_roof()
def test_both_top_edges_of_a_hip_lie_in_or_under_its_slopes_and_one_lies_in_a_slope(building: Building) -> None:
    frame = framed(building)
    roof = planes(frame)
    for hip in with_role(frame.members, "hip"):
        half, middle = hip.profile.thickness_in / 2, hip.length_in / 2
        x, y, z = hip.placement.to_world((middle, hip.profile.depth_in, 0.0))
        pair = sorted(roof, key=lambda plane: abs(plane.height_over((x, y)) - z))[:2]
        under = []
        for w in (-half, half):
            x, y, z = hip.placement.to_world((middle, hip.profile.depth_in, w))
            under.append(min(plane.height_over((x, y)) for plane in pair) - z)
        assert min(under) == pytest.approx(0, abs=NEAR)


@for_every_roof()
def test_the_middle_of_a_valleys_top_edge_is_where_two_slopes_meet(building: Building) -> None:
    frame = framed(building)
    roof = planes(frame)
    for valley in with_role(frame.members, "valley"):
        for spot, height in top_corners((valley,)):
            assert sum(abs(plane.height_over(spot) - height) < NEAR for plane in roof) >= 2


@for_every_roof()
def test_every_rafter_hip_and_valley_ends_on_wood_at_the_top(building: Building) -> None:
    frame = framed(building)
    carriers = with_role(frame.members, *RIDGES, *HIPS, *RAFTERS)
    for stick in with_role(frame.members, *RAFTERS, *HIPS):
        near = near_end(stick, 1, carriers)
        assert touches(stick, 1, near, THIRTY_SECOND), f"{stick.role.name} of {stick.face} at {top_line(stick).high}"


@for_every_roof()
def test_every_rafter_hip_and_valley_that_stands_on_no_plate_ends_on_wood_at_the_foot(building: Building) -> None:
    frame = framed(building)
    carriers = with_role(frame.members, *RIDGES, *HIPS, *RAFTERS)
    for stick in with_role(frame.members, *RAFTERS, *HIPS):
        assert stick.rafter is not None
        if not stick.rafter.seat:
            near = near_end(stick, 0, carriers)
            assert touches(stick, 0, near, THIRTY_SECOND), f"{stick.role.name} of {stick.face} at {top_line(stick).low}"


def near_end(stick: Member, end: int, others: tuple[Member, ...]) -> list[Member]:
    spot = top_line(stick).high if end else top_line(stick).low
    around = stick.profile.depth_in * 2 + 6
    boxes = [(other, world_box(other)) for other in others]
    return [o for o, (low, high) in boxes if all(low[i] - around < spot[i] < high[i] + around for i in range(3))]


@for_every_roof()
def test_every_seat_bears_on_plates(building: Building) -> None:
    """Rafters over the plate's width or their whole seat; hips and valleys, across a corner, on something."""
    frame = framed(building)
    plates = with_role(frame.members, "top-plate", "cap-plate")
    for stick in with_role(frame.members, *RAFTERS, *HIPS):
        assert stick.rafter is not None
        if stick.rafter.foot is not None:
            continue
        assert stick.rafter.seat > 0, f"{stick.role.name} of {stick.face} has neither seat nor foot"
        seat = seat_in_plan(stick)
        under = [in_plan(p) for p in plates if abs(world_box(p)[1][2] - seat_height(stick)) < NEAR]
        bearing = union_all(under, grid_size=1e-6).intersection(seat).area / stick.profile.thickness_in
        if stick.role.name in HIPS:
            assert bearing > 0, f"{stick.role.name} at {top_line(stick).low}"
        else:
            depth = profile(building.walls.for_side(stick.face.removesuffix(" slope")).studs).depth_in
            assert bearing >= min(stick.rafter.seat, depth) - NEAR, f"{stick.role.name} of {stick.face}"


def seat_height(stick: Member) -> float:
    """Height of the level cut in the world."""
    assert stick.rafter is not None
    x, y = stick.rafter.to_stick(stick.rafter.seat, 0.0)
    return stick.placement.to_world((x, y, 0.0))[2]


@for_every_roof()
def test_a_rafter_stands_on_every_multiple_of_the_spacing_where_the_slope_is_over_the_house(building: Building) -> None:
    """But where less than two spans of its seat are left between the wall and the hip, or beside an end rafter."""
    frame, spacing = framed(building), building.roof.rafters.spacing
    for face, rafters in slopes(frame):
        side = carrier_of(building, face)
        standing = [face.placement.from_world(m.placement.origin)[0] for m in rafters]
        level = 1 / hypot(1, building.roof.pitch_of(side.name).slope)  # type: ignore[union-attr]
        low, _, high, _ = face.outline.bounds
        steps = [k * spacing for k in range(int(low // spacing), int((high + side.length_in) // spacing) + 1)]
        from_left, from_right = (
            missing(face, us, standing, level) for us in (steps, [side.length_in - s for s in steps])
        )
        assert not from_left or not from_right, f"{face.name}: none at {min(from_left, from_right, key=len)}"


def missing(face: Face, lines: list[float], standing: list[float], level: float) -> list[float]:
    """Layout lines with a slice of the slope worth a rafter and none standing there."""
    ends = [edge.a[0] for edge in face.outline.edges if edge.role == "rake" and abs(edge.a[0] - edge.b[0]) < NEAR]
    return [
        u
        for u in lines
        for cut in face.outline.slices(u)
        if (cut.v1 - max(cut.v0, 0.0)) * level > 12
        and not any(abs(u - stands) < 1.5 for stands in standing)
        and not any(abs(u - end) < 30 for end in ends)
    ]


@for_every_roof()
def test_panels_cover_every_slope_exactly_once(building: Building) -> None:
    frame = sheathe(framed(building))
    for face in frame.faces:
        if face.kind == "slope":
            panels = [panel.polygon for panel in frame.panels if panel.face == face.name]
            outline = face.outline.polygon
            covered = union_all(panels, grid_size=1e-6)
            assert covered.symmetric_difference(outline).area < 1e-3 * outline.length, face.name
            assert sum(panel.area for panel in panels) == pytest.approx(outline.area, rel=1e-6), face.name


@for_every_roof()
def test_slopes_seen_from_above_fill_the_outline_of_the_roof_exactly_once(building: Building) -> None:
    plain = building.model_copy(update={"roof": building.roof.model_copy(update={"fascia": None})})
    parts = [seen_from_above(face) for face, _ in slopes(framed(plain))]
    gaps = 0.0
    ridge = building.roof.ridge
    if ridge and ridge.vent:
        return  # the sheathing stops beside the ridge: its outline leaves a slot
    whole = union_all(parts, grid_size=1e-6)
    assert sum(part.area for part in parts) == pytest.approx(whole.area + gaps, rel=1e-6)
    assert isinstance(whole, Polygon)
    assert not whole.interiors
    assert whole.covers(Polygon(footprint(building).points).buffer(-NEAR))
    assert len(whole.simplify(1e-4).exterior.coords) == len(footprint(building).points) + 1


def seen_from_above(face: Face) -> Polygon:
    return Polygon([face.placement.to_world((*edge.a, 0.0))[:2] for edge in face.outline.edges])


@for_every_roof()
def test_plates_of_a_level_cover_the_walls_exactly_once(building: Building) -> None:
    frame, walls = framed(building), building.walls
    ground = Polygon(footprint(building).points)
    ring = ground.difference(ground.buffer(-profile(walls.studs).depth_in, join_style="mitre"))
    platform = all(walls.for_side(side.name).frame == "platform" for side in footprint(building).sides)
    for role in ("bottom-plate", "top-plate", "cap-plate") if platform else ("bottom-plate",):
        laid = [in_plan(plate) for plate in with_role(frame.members, role)]
        covered = union_all(laid, grid_size=1e-6)
        assert sum(plate.area for plate in laid) == pytest.approx(covered.area, abs=0.05), f"{role}s overlap"
        assert covered.symmetric_difference(ring).area < 0.05, f"{role}s cover the walls"


@for_every_roof()
def test_pitches_told_side_by_side_but_equal_give_the_roof_of_one_pitch(building: Building) -> None:
    roof = building.roof
    eaves = [side.name for side in footprint(building).sides if not roof.is_gable(side.name)]
    if len({str(roof.pitch_of(name)) for name in eaves}) > 1:
        return
    told = roof.model_copy(update={"pitches": ByName(dict.fromkeys(eaves, roof.pitch))})
    other = framed(building.model_copy(update={"roof": told}))
    assert other.members == framed(building).members
    assert other.faces == framed(building).faces
