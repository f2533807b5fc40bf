"""Walls of a dormer: its front and two cheeks, standing on soles that lie on the main roof's sheathing.

They come with the roof that they stand on, not with the walls of the house.

Each wall is framed as if it went down to the floor, and then cut off along the tops of the soles.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.catalog.roles import role
from takeoff.framing.dormer import Spot
from takeoff.framing.dormer_lines import (
    Lying,
    MainEave,
    cheek_lines,
    placed_on_sheathing,
    valley_plate_lines,
    with_sole_tape,
)
from takeoff.framing.dormer_valleys import valley_rafters
from takeoff.framing.faces import wall_cover, wall_face
from takeoff.framing.gable_end import post_members
from takeoff.framing.laid_over import height_over, rise_along, trimmed
from takeoff.framing.lines import wall_lines
from takeoff.framing.openings import opening_members
from takeoff.framing.part import Part
from takeoff.framing.plates import plates
from takeoff.framing.roof_members import longest_of, refused
from takeoff.framing.stick import Bench
from takeoff.framing.studs import studs
from takeoff.framing.valley_plates import ValleyPlate, flat_boards, in_lengths, whole_plates
from takeoff.framing.walls import longest_stock, stud_centres, walls
from takeoff.geometry.outline import Outline, cut_off
from takeoff.geometry.polygon import cleaned
from takeoff.measure import format_length

if TYPE_CHECKING:
    from collections.abc import Callable

    from shapely import Polygon

    from takeoff.findings import Place
    from takeoff.framing.minor import Minor
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.wall import Wall
    from takeoff.geometry.placement import Placement
    from takeoff.model.face import Face
    from takeoff.model.layout import LayoutLine
    from takeoff.model.member import Member


ROOF_LOAD = role("valley-plate").load
"""The delivery that the roof's frame comes with."""


def dormer_walls(
    spot: Spot,
    minor: Minor,
    roof: RoofFrame,
    written: Callable[[str], Place],
    rafters: tuple[float, ...],
    main: MainEave,
) -> Part:
    """Front, cheeks, soles and valley plates of a dormer.

    Args:
        spot: where it stands.
        minor: the dormer.
        roof: its own.
        written: gives the place in the plan of a path.
        rafters: centre lines of the main rafters along u, over which valley plates are joined [in].
        main: the eave of the slope that it stands on.

    Raises:
        PlanError: a window of its front reaches down into the main roof.
    """
    deck, top = spot.plane(spot.sheathing), spot.plane(spot.layer)
    ends = {side.name: _end(spot, roof, top) for side in minor.ground.sides if "cheek" in side.name}
    standing = tuple(
        _ending(wall, ends[wall.side.name], at_right="right" in wall.side.name) if wall.side.name in ends else wall
        for wall in walls(minor.building, roof, minor.ground, lambda _: written(spot.path))
    )
    _refuse_low_windows(spot, standing, top, written)
    groups = tuple(tuple(_sticks(wall, top)) for wall in standing)
    lying = _lying(spot, minor, roof, top, rafters)
    plates_on = tuple(_soles_and_valleys(spot, minor, lying, top, written))
    return Part(
        members=tuple(map(_with_the_roof, (*(m for group in groups for m in group), *plates_on))),
        lines=tuple(
            replace(line, load=ROOF_LOAD)
            for line in _lines(spot, minor, roof, lying, tuple(zip(standing, groups, strict=True)), main)
        ),
        faces=tuple(_face(minor, wall, roof, deck) for wall in standing),
    )


def _with_the_roof(member: Member) -> Member:
    return replace(member, role=replace(member.role, load=ROOF_LOAD))


def _end(spot: Spot, roof: RoofFrame, top: Placement) -> float:
    """How long a cheek is at its top, from the front in [in]: to where the plates, or the rake, run into the roof."""
    flat = 0.0 if spot.dormer.shape == "gable" else spot.pitch
    stand = 0.0 if spot.dormer.shape == "gable" else roof.plan.slopes[0].common.height_above_plate
    x, y = roof.plan.lines[0].side.start
    return (spot.plate + stand - height_over(top, x, y)) / (spot.rise - flat)


def _ending(wall: Wall, length: float, *, at_right: bool) -> Wall:
    """A cheek that ends so far from the front, which is at its left end if it is the right cheek."""
    whole = wall.side.length_in
    if at_right:
        end = (length, length)
        return replace(wall, ends=(wall.ends[0], end), cap_ends=(wall.cap_ends[0], end))
    start = (whole - length, whole - length)
    return replace(wall, ends=(start, wall.ends[1]), cap_ends=(start, wall.cap_ends[1]))


def _sticks(wall: Wall, top: Placement) -> Iterator[Member]:
    made = (
        *(
            plate
            for plate in plates(wall, stud_centres(wall), longest_stock(wall))
            if plate.role.name != "bottom-plate"
        ),
        *studs(wall),
        *post_members(wall),
        *opening_members(wall),
    )
    yield from filter(None, (trimmed(stick, top) for stick in made))


