"""Slope arrows on a roof plan, each put where there is room for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan2, degrees, hypot
from typing import TYPE_CHECKING

from takeoff.geometry.vec import Vec
from takeoff.measure import Pitch
from takeoff.sheets.drawing import LAYOUT, MM_PER_IN, Item, Line, Point, Polyline, Text
from takeoff.sheets.free_space import FreeSpace
from takeoff.sheets.lettering import width_mm
from takeoff.sheets.mark_labels import readable

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.model.face import Face

_WORDS_MM = 2.0
_ARROW_MM, _HEAD_MM, _HALF_MM = 8.0, 2.2, 1.1
_STEPS = (0.5, 0.4, 0.6, 0.3, 0.7, 0.25, 0.75)


def slope_arrows(faces: Sequence[Face], space: FreeSpace, one_to: float) -> Iterator[Item]:
    """An arrow down each slope with its pitch, in a bay between two rafters; none where no bay has room."""
    for face in faces:
        arrow = next(_arrows(face, space, one_to), None)
        if arrow is not None:
            space.take(arrow.box)
            yield from arrow.items()


class _Arrow:
    """An arrow from a point down the slope, its pitch behind it."""

    def __init__(self, tail: Point, down: Point, words: str, k: float) -> None:
        self.tail, self.down, self.words, self.k = tail, down, words, k
        self.lettered_mm = width_mm(words, _WORDS_MM) + 1.5

    def at(self, along_mm: float, across_mm: float = 0.0) -> Point:
        """A point so far down the slope from the arrow's tail, and so far to the left of its way."""
        (x, y), (dx, dy), k = self.tail, self.down, self.k
        return (x + (dx * along_mm - dy * across_mm) * k, y + (dy * along_mm + dx * across_mm) * k)

    @property
    def box(self) -> tuple[Point, ...]:
        """All of it, lettering included."""
        half, low, high = _HALF_MM + 0.3, -self.lettered_mm, _ARROW_MM
        return (self.at(low, -half), self.at(high, -half), self.at(high, half), self.at(low, half))

    def items(self) -> Iterator[Item]:
        """Shaft, head and lettering."""
        tip = self.at(_ARROW_MM)
        yield Line(self.tail, tip, LAYOUT)
        wings = [self.at(_ARROW_MM - _HEAD_MM, side * _HALF_MM) for side in (1.0, -1.0)]
        yield Polyline((wings[0], tip, wings[1]), LAYOUT)
        turn = readable(degrees(atan2(self.down[1], self.down[0])))
        yield Text(
            at=self.at(-self.lettered_mm / 2 - 0.4),
            words=self.words,
            height_mm=_WORDS_MM,
            anchor="middle",
            level="middle",
            turned_deg=turn,
        )


def _arrows(face: Face, space: FreeSpace, one_to: float) -> Iterator[_Arrow]:
    k = one_to / MM_PER_IN
    up, normal = face.placement.y, face.placement.z
    run = hypot(up[0], up[1])
    down = (-up[0] / run, -up[1] / run)
    words = str(Pitch(round(12 * hypot(normal[0], normal[1]) / normal[2], 6)))
    shape = in_plan(face)
    _, v0, _, v1 = face.outline.bounds
    for u in _bays(face):
        for share in _STEPS:
            x, y, _ = face.placement.to_world((u, v0 + (v1 - v0) * share, 0.0))
            arrow = _Arrow((x, y), down, words, k)
            if space.is_free(arrow.box, inside=shape):
                yield arrow


def _bays(face: Face) -> list[float]:
    """Middles of the bays between rafters, the nearest to the middle of the slope first."""
    u0, _, u1, _ = face.outline.bounds
    centres = face.supports.centres
    middles = [(a + b) / 2 for a, b in pairwise(centres)]
    return sorted(middles, key=lambda u: (round(abs(u - (u0 + u1) / 2), 3), u))


def in_plan(face: Face) -> Polygon:
    """The outline of a slope, seen from above [in]."""
    from shapely import Polygon

    corners: list[Vec] = [face.placement.to_world((*edge.a, 0.0)) for edge in face.outline.edges]
    return Polygon([corner[:2] for corner in corners])
