"""Layout lines: what a tape pulls on plates and ridge, each from one stated end."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.roles import role
from takeoff.framing.laid_ridge import from_square_end
from takeoff.framing.opening_lines import edge_marks, opening_lines
from takeoff.framing.wall import Wall
from takeoff.model.layout import LayoutLine, LayoutMark
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.framing.fold_members import RidgeStick
    from takeoff.framing.rafters import Placed, RafterRow
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.plan.footprint import Footprint

PLATE = "wall, top of cap plate"
CLIP_PLATE = "wall, level top under the clip"
"""What rafters stand on, unless it is something else."""

OPENING_MARKS = (("[", "left edge of"), ("CL", "centre of"), ("]", "right edge of"))

TEE_MARKS = (("<", "left side of"), ("T", "middle of"), (">", "right side of"))


def wall_line(wall: Wall, footprint: Footprint, members: Iterable[Member]) -> LayoutLine:
    """Studs and openings on a wall's plates, from the left end of the plates seen from outside."""
    return _plates_line(wall, left_end(wall, footprint), members)


def left_end(wall: Wall, footprint: Footprint) -> str:
    """What the left end of a side's wall is called."""
    return f"{footprint.left_of(wall.side.name).name} end"


def partition_line(wall: Wall, members: Iterable[Member]) -> LayoutLine:
    """Studs and openings on a partition's plates, from the end that the plan writes first."""
    return _plates_line(wall, "end written first in the plan", members)


def _plates_line(wall: Wall, start: str, members: Iterable[Member]) -> LayoutLine:
    origin, end = wall.extent
    uprights = {
        (round(_u(wall, member) - origin, 6), member.role.layout_symbol, member.role.words)
        for member in members
        if abs(member.placement.x[2]) > 0.5  # stands up
    }
    openings = {
        (round(u - origin, 6), symbol, f"{words} {opening.what}")
        for opening in wall.openings
        for u, (symbol, words) in zip((opening.u[0], sum(opening.u) / 2, opening.u[1]), OPENING_MARKS, strict=True)
    }
    tees = {
        (round(u - origin, 6), symbol, f"{words} a wall that ends here")
        for tee in wall.tees
        for u, (symbol, words) in zip((tee.u[0], sum(tee.u) / 2, tee.u[1]), TEE_MARKS, strict=True)
    }
    return LayoutLine(
        name=f"{wall.side.name} wall plates",
        start=start,
        length_in=end - origin,
        marks=tuple(LayoutMark(*mark) for mark in sorted(uprights | openings | tees)),
        load=1,
    )


def _u(wall: Wall, member: Member) -> float:
    return wall.bench.placement.from_world(member.placement.origin)[0]


def rafter_lines(frame: RoofFrame, footprint: Footprint, stands_on: str = PLATE) -> tuple[LayoutLine, ...]:
    """Rafters on plates and ridges, those of opposite slopes pulled from the same end of the building.

    Args:
        frame: the roof.
        footprint: of the building.
        stands_on: what its rafters stand on, as a line calls it after the side's name.
    """
    plates = (
        line
        for row in frame.rows
        if row.seated
        for line in _plate_lines(
            row,
            footprint,
            CLIP_PLATE if frame.plan.line(row.slope.side).clip else stands_on,
            tuple(mouth.span for mouth in frame.plan.mouths if frame.rows[mouth.main] is row),
        )
    )
    ridges = (
        from_square_end(frame, ridge, line) for ridge in frame.ridges for line in _ridge_lines(frame, ridge, footprint)
    )
    openings = (line for row in frame.rows for line in opening_lines(row))
    return (*plates, *ridges, *openings)


def _plate_lines(
    row: RafterRow, footprint: Footprint, stands_on: str, mouths: tuple[tuple[float, float], ...]
) -> Iterator[LayoutLine]:
    """The plate or purlin that a slope's rafters start on, and the plate of the high wall they run over.

    Rafters over a wing's mouth have a line of their own (`mouth_lines`).
    """
    slope = row.slope
    left, right = slope.walls
    first = footprint.right_of(slope.side) if slope.from_right else footprint.left_of(slope.side)
    standing = [one for one in row.placed if one.seated and not any(a < one.u < b for a, b in mouths)]
    marks = _marks((right - one.u if slope.from_right else one.u - left, one) for one in standing)
    marks = tuple(sorted((*marks, *edge_marks(slope)), key=lambda mark: mark.position_in))
    sides = [slope.side]
    if slope.high_wall:
        sides.append(footprint.right_of(footprint.right_of(slope.side).name).name)
    for side in sides:
        what = "purlin, top and outer face" if slope.on_purlin else stands_on
        # The plates under a clip are shorter than the wall, over whose layout its jacks stand.
        start = f"{first.name} {'corner of the wall' if what == CLIP_PLATE else 'end'}"
        yield LayoutLine(name=f"{side} {what}", start=start, length_in=right - left, marks=marks)


def _ridge_lines(frame: RoofFrame, ridge: RidgeStick, footprint: Footprint) -> tuple[LayoutLine, ...]:
    """One line for both faces where the rafters stand opposite each other, else one a face."""
    faces = [(frame.rows[k].slope.side, _along(frame.rows[k], ridge)) for k in ridge.slopes]
    side = frame.rows[ridge.slopes[0]].slope.side
    over = next((end.side for end in frame.ridge_ends if end.ridge is ridge and end.at_start), None)
    start = f"{over or footprint.left_of(side).name} end"
    first, second = ([mark.position_in for mark in marks] for _, marks in faces)
    both = "top" if frame.rows[ridge.slopes[0]].slope.common.beam else "both faces"
    named = [(both, faces[0][1])] if first == second else [(f"{name} face", marks) for name, marks in faces]
    return tuple(
        LayoutLine(name=f"ridge, {name}", start=start, length_in=ridge.run[1] - ridge.run[0], marks=found)
        for name, found in named
    )


def _along(row: RafterRow, ridge: RidgeStick) -> tuple[LayoutMark, ...]:
    origin = row.slope.bench.placement
    spots = ((ridge.bench.placement.from_world(origin.to_world((one.u, 0.0, 0.0)))[0], one) for one in row.placed)
    return _marks((u - ridge.run[0], one) for u, one in spots if "ridge" in one.cuts.upper)


def _marks(placed: Iterable[tuple[float, Placed]]) -> tuple[LayoutMark, ...]:
    found = ((round(position, 6), role(one.role)) for position, one in placed)
    return tuple(
        LayoutMark(position, known.layout_symbol, known.words.split(",")[0])
        for position, known in sorted(found, key=lambda pair: pair[0])
    )
