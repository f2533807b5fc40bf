"""Layout lines: what a tape pulls on plates and ridge, each from one stated end."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from takeoff.framing.wall import Wall
from takeoff.model.layout import LayoutLine, LayoutMark
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.framing.rafters import RafterRow
    from takeoff.plan.footprint import Footprint

OPENING_MARKS = (("[", "left edge of"), ("CL", "centre of"), ("]", "right edge of"))


def wall_line(wall: Wall, footprint: Footprint, members: Iterable[Member]) -> LayoutLine:
    """Studs and openings on a wall's plates, from the left end of the plates seen from outside."""
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
    return LayoutLine(
        name=f"{wall.side.name} wall plates",
        start=f"{footprint.left_of(wall.side.name).name} end",
        length_in=end - origin,
        marks=tuple(LayoutMark(*mark) for mark in sorted(uprights | openings)),
    )


def _u(wall: Wall, member: Member) -> float:
    return wall.bench.placement.from_world(member.placement.origin)[0]


def rafter_lines(rows: Sequence[RafterRow], footprint: Footprint) -> tuple[LayoutLine, ...]:
    """Rafters on both plates and on the ridge, all pulled from the same end of the building."""
    first = rows[0]
    start = f"{footprint.left_of(first.slope.side).name} end"
    names = [f"{row.slope.side} wall, top of cap plate" for row in rows]
    lines = [_rafter_line(name, start, row) for name, row in zip(names, rows, strict=True)]
    return (*lines, _rafter_line("ridge, both faces", start, first))


def _rafter_line(name: str, start: str, row: RafterRow) -> LayoutLine:
    left, right = row.slope.walls
    centres = (right - u if row.slope.from_right else u - left for u in row.centres)
    marks = ((position, "E" if position in _ends(row) else "R") for position in sorted(centres))
    return LayoutLine(
        name=name,
        start=start,
        length_in=right - left,
        marks=tuple(
            LayoutMark(position, symbol, "end rafter" if symbol == "E" else "common rafter")
            for position, symbol in marks
        ),
    )


def _ends(row: RafterRow) -> tuple[float, float]:
    left, right = row.slope.walls
    return row.ends[0] - left, right - row.ends[0]
