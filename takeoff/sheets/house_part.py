"""One thing to draw of a house, and where things lie along its walls."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, copysign, degrees
from typing import TYPE_CHECKING

from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.plan.footprint import Side

Spot = tuple[float, float]

LETTERS_IN = 5.0
"""Height of letters [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HousePart:
    """One thing to draw on a layer: a line, closed or not, or words at a point."""

    layer: str
    points: tuple[Spot, ...]
    closed: bool = False
    words: str = ""
    turned_deg: float = 0.0
    """Of the words: their direction, counter-clockwise from level."""


def along(side: Side) -> float:
    """Direction of words along a side, never upside down [deg]."""
    turned = degrees(atan2(side.direction[1], side.direction[0]))
    return turned - copysign(180, turned) if abs(turned - 1e-9) > 90 else turned


def beside(side: Side, out: float, inward: float) -> Spot:
    """A point so far along a side from its left end, and inward from it."""
    (x, y), (ux, uy), (nx, ny) = side.start, side.direction, side.normal
    return (x + out * ux - inward * nx, y + out * uy - inward * ny)


def ring_beside(side: Side, across: Spot, reach: Spot) -> tuple[Spot, ...]:
    """Corners of a rectangle from one place along a side to another, and from one inward of it to another."""
    (left, right), (near, far) = across, reach
    corners = ((left, near), (right, near), (right, far), (left, far))
    return tuple(beside(side, *corner) for corner in corners)


def exact(inches: float) -> str:
    """A length in words, to a 64th."""
    return format_length(inches, denominator=64)


def middle_of(points: Sequence[Spot]) -> Spot:
    """Middle of what points take up."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
