"""Where something stands in a drawing, and how to complain about it."""

from __future__ import annotations

from dataclasses import dataclass

from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.measure import format_length
from takeoff.plan.tree import Spot

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, order=True)
class Trace:
    """Where something stands in a drawing: file, layer, and the handle (or number) of the entity."""

    file: str
    layer: str = ""
    handle: str = ""

    def __str__(self) -> str:
        return ", ".join(part for part in (f"layer {self.layer}" if self.layer else "", self.handle) if part)

    @property
    def place(self) -> Place:
        """The same for a finding."""
        return Place(self.file, path=str(self))

    @property
    def spot(self) -> Spot:
        """The same for a node of the plan's tree."""
        return Spot(0, 0, self.file, str(self))


def told(trace: Trace, rule: str, severity: Severity, message: str) -> Finding:
    """A finding about something in a drawing; ``rule`` without its ``drawing.``."""
    return Finding(rule=f"drawing.{rule}", severity=severity, message=message, place=trace.place)


def refused(trace: Trace, rule: str, message: str) -> PlanError:
    """The error for a drawing about which nothing more can be said."""
    return PlanError([told(trace, rule, Severity.ERROR, message)])


def at(point: Point) -> str:
    """A point as it is written in a message."""
    return f"({_coordinate(point[0])}, {_coordinate(point[1])})"


def _coordinate(inches: float) -> str:
    return format_length(inches) if abs(inches) < 1e12 else f"{inches:.6g}"
