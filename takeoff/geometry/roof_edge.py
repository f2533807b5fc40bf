"""What a roof is laid out from: the edges of its outline, each with the slope that starts on it; what is refused."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from math import dist, isfinite

Point = tuple[float, float]

SHORTEST = 1 / 64
"""Least length of an edge, and least distance of edges that do not meet [in]: what a builder writes is over it."""

JOINED = 1e-3
"""Where one edge starts this near the end of the last [in], they are joined."""

PARALLEL = 1e-6
"""Sine under which two directions are one; a sixteenth out of line shows at thirty times that over 150 feet."""

SAME_SLOPE = 1e-9
"""Slopes, rise over run, this near are one slope."""


class RoofError(ValueError):
    """No roof can be laid over these edges.

    Attributes:
        edges: indices of the edges at fault, ascending.
    """

    def __init__(self, message: str, edges: Sequence[int]) -> None:
        super().__init__(message)
        self.edges = tuple(sorted(set(edges)))


@dataclass(frozen=True, slots=True)
class RoofEdge:
    """One edge of an outline, counter-clockwise: ``a`` is its left end seen from outside [in].

    ``slope`` is the rise over run of the roof slope that starts on it at height 0; None is a wall, a gable or an
    abutment: it stands upright and nothing starts on it.
    """

    a: Point
    b: Point
    slope: float | None

    @property
    def is_wall(self) -> bool:
        """No slope starts here."""
        return self.slope is None


def turn(u: Point, v: Point) -> float:
    """Cross product: over 0 where ``v`` turns left of ``u``."""
    return u[0] * v[1] - u[1] * v[0]


def along(u: Point, v: Point) -> float:
    """Dot product."""
    return u[0] * v[0] + u[1] * v[1]


def minus(p: Point, q: Point) -> Point:
    """Vector from ``q`` to ``p``."""
    return (p[0] - q[0], p[1] - q[1])


def signed_area(points: Sequence[Point]) -> float:
    """Area of a ring [sq in], over 0 counter-clockwise; taken about its first corner, which keeps far rings exact."""
    spokes = [minus(point, points[0]) for point in points]
    return sum(turn(p, q) for p, q in zip(spokes, [*spokes[1:], *spokes[:1]], strict=True)) / 2


def distance_to_segment(p: Point, a: Point, b: Point) -> float:
    """From a point to the nearest point of the segment between ``a`` and ``b`` [in]."""
    line = minus(b, a)
    share = along(minus(p, a), line) / along(line, line)
    share = min(1.0, max(0.0, share))
    return dist(p, (a[0] + share * line[0], a[1] + share * line[1]))


def refuse_bad_outline(edges: Sequence[RoofEdge]) -> None:
    """Refuse edges that are not one simple ring, counter-clockwise, with slopes that can stand on them.

    Raises:
        RoofError: naming the edges at fault.
    """
    if len(edges) < 3:
        raise RoofError(f"an outline needs at least three edges, not {len(edges)}", range(len(edges)))
    _refuse_bad_edges(edges)
    _refuse_bad_corners(edges)
    _refuse_crossings(edges)
    if signed_area([edge.a for edge in edges]) < 0:
        raise RoofError("the outline runs clockwise; it must run counter-clockwise", range(len(edges)))
    if all(edge.is_wall for edge in edges):
        raise RoofError("no edge carries a slope", range(len(edges)))


def _refuse_bad_edges(edges: Sequence[RoofEdge]) -> None:
    for index, edge in enumerate(edges):
        if not all(map(isfinite, (*edge.a, *edge.b))):
            raise RoofError(f"edge {index} has an end that is no number", [index])
        if dist(edge.a, edge.b) < SHORTEST:
            raise RoofError(f"edge {index} has no length", [index])
        if edge.slope is not None and not (isfinite(edge.slope) and edge.slope > 0):
            raise RoofError(f"the slope of edge {index} must be over 0, not {edge.slope:g}", [index])


def _refuse_bad_corners(edges: Sequence[RoofEdge]) -> None:
    for index, edge in enumerate(edges):
        before = (index - 1) % len(edges)
        last = edges[before]
        if dist(last.b, edge.a) > JOINED:
            raise RoofError(f"edge {index} does not start where edge {before} ends", [before, index])
        u, v = minus(last.b, last.a), minus(edge.b, edge.a)
        if abs(turn(u, v)) > PARALLEL * dist(last.a, last.b) * dist(edge.a, edge.b):
            continue
        if along(u, v) < 0:
            raise RoofError(f"edge {index} runs back over edge {before}", [before, index])
        if not same_slope(last.slope, edge.slope):
            raise RoofError(f"edges {before} and {index} are in one line but differ in slope", [before, index])


def same_slope(one: float | None, other: float | None) -> bool:
    """Both walls, or slopes of one pitch."""
    if one is None or other is None:
        return one is other
    return abs(one - other) <= SAME_SLOPE


def _refuse_crossings(edges: Sequence[RoofEdge]) -> None:
    count = len(edges)
    for (i, one), (j, other) in combinations(enumerate(edges), 2):
        if j - i in (1, count - 1):
            continue
        if crosses(one.a, one.b, other.a, other.b) or _gap(one, other) < SHORTEST:
            raise RoofError(f"edges {i} and {j} touch or cross", [i, j])


def crosses(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the segments a to b and c to d cross, each with its ends on the two sides of the other."""
    u, v = minus(b, a), minus(d, c)
    parted = turn(u, minus(c, a)) * turn(u, minus(d, a)) < 0
    return parted and turn(v, minus(a, c)) * turn(v, minus(b, c)) < 0


def _gap(one: RoofEdge, other: RoofEdge) -> float:
    """Least distance of two edges that do not cross [in]."""
    return min(
        distance_to_segment(one.a, other.a, other.b),
        distance_to_segment(one.b, other.a, other.b),
        distance_to_segment(other.a, one.a, one.b),
        distance_to_segment(other.b, one.a, one.b),
    )
