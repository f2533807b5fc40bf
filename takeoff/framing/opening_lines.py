"""Layout of openings in slopes: their edges on the plate, headers up the trimmers, cut rafters along the headers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.roles import role
from takeoff.framing.slope_openings import HEADERS
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.layout import LayoutLine, LayoutMark, Tape

if TYPE_CHECKING:
    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.slope import Slope
    from takeoff.framing.slope_openings import SlopeOpening

_INSIDE_IN = 0.05
"""How far under a trimmer's top edge its tape lies [in]."""
EDGE_MARKS = (("[", "left edge of"), ("CL", "centre of"), ("]", "right edge of"))
HEADER_MARKS = (
    ("|", "lower header, lower face"),
    ("|", "lower header, upper face: edge of the opening"),
    ("|", "upper header, lower face: edge of the opening"),
    ("|", "upper header, upper face"),
)


def edge_marks(slope: Slope) -> tuple[LayoutMark, ...]:
    """Edges and centres of a slope's openings on its plate, from the end that its layout starts at."""
    left, right = slope.walls
    return tuple(
        LayoutMark(round(right - u if slope.from_right else u - left, 6), symbol, f"{words} {opening.what}")
        for opening in slope.openings
        for u, (symbol, words) in zip((opening.u[0], sum(opening.u) / 2, opening.u[1]), EDGE_MARKS, strict=True)
    )


def opening_lines(row: RafterRow) -> Iterator[LayoutLine]:
    """For each opening of a slope, what is marked on its trimmers and on its headers."""
    for opening in row.slope.openings:
        name = f"{row.slope.name}, {opening.what}"
        yield _trimmer_line(row, opening, name)
        yield LayoutLine(
            name=f"{name}, headers",
            start="left end, seen from outside",
            length_in=opening.u[1] - opening.u[0],
            marks=_cut_marks(row, opening),
        )


def _trimmer_line(row: RafterRow, opening: SlopeOpening, name: str) -> LayoutLine:
    trimmer = next(one for one in row.placed if abs(one.u - opening.trimmers[0]) < TOLERANCE.length)
    tail = trimmer.cuts.geometry.start / row.slope.level
    faces = (opening.cut_v[0], *opening.v, opening.cut_v[1])
    along = (row.slope.bench.placement.to_world((trimmer.u, v, -_INSIDE_IN)) for v in (tail, tail + 1.0))
    return LayoutLine(
        name=f"{name}, trimmers along the top edge",
        start="tail cut",
        length_in=trimmer.cuts.geometry.top_edge,
        marks=tuple(
            LayoutMark(round(v - tail, 6), symbol, words)
            for v, (symbol, words) in zip(faces, HEADER_MARKS, strict=True)
        ),
        tape=Tape.toward_point(*along),
    )


def _cut_marks(row: RafterRow, opening: SlopeOpening) -> tuple[LayoutMark, ...]:
    """Middles of the cut rafters between the trimmers; those above and below stand in line."""
    inside = {
        round(one.u - opening.u[0], 6)
        for one in row.placed
        if opening.u[0] < one.u < opening.u[1] and HEADERS & (one.cuts.lower | one.cuts.upper)
    }
    known = role("cut-common")
    return tuple(LayoutMark(at, known.layout_symbol, known.words.split(",")[0]) for at in sorted(inside))
