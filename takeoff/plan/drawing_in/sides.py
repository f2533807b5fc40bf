"""Things drawn in a building's walls and roof, measured along its sides."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import dist

from takeoff.plan.drawing_in.shapes import Path
from takeoff.plan.drawing_in.trace import Point, Trace
from takeoff.plan.footprint import Side


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """What a shape takes up beside a side: along it from its left end, and inward from it [in]."""

    left: float
    right: float
    near: float
    far: float

    @property
    def middle(self) -> float:
        """Its middle along the side [in]."""
        return (self.left + self.right) / 2


def spread(points: Sequence[Point], side: Side) -> Spread:
    """Measure points beside a side."""
    (x, y), (ux, uy), (nx, ny) = side.start, side.direction, side.normal
    along = [(px - x) * ux + (py - y) * uy for px, py in points]
    inward = [-(px - x) * nx - (py - y) * ny for px, py in points]
    return Spread(left=min(along), right=max(along), near=min(inward), far=max(inward))


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One thing drawn: a path, or all paths of one insert of a block."""

    trace: Trace
    points: tuple[Point, ...]

    @property
    def middle(self) -> Point:
        """Middle of what it takes up."""
        xs, ys = [p[0] for p in self.points], [p[1] for p in self.points]
        return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)


def marks(paths: Iterable[Path]) -> tuple[Mark, ...]:
    """The things drawn on a layer; what came in by one insert of a block is one, and what is drawn twice."""
    found: dict[tuple[int, frozenset[Point]], Mark] = {}
    for path in paths:
        key = (path.group, frozenset() if path.group else frozenset((round(x, 2), round(y, 2)) for x, y in path.points))
        before = found.get(key)
        points = path.points if before is None or not path.group else before.points + path.points
        found[key] = Mark(trace=before.trace if before else path.trace, points=points)
    return tuple(found.values())


def inside(point: Point, ring: Sequence[Point], margin: float = 0.0) -> bool:
    """Whether a point lies in a ring, or within a margin of its edge [in]."""
    x, y = point
    crossings = False
    for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if margin and _to_segment(point, (ax, ay), (bx, by)) <= margin:
            return True
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            crossings = not crossings
    return crossings


def to_side(point: Point, side: Side) -> float:
    """Distance of a point from a side [in]."""
    return _to_segment(point, side.start, side.end)


def _to_segment(point: Point, a: Point, b: Point) -> float:
    length2 = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2
    if not length2:
        return dist(point, a)
    t = ((point[0] - a[0]) * (b[0] - a[0]) + (point[1] - a[1]) * (b[1] - a[1])) / length2
    t = min(max(t, 0.0), 1.0)
    return dist(point, (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))