def _refuse_low_windows(
    spot: Spot, standing: tuple[Wall, ...], top: Placement, written: Callable[[str], Place]
) -> None:
    """A window's sill stands clear of the roof over the whole depth of the front wall."""
    for wall in standing:
        x, y = wall.side.start
        nx, ny = wall.side.normal
        depth = wall.studs.depth_in
        least = height_over(top, x - nx * depth, y - ny * depth) + wall.plate
        for index, opening in enumerate(wall.openings):
            if opening.v[0] < least:
                by = format_length(least - opening.v[0])
                message = (
                    f"the {opening.what} of the {spot.label} reaches {by} too far down: its sill has to clear the main"
                    " roof; take one that is less high, or write a greater height for the dormer"
                )
                raise refused("frame.dormer", written(f"{spot.path}.windows[{index}]"), message)


def _over_trimmers(spot: Spot, plate: ValleyPlate) -> ValleyPlate:
    """A valley plate, beside valley rafters only as far as the trimmers lie under it."""
    from shapely import box

    if not spot.supporting:
        return plate
    (left, right), depth = spot.dormer.across_in, spot.studs.depth_in
    u0, v0, u1, v1 = plate.shape.bounds
    at_left = u0 + u1 < left + right
    lying = box(u0, v0, left + depth, v1) if at_left else box(right - depth, v0, u1, v1)
    return replace(plate, shape=max(cleaned(plate.shape.intersection(lying)), key=lambda part: float(part.area)))


def _lying(spot: Spot, minor: Minor, roof: RoofFrame, top: Placement, rafters: tuple[float, ...]) -> Lying:
    longest = longest_of(spot.valley, minor.building.walls.plates_grade)
    whole = tuple(_over_trimmers(spot, plate) for plate in whole_plates(roof, top, spot.valley.depth_in))
    return Lying(
        soles=tuple(_soles(spot, tuple(plate.shape for plate in whole))),
        valleys=tuple(
            replace(plate, shape=piece) for plate in whole for piece in in_lengths(plate.shape, longest, rafters)
        ),
    )


def _soles_and_valleys(
    spot: Spot, minor: Minor, lying: Lying, top: Placement, written: Callable[[str], Place]
) -> Iterator[Member]:
    grade = minor.building.walls.plates_grade
    bench = Bench(building=minor.building.name, face="valley", placement=top, written=written(spot.path))
    if spot.supporting and minor.building.roof.ridge:
        yield from valley_rafters(
            spot, minor.building.roof.ridge.size, minor.building.roof.rafters.grade, written(spot.path)
        )
    for plate in lying.valleys:
        # Beside valley rafters it may be shorter than it is wide.
        along = (plate.run[1], plate.run[0]) if spot.supporting else None
        yield from flat_boards(bench, top, (plate.shape,), spot.valley, grade, "valley-plate", along)
    for name, sole in zip(("front", "left cheek", "right cheek"), lying.soles, strict=True):
        on = replace(bench, face=f"{spot.label} {name}")
        yield from flat_boards(on, top, (sole,), spot.studs, grade, "bottom-plate")


def _lines(
    spot: Spot,
    minor: Minor,
    roof: RoofFrame,
    lying: Lying,
    walls: tuple[tuple[Wall, tuple[Member, ...]], ...],
    main: MainEave,
) -> Iterator[LayoutLine]:
    for wall, members in walls:
        cheek = next((k for k, name in enumerate(("left cheek", "right cheek"), start=1) if name in wall.side.name), 0)
        if cheek:
            yield from cheek_lines(spot, wall, members, lying.soles[cheek], at_right=cheek == 2)
        else:
            yield from with_sole_tape(spot, lying.soles[0], wall_lines(wall, minor.ground, members))
    yield from valley_plate_lines(roof, lying, spot.plane(spot.layer))
    yield from placed_on_sheathing(spot, lying, main)


def _soles(spot: Spot, valleys: tuple[Polygon, ...]) -> Iterator[Polygon]:
    """Soles of front and cheeks: the cheeks' run through, and up to the valley plates."""
    from shapely import box, union_all

    (u0, u1), (low, high), depth = spot.dormer.across_in, spot.sole_v, spot.studs.depth_in
    yield box(u0 + depth, low, u1 - depth, high)
    far = max(shape.bounds[3] for shape in valleys)
    for a, b in ((u0, u0 + depth), (u1 - depth, u1)):
        parts = cleaned(box(a, low, b, far).difference(union_all(valleys)))
        yield min(parts, key=lambda part: float(part.bounds[1]))


def _face(minor: Minor, wall: Wall, roof: RoofFrame, deck: Placement) -> Face:
    """The outside of a wall, down to the main roof's sheathing."""
    cover = wall_cover(minor.building, wall, roof)
    x, y = wall.side.start
    clear = (-rise_along(deck, wall.side.direction), 1.0)
    edges = cut_off(cover.edges, clear, height_over(deck, x, y), "sole")
    face = wall_face(wall, replace(cover, edges=edges))
    return replace(face, outline=Outline(edges, face.outline.holes))
