"""Labels of a house's drawing, each put where it stands clear of lines and of other labels."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from takeoff.sheets.drawing import MM_PER_IN, Text
from takeoff.sheets.free_space import FreeSpace
from takeoff.sheets.house_part import LETTERS_IN, HousePart, Spot
from takeoff.sheets.lettering import text_box

_FULL_SIZE_MM = LETTERS_IN * MM_PER_IN
_WIDER = 1.15
"""Letters of other programs are up to so much wider than ours."""


def placed(parts: Sequence[HousePart]) -> tuple[HousePart, ...]:
    """The parts, labels at the first of their spots that is free; where none is, at the first."""
    space = FreeSpace(line for part in parts if not part.words for line in _lines(part))
    return tuple(_placed(part, space) if part.words else part for part in parts)


def _placed(part: HousePart, space: FreeSpace) -> HousePart:
    tries = (replace(part, points=(spot,), others=()) for spot in (*part.points, *part.others))
    found = next(space.free(tries, _box), replace(part, others=()))
    space.take(_box(found))
    return found


def _lines(part: HousePart) -> Iterator[tuple[Spot, Spot]]:
    yield from pairwise((*part.points, part.points[0]) if part.closed else part.points)


def _box(part: HousePart) -> tuple[Spot, ...]:
    text = Text(
        at=part.points[0],
        words=part.words,
        height_mm=_FULL_SIZE_MM,
        anchor="middle",
        level="middle",
        turned_deg=part.turned_deg,
    )
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = text_box(text, 1.0)
    more = (_WIDER - 1.0) / 2
    x, y = (bx - ax) * more, (by - ay) * more
    return (ax - x, ay - y), (bx + x, by + y), (cx + x, cy + y), (dx - x, dy - y)
