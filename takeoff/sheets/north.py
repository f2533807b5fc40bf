"""The arrow to the north on plans."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.geometry.vec import dot
from takeoff.sheets.drawing import LAYOUT, Line, Point, Polyline, Text

if TYPE_CHECKING:
    from takeoff.model.face import Face

_HALF_MM, _HEAD_MM, _WING_MM, _LETTER_MM = 4.0, 3.0, 1.4, 2.5


def north_arrow(corner: Point, k: float) -> Iterator[Line | Polyline | Text]:
    """Beside the upper right corner of what is drawn; ``k`` is inches of the thing to a millimetre of paper."""
    yield from _arrow((corner[0] + 8.0 * k, corner[1] - 9.5 * k), (0.0, 1.0), 5.5, k)


def north_of(face: Face, corner: Point, k: float) -> Iterator[Line | Polyline | Text]:
    """Beside the upper right corner of a level face, drawn in its own axes."""
    north = (0.0, 1.0, 0.0)
    dx, dy = dot(north, face.placement.x), dot(north, face.placement.y)
    # The letter stands at the tip, which may point toward what is drawn.
    beside = 1.5 + abs(dy) * 2.0 + (_HALF_MM + (_LETTER_MM + 2.0 if dx < 0.0 else 0.0)) * abs(dx)
    yield from _arrow((corner[0] + beside * k, corner[1] - 7.0 * k), (dx, dy), _HALF_MM, k)


def _arrow(middle: Point, toward: Point, half_mm: float, k: float) -> Iterator[Line | Polyline | Text]:
    (x, y), (dx, dy) = middle, toward

    def at(along_mm: float, across_mm: float = 0.0) -> Point:
        return (x + (dx * along_mm - dy * across_mm) * k, y + (dy * along_mm + dx * across_mm) * k)

    head = half_mm - _HEAD_MM
    yield Line(at(-half_mm), at(half_mm), LAYOUT)
    yield Polyline((at(head, _WING_MM), at(half_mm), at(head, -_WING_MM)), LAYOUT)
    letter = half_mm + _LETTER_MM + 2.0 * abs(dx * dy)  # a corner of the letter's box is nearer than its side
    yield Text(at=at(letter), words="N", height_mm=3.0, anchor="middle", level="middle", bold=True)
