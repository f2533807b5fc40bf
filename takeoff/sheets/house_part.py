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

_MOVES = (0.0, -0.06, 0.06, -0.12, 0.12, -0.2, 0.2, -0.3, 0.3, -0.4, 0.4)


@dataclass(frozen=True, slots=True, kw_only=True)
class HousePart:
    """One thing to draw on a layer: a line, closed or not, or words at a point."""

    layer: str
    points: tuple[Spot, ...]
    closed: bool = False
    words: str = ""
    turned_deg: float = 0.0
    """Of the words: their direction, counter-clockwise from level."""
    others: tuple[Spot, ...] = ()
    """Of words: where else they may stand, the best first."""


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


SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88)
"""Shares of a line's length that words at it may stand at, the best first."""


def named_line(layer: str, side: Side, words: str, offs: tuple[float, ...]) -> HousePart:
    """Words along a line, near its middle, so far inward from it; the best first [in]."""
    spots = [beside(side, side.length_in * share, off) for off in offs for share in SHARES]
    return HousePart(layer=layer, points=(spots[0],), others=tuple(spots[1:]), words=words, turned_deg=along(side))


def named_ring(layer: str, points: Sequence[Spot], words: str, turned_deg: float = 0.0) -> HousePart:
    """Words in an outline, near the middle of what it takes up."""
    from shapely import Point, Polygon

    outline, (x, y) = Polygon(points), middle_of(points)
    wide, tall = (max(p[k] for p in points) - min(p[k] for p in points) for k in (0, 1))
    moved = [(x + across * wide, y + up * tall) for across in _MOVES for up in _MOVES]
    moved.sort(key=lambda spot: (abs(spot[0] - x) + abs(spot[1] - y), spot))
    within = tuple(spot for spot in moved if outline.contains(Point(spot)))
    first = within[:1] or ((x, y),)
    return HousePart(layer=layer, points=first, others=within[1:], words=words, turned_deg=turned_deg)


def exact(inches: float) -> str:
    """A length in words, to a 64th."""
    return format_length(inches, denominator=64)


def middle_of(points: Sequence[Spot]) -> Spot:
    """Middle of what points take up."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
