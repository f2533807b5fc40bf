"""The footprint: a building's outline, counter-clockwise, each edge with the name of its side.

::

                 north
          3 +----<----+ 2        seen from outside, a side runs from its left end (``start``)
            |         |          to its right end (``end``)
      west  v         ^  east
            |         |
          0 +---->----+ 1
                 south
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from takeoff.plan.schema import Building

Point = tuple[float, float]

SQUARE_IN = 1 / 16
"""A corner whose legs are this little out of square [in] is square; outlines are written to the sixteenth."""

_COMPASS = {(0, -1): "south", (1, 0): "east", (0, 1): "north", (-1, 0): "west"}


@dataclass(frozen=True, slots=True)
class Side:
    """One edge of a footprint, from its left end to its right end seen from outside."""

    name: str
    start: Point
    end: Point

    @property
    def length_in(self) -> float:
        """Length [in]."""
        return math.dist(self.start, self.end)

    @property
    def direction(self) -> Point:
        """Unit vector from left to right; (0, 0) for an edge without length."""
        length = self.length_in
        if not length:
            return (0.0, 0.0)
        return ((self.end[0] - self.start[0]) / length, (self.end[1] - self.start[1]) / length)

    @property
    def normal(self) -> Point:
        """Unit vector pointing out of the building."""
        x, y = self.direction
        return (y, -x)


@dataclass(frozen=True, slots=True)
class Footprint:
    """Corners counter-clockwise, and the sides between them; side i starts at corner i."""

    points: tuple[Point, ...]
    sides: tuple[Side, ...]

    def side(self, name: str) -> Side:
        """The side of that name.

        Raises:
            KeyError: there is none.
        """
        return self.sides[self._index(name)]

    def left_of(self, name: str) -> Side:
        """The side round the left corner of that side, seen from outside."""
        return self.sides[self._index(name) - 1]

    def right_of(self, name: str) -> Side:
        """The side round the right corner of that side, seen from outside."""
        return self.sides[(self._index(name) + 1) % len(self.sides)]

    @property
    def area_sqin(self) -> float:
        """Area inside [sq in]."""
        return signed_area(self.points)

    @property
    def is_rectangle(self) -> bool:
        """Whether it has four square corners, to within `SQUARE_IN`."""
        return len(self.sides) == 4 and all(
            _out_of_square(self.sides[i - 1], self.sides[i]) <= SQUARE_IN for i in range(4)
        )

    def _index(self, name: str) -> int:
        for index, side in enumerate(self.sides):
            if side.name == name:
                return index
        raise KeyError(name)


def footprint(building: Building) -> Footprint:
    """The footprint of a building; an outline written clockwise is turned round, each edge keeping its name.

    Raises:
        ValueError: the building has not as many names of sides as edges.
    """
    return footprint_of(building.outline, side_names(building))


def footprint_of(points: tuple[Point, ...], names: tuple[str, ...]) -> Footprint:
    """The footprint of an outline and the names of its edges, as `footprint`."""
    if len(names) != len(points):
        raise ValueError(f"{len(names)} names for {len(points)} sides")
    if signed_area(points) < 0:
        points, names = (points[0], *reversed(points[1:])), tuple(reversed(names))
    return Footprint(points, _sides(points, names))


def side_names(building: Building) -> tuple[str, ...]:
    """Names of the outline's edges in the order written; where the plan gives none, by compass or by number.

    By compass: a rectangle whose sides run along x and y. By number: ``side 1`` from the first point to the second.
    """
    return usual_names(building.outline) if building.sides is None else building.sides


def usual_names(points: tuple[Point, ...]) -> tuple[str, ...]:
    """Names of an outline's edges where the plan gives none, as `side_names`."""
    numbers = tuple(f"side {i + 1}" for i in range(len(points)))
    edges = _sides(points, numbers)
    outward = 1 if signed_area(points) > 0 else -1
    facing = tuple(_facing(edge, outward) for edge in edges)
    return facing if len(facing) == 4 and set(facing) == set(_COMPASS.values()) else numbers


def signed_area(points: tuple[Point, ...]) -> float:
    """Area inside a ring of points [sq in]: above zero counter-clockwise, below zero clockwise."""
    following = (*points[1:], points[0])
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, following, strict=True)) / 2


def _sides(points: tuple[Point, ...], names: tuple[str, ...]) -> tuple[Side, ...]:
    following = (*points[1:], points[0])
    return tuple(Side(name, a, b) for name, a, b in zip(names, points, following, strict=True))


def _facing(edge: Side, outward: int) -> str:
    """Compass name of an edge that runs along x or y; empty for any other."""
    x, y = edge.normal
    if min(abs(x), abs(y)) * edge.length_in > SQUARE_IN:
        return ""
    return _COMPASS.get((round(x) * outward, round(y) * outward), "")


def _out_of_square(a: Side, b: Side) -> float:
    """How far the shorter leg of the corner leans [in]."""
    cosine = a.direction[0] * b.direction[0] + a.direction[1] * b.direction[1]
    return abs(cosine) * min(a.length_in, b.length_in)
