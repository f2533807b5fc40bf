"""A shrinking outline at the moment it touches itself: what has met is taken out, the rest falls into simple loops.

::

      +------<------+
      |  +-->-+     |         a corner that reaches an edge parts the loop in two;
      v  ^    +->+  ^         edges that meet face to face go, as a pair
      |  |       v  |
      +>-+       +>-+
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, dist, tau

from takeoff.geometry.roof_edge import Point, along, distance_to_segment, minus
from takeoff.geometry.vec import Vec


@dataclass(frozen=True, slots=True)
class Segment:
    """A straight piece of the shrinking outline that belongs to one edge; what is inside is on its left."""

    edge: int
    a: Vec
    b: Vec


@dataclass(frozen=True, slots=True)
class Untangled:
    """Pairs of segments that met face to face, and the simple loops that are left."""

    met: tuple[tuple[Segment, Segment], ...]
    loops: tuple[tuple[Segment, ...], ...]


def plan(corner: Vec) -> Point:
    """The corner seen from above."""
    return corner[:2]


def gathered(points: Sequence[Point], height: float, near: float) -> list[Vec]:
    """The points as corners at that height, those within ``near`` [in] of each other made one and the same."""
    kept: list[Vec] = []
    result: list[Vec] = []
    for point in points:
        same = next((corner for corner in kept if dist(plan(corner), point) <= near), None)
        if same is None:
            same = (*point, height)
            kept.append(same)
        result.append(same)
    return result


def untangled(loop: Sequence[Segment], near: float) -> Untangled:
    """Take a loop that may touch itself apart.

    Args:
        loop: segments in order, each ending where the next starts; corners that are one point are equal.
        near: a corner this near a segment is on it [in].

    Raises:
        ValueError: the loop crosses itself, so that what is left does not close.
    """
    corners = sorted({segment.a for segment in loop})
    parts = [part for segment in loop for part in _cut_at(segment, corners, near)]
    there = {(part.a, part.b): part for part in parts}
    if len(there) != len(parts):
        raise ValueError("the loop runs twice along one line")
    met = tuple((part, there[part.b, part.a]) for part in parts if part.a < part.b and (part.b, part.a) in there)
    return Untangled(met, tuple(traced(part for part in parts if (part.b, part.a) not in there)))


def _cut_at(segment: Segment, corners: Iterable[Vec], near: float) -> list[Segment]:
    """The segment in pieces between the corners that lie on it."""
    a, b = plan(segment.a), plan(segment.b)
    direction = minus(b, a)
    on = [
        corner
        for corner in corners
        if corner not in (segment.a, segment.b) and distance_to_segment(plan(corner), a, b) <= near
    ]
    on.sort(key=lambda corner: along(minus(plan(corner), a), direction))
    stops = [segment.a, *on, segment.b]
    return [Segment(segment.edge, start, end) for start, end in pairwise(stops)]


def traced(segments: Iterable[Segment]) -> list[tuple[Segment, ...]]:
    """Simple loops made of the segments; where several touch in a corner, each keeps to its own wedge of the inside.

    Raises:
        ValueError: they do not close.
    """
    leaving: dict[Vec, list[Segment]] = defaultdict(list)
    for segment in segments:
        leaving[segment.a].append(segment)
    most = sum(map(len, leaving.values()))
    loops = []
    while leaving:
        first = leaving[next(iter(leaving))][0]
        loop = [first]
        while loop[-1].b != first.a:
            loop.append(_next_after(loop[-1], leaving))
            if len(loop) > most:
                raise ValueError("the loop does not close")
        for segment in loop:
            leaving[segment.a].remove(segment)
            if not leaving[segment.a]:
                del leaving[segment.a]
        loops.append(tuple(loop))
    return loops


def _next_after(arriving: Segment, leaving: dict[Vec, list[Segment]]) -> Segment:
    """The first segment clockwise from the way back: between the two lies the inside."""
    here = leaving.get(arriving.b)
    if not here:
        raise ValueError("the loop does not close")
    back = _bearing(arriving.b, arriving.a)
    return min(here, key=lambda segment: (back - _bearing(segment.a, segment.b)) % tau)


def _bearing(a: Vec, b: Vec) -> float:
    x, y = minus(plan(b), plan(a))
    return atan2(y, x)
