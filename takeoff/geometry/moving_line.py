"""Edges of an outline as lines that move inward while a level plane rises through the roof, and the corners they make.

At height h a slope of rise over run s has moved inward by h / s; a wall stays where it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import dist, hypot

from takeoff.geometry.roof_edge import PARALLEL, SAME_SLOPE, Point, RoofEdge, along, minus, turn
from takeoff.geometry.vec import Vec

LEVEL = 2e-4
"""Rise over run under which a fold is level: 1/16 in 26 feet, so that an outline a hair out of square has its ridge."""


@dataclass(frozen=True, slots=True)
class MovingLine:
    """The line of one edge. Points on it at height h: ``along(normal, point) == offset + speed * h``."""

    direction: Point
    """Unit vector from the left end to the right end, seen from outside."""
    offset: float
    speed: float
    """Inward, for one of height: run over rise; 0 for a wall."""

    @property
    def normal(self) -> Point:
        """Unit vector inward."""
        return (-self.direction[1], self.direction[0])

    @property
    def is_wall(self) -> bool:
        """It never moves."""
        return self.speed == 0

    def height_over(self, place: Point) -> float:
        """Height of the slope over a place in plan [in]. Not for walls."""
        return (along(self.normal, place) - self.offset) / self.speed

    def moves_with(self, other: MovingLine) -> bool:
        """Whether two lines that are one now stay one."""
        return abs(self.speed - other.speed) <= SAME_SLOPE * max(self.speed, other.speed)

    def in_line_with(self, other: MovingLine) -> bool:
        """Whether both run the same way."""
        return abs(turn(self.direction, other.direction)) <= PARALLEL and along(self.direction, other.direction) > 0

    def runs_against(self, other: MovingLine) -> bool:
        """Whether both run opposite ways."""
        return abs(turn(self.direction, other.direction)) <= PARALLEL and along(self.direction, other.direction) < 0


@dataclass(frozen=True, slots=True)
class Motion:
    """A corner that moves steadily: where it is at height 0, and how far it goes for one of height."""

    origin: Point
    speed: Point

    def at(self, height: float) -> Point:
        """Where it is at that height."""
        return (self.origin[0] + self.speed[0] * height, self.origin[1] + self.speed[1] * height)

    @property
    def is_level(self) -> bool:
        """Whether the fold it draws is as good as level."""
        return hypot(*self.speed) * LEVEL >= 1


def moving_lines(edges: Sequence[RoofEdge]) -> tuple[MovingLine, ...]:
    """The line of each edge; edges as good as parallel get one direction, so that they stay so however far they go."""
    lines: list[MovingLine] = []
    for edge in edges:
        length = dist(edge.a, edge.b)
        x, y = minus(edge.b, edge.a)
        direction = _shared((x / length, y / length), lines)
        offset = (turn(direction, edge.a) + turn(direction, edge.b)) / 2
        lines.append(MovingLine(direction, offset, 0.0 if edge.slope is None else 1 / edge.slope))
    return tuple(lines)


def _shared(direction: Point, lines: Sequence[MovingLine]) -> Point:
    """The direction of the first line parallel to this one, this way round; else the direction itself."""
    for x, y in (line.direction for line in lines):
        if abs(turn((x, y), direction)) <= PARALLEL:
            return (x, y) if along((x, y), direction) > 0 else (-x, -y)
    return direction


def corner_motion(before: MovingLine, after: MovingLine, start: Vec) -> Motion:
    """How the corner between two neighbouring lines moves.

    Args:
        before: line that ends in the corner.
        after: line that starts in it.
        start: where the corner is now; needed where the lines are in one, which have no crossing.
    """
    (ax, ay), (bx, by) = before.normal, after.normal
    if before.in_line_with(after):
        vx, vy = ax * before.speed, ay * before.speed
        return Motion((start[0] - vx * start[2], start[1] - vy * start[2]), (vx, vy))
    sine = ax * by - ay * bx
    origin = ((before.offset * by - after.offset * ay) / sine, (after.offset * ax - before.offset * bx) / sine)
    speed = ((before.speed * by - after.speed * ay) / sine, (after.speed * ax - before.speed * bx) / sine)
    return Motion(origin, speed)
