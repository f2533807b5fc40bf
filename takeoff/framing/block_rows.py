"""Rows of blocks in walls: between tall studs, and behind the level joints of the sheets."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from takeoff.catalog.rules import rule
from takeoff.framing.wall import Wall
from takeoff.geometry.tolerance import TOLERANCE

LEAST_PIECE_IN = 12.0
"""Lowest piece of sheet over a joint [in]. Common practice, no source."""

LEAST_TOP_IN = 24.0
"""Where the top row of blocks would be nearer than this to the peak, all rows are spread evenly [in]. No source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """Heights in a wall [in]."""

    blocks: tuple[float, ...]
    """Middles of the rows of blocks."""
    joints: tuple[float, ...]
    """Where the sheets may have level joints: over the blocks, and over the seam of top plate and cap plate."""


NO_ROWS = Rows(blocks=(), joints=())


def rows_of(wall: Wall, covered: tuple[float, float], longest_sheet: float | None) -> Rows:
    """Rows of a wall.

    Args:
        wall: with its rake, if it has one.
        covered: from where to where its sheathing reaches [in].
        longest_sheet: longest sheet it is covered with [in]; None where none is ordered.
    """
    tall = _tall_rows(wall)
    seams = (wall.height - wall.plate,) if wall.platform and wall.rake and not wall.top else ()
    if longest_sheet is None:
        return Rows(blocks=tall, joints=(*tall, *seams))
    made = _made_for(covered, longest_sheet, (*tall, *seams))
    blocks = tuple(sorted((*tall, *made)))
    return Rows(blocks=blocks, joints=tuple(sorted((*blocks, *seams))))


def _tall_rows(wall: Wall) -> tuple[float, ...]:
    """Rows between the tall studs of a balloon-framed gable, as far apart as the rule lets them be."""
    if wall.platform or wall.rake is None:
        return ()
    return _spread(wall.rake.highest)


def partition_rows(wall: Wall) -> Rows:
    """Rows of a partition taller than concealed spaces may be without a stop; none of a lower one."""
    tallest = wall.rake.highest if wall.rake else wall.height
    if tallest <= rule("fireblock.interval").value + TOLERANCE.length:
        return NO_ROWS
    return Rows(blocks=_spread(tallest), joints=())


def _spread(tallest: float) -> tuple[float, ...]:
    """Middles of rows up a wall, as far apart as the rule lets them be [in]."""
    apart = rule("fireblock.tall-stud-rows").value
    count = ceil(tallest / apart)
    if tallest - apart * (count - 1) < LEAST_TOP_IN:
        apart = tallest / count
    return tuple(apart * k for k in range(1, count))


def _made_for(covered: tuple[float, float], longest: float, there: tuple[float, ...]) -> tuple[float, ...]:
    """Rows that the sheets need beside those that are there, from the bottom up."""
    made: list[float] = []
    here, top = covered
    while top - here > longest + TOLERANCE.length:
        reach = [v for v in there if here + LEAST_PIECE_IN <= v <= here + longest + TOLERANCE.length]
        if reach:
            here = max(reach)
            continue
        here = min(here + longest, top - LEAST_PIECE_IN)
        made.append(here)
    return tuple(made)
