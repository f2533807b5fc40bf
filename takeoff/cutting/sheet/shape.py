r"""Shapes to cut, in sixteenths of an inch: x along the strength axis, y across it.

  ______
 /      |      A shape may be turned half about; where its good face doesn't matter it may be flipped too. Of all
/_______|      these poses the least list of corners stands for it, so that equal shapes are equal.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

from takeoff.cutting.steps import STEPS_PER_IN, steps_up

Point = tuple[int, int]
Pose = tuple[int, int]
"""Signs of the two axes: (1, 1) as it is, (-1, -1) turned half about, the other two flipped."""

_NOTHING = 1e-3
"""Of half a step: what floats make of a corner that stands on one."""

_TURNS: tuple[Pose, ...] = ((1, 1), (-1, -1))
_FLIPS: tuple[Pose, ...] = ((1, -1), (-1, 1))


@dataclass(frozen=True, slots=True)
class Shape:
    """A shape in its least pose. Without corners it is a rectangle, or is cut as one."""

    length: int
    width: int
    corners: tuple[Point, ...]
    flips: bool
    off: int = 0
    """Half steps by which its slanted ends may stand beyond those of what it was rounded from, along x."""

    @property
    def area(self) -> int:
        """What it covers [steps squared]; of what is cut as a rectangle, the rectangle."""
        return abs(_area(self.corners)) // 2 if self.corners else self.length * self.width

    def side(self, pose: Pose, *, right: bool) -> tuple[int, int] | None:
        """X of one end's line at the lower and the upper edge, in a pose; None where the end isn't one straight line.

        A square end is a straight line too.
        """
        if not self.corners:
            return (self.length, self.length) if right else (0, 0)
        points = posed(self.corners, pose, self.length, self.width)
        at = {y: [x for x, corner_y in points if corner_y == y] for y in (0, self.width)}
        if not at[0] or not at[self.width]:
            return None
        pick = max if right else min
        low, high = pick(at[0]), pick(at[self.width])
        beyond = any(
            (x - low) * self.width - y * (high - low) > self.width
            if right
            else y * (high - low) - (x - low) * self.width > self.width
            for x, y in points
        )
        return None if beyond else (low, high)


def poses(flips: bool) -> tuple[Pose, ...]:
    """The poses that a shape may be cut in."""
    return (*_TURNS, *_FLIPS) if flips else _TURNS


def posed(corners: Sequence[Point], pose: Pose, length: int, width: int) -> tuple[Point, ...]:
    """Corners in a pose, from the lower left of what they span."""
    sx, sy = pose
    return tuple((x if sx > 0 else length - x, y if sy > 0 else width - y) for x, y in corners)


def shape_of(points_in: Sequence[tuple[float, float]], *, flips: bool) -> tuple[Shape, Pose]:
    """The shape of a polygon, and the pose of the shape that the polygon is in.

    Args:
        points_in: corners [in], in order; a polygon with a notch is cut as a rectangle.
        flips: it may be flipped.
    """
    x0, y0 = min(x for x, _ in points_in), min(y for _, y in points_in)
    length = steps_up(max(x for x, _ in points_in) - x0)
    width = steps_up(max(y for _, y in points_in) - y0)
    stepped = _distinct([(_nearest(x - x0, length), _nearest(y - y0, width)) for x, y in points_in])
    if len(stepped) < 3 or not _convex(stepped) or _is_rectangle(stepped, length, width):
        return Shape(length, width, (), flips), (1, 1)
    least, pose = min((_ordered(posed(stepped, pose, length, width)), pose) for pose in poses(flips))
    off = _off([(x - x0, y - y0) for x, y in points_in], length, width)
    return Shape(length, width, least, flips, off), pose  # a pose undoes itself


def _off(points_in: Sequence[tuple[float, float]], length: int, width: int) -> int:
    """By how many half steps rounding moves slanted ends at most: their corners along, and across by their slope."""
    in_steps = [(x * STEPS_PER_IN, y * STEPS_PER_IN) for x, y in points_in]
    rises = [(abs(x - in_steps[k - 1][0]), abs(y - in_steps[k - 1][1])) for k, (x, y) in enumerate(in_steps)]
    slope = max((along / across for along, across in rises if 2 * across > width), default=0.0)
    moved = max(
        abs(x - _nearest(x / STEPS_PER_IN, length)) + slope * abs(y - _nearest(y / STEPS_PER_IN, width))
        for x, y in in_steps
    )
    return ceil(2 * moved - _NOTHING)


def _nearest(value: float, most: int) -> int:
    return min(most, floor(value * STEPS_PER_IN + 0.5))


def _distinct(points: list[Point]) -> list[Point]:
    return [point for k, point in enumerate(points) if point != points[k - 1]]


def _ordered(points: Sequence[Point]) -> tuple[Point, ...]:
    """Counter-clockwise from the least corner."""
    turned = list(points) if _area(points) > 0 else list(reversed(points))
    first = turned.index(min(turned))
    return tuple(turned[first:] + turned[:first])


def _area(points: Sequence[Point]) -> int:
    return sum(points[k - 1][0] * y - x * points[k - 1][1] for k, (x, y) in enumerate(points))


def _convex(points: list[Point]) -> bool:
    """Whether it has no notch; what rounding to a step does to a straight line is none."""
    sign = 1 if _area(points) > 0 else -1
    for k, (x, y) in enumerate(points):
        (ax, ay), (bx, by) = points[k - 1], points[(k + 1) % len(points)]
        cross = (x - ax) * (by - y) - (y - ay) * (bx - x)
        if sign * cross < -(abs(x - ax) + abs(y - ay) + abs(bx - x) + abs(by - y)):
            return False
    return True


def _is_rectangle(points: list[Point], length: int, width: int) -> bool:
    return set(points) == {(0, 0), (length, 0), (length, width), (0, width)}
