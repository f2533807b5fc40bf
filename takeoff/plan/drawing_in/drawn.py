"""What a drawing gives a building beside values of its plan."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeoff.plan.drawing_in.trace import Point, Trace


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnLine:
    """A straight line drawn for a building, in the plan's inches."""

    kind: Literal["ridge", "hip", "valley", "partition", "eave"]
    trace: Trace
    a: Point
    b: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """Lines of one building, to be compared with the roof laid out."""

    folds: tuple[DrawnLine, ...] = ()
