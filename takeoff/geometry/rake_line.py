"""The line that the top of a wall follows: straight parts from left to right, level or not, with steps between."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import dist, hypot

from takeoff.geometry.tolerance import TOLERANCE

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelTop:
    """The level top of a gable wall under a clip, where the clip's rafters stand."""

    u: tuple[float, float]
    """Where its plates end: at the heads of the end rafters [in]."""
    hips: tuple[float, float]
    """Where the outer faces of the hips cross the wall's outside [in]."""
    bottom: float
    """Height of the underside of its plates [in]."""
    top: float
    """Height of their top [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RakeLine:
    """The line that a gable wall's studs reach: the underside of its end rafters, straight between ``points``."""

    points: tuple[Point, ...]
    """u and v [in], left to right."""
    level: LevelTop | None = None
    """Under a clip, what its level part carries."""

    @property
    def highest(self) -> float:
        """Height of its peak."""
        return max(v for _, v in self.points)

    @property
    def parts(self) -> tuple[tuple[Point, Point], ...]:
        """Its straight parts, left to right; where slopes of unequal pitch meet, the line steps between two of them."""
        return tuple((a, b) for a, b in pairwise(self.points) if b[0] - a[0] > TOLERANCE.length)

    @property
    def steps(self) -> tuple[float, ...]:
        """Where it steps: u between two parts that meet at unlike heights."""
        return tuple(b[0][0] for a, b in pairwise(self.parts) if abs(a[1][1] - b[0][1]) > TOLERANCE.mark)

    def lowered(self, square: float) -> RakeLine:
        """The line so far below it, square to each of its parts [in]."""
        points: list[Point] = []
        for (u0, v0), (u1, v1) in self.parts:
            plumb = square * hypot(1.0, (v1 - v0) / (u1 - u0))
            points += [(u0, v0 - plumb), (u1, v1 - plumb)]
        return RakeLine(points=tuple(points))

    def at(self, u: float) -> float:
        """Height over ``u``; beyond its ends the line runs on."""
        return _over(next((part for part in self.parts if u <= part[1][0]), self.parts[-1]), u)

    def past(self, u: float) -> float:
        """Height just to the right of ``u``: another than over it, where the line steps there."""
        return _over(next((part for part in self.parts if u < part[1][0] - TOLERANCE.length), self.parts[-1]), u)

    def runs(self, extent: tuple[float, float]) -> tuple[tuple[Point, Point], ...]:
        """Its straight parts within an extent, the first and the last run on to its ends."""
        parts = self.parts
        found = []
        for k, part in enumerate(parts):
            u0 = extent[0] if k == 0 else max(extent[0], part[0][0])
            u1 = extent[1] if k == len(parts) - 1 else min(extent[1], part[1][0])
            if u1 > u0:
                found.append(((u0, _over(part, u0)), (u1, _over(part, u1))))
        return tuple(found)

    def above(self, bottom: float, extent: tuple[float, float]) -> tuple[Point, ...]:
        """Corners of the line within an extent where it stands over ``bottom``, left to right, its ends among them."""
        corners: list[Point] = []
        for part in self.runs(extent):
            (u0, _), (u1, _) = ends = list(part)
            if (ends[0][1] - bottom) * (ends[1][1] - bottom) < 0:
                slope = (ends[1][1] - ends[0][1]) / (u1 - u0)
                ends.append((u0 + (bottom - ends[0][1]) / slope, bottom))
            corners += sorted(corner for corner in ends if corner[1] >= bottom)
        return tuple(c for k, c in enumerate(corners) if k == 0 or dist(c, corners[k - 1]) > TOLERANCE.length * 10)


def _over(part: tuple[Point, Point], u: float) -> float:
    (u0, v0), (u1, v1) = part
    return v0 + (u - u0) * (v1 - v0) / (u1 - u0)
