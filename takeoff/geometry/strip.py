"""Strips of wall seen from above, and where a line that runs into one meets its faces."""

from __future__ import annotations

from dataclasses import dataclass
from math import dist

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """A run of wall in plan: its right-hand face from ``start`` to ``end``, its wood to the left of that."""

    start: Point
    end: Point
    depth: float

    @property
    def length(self) -> float:
        """Of its right-hand face [in]."""
        return dist(self.start, self.end)

    @property
    def direction(self) -> Point:
        """Unit vector from start to end."""
        return ((self.end[0] - self.start[0]) / self.length, (self.end[1] - self.start[1]) / self.length)

    def at(self, along: float, across: float = 0.0) -> Point:
        """The spot so far along the strip, and so far from its right-hand face to the left [in]."""
        dx, dy = self.direction
        return (self.start[0] + dx * along - dy * across, self.start[1] + dy * along + dx * across)

    def measured(self, spot: Point) -> Point:
        """How far a spot lies along the strip, and how far to the left of its right-hand face [in]."""
        (dx, dy), (x, y) = self.direction, (spot[0] - self.start[0], spot[1] - self.start[1])
        return (x * dx + y * dy, y * dx - x * dy)

    def skew(self, other: Strip) -> float:
        """Sine of the angle from this strip's direction to the other's."""
        (ax, ay), (bx, by) = self.direction, other.direction
        return ax * by - ay * bx

    def meets(self, face_of: Strip, across: float, *, far: float = 0.0) -> float:
        """How far along this strip, at ``across``, it crosses the other's line that lies ``far`` left of its face [in].

        Not to be asked of strips that run alike.
        """
        here = face_of.measured(self.at(0.0, across))[1]
        # The distance from the other's line changes by the sine of the angle from it for each inch along.
        return (far - here) / face_of.skew(self)
