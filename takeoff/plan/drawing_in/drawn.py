"""What a drawing gives a building beside values of its plan."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeoff.plan.drawing_in.trace import Point, Trace

LineKind = Literal["ridge", "hip", "valley", "partition", "girder", "eave"]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnLine:
    """A straight line drawn for a building, in the plan's inches."""

    kind: LineKind
    trace: Trace
    a: Point
    b: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnElevation:
    """A wall or gable seen from outside: its outline, wherever it is drawn, in inches."""

    trace: Trace
    points: tuple[Point, ...]
    side: str
    """The building's side that it shows."""
    whole: bool
    """From the bottom plate up; otherwise a gable, which may be drawn from the plates up."""

    @property
    def size(self) -> tuple[float, float]:
        """Its width and height [in]."""
        xs, ys = [p[0] for p in self.points], [p[1] for p in self.points]
        return max(xs) - min(xs), max(ys) - min(ys)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """What is drawn of one building, to be compared with what is framed."""

    folds: tuple[DrawnLine, ...] = ()
    elevations: tuple[DrawnElevation, ...] = ()
