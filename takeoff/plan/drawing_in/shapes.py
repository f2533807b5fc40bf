"""What is left of a drawing once blocks are put in place: paths and labels, in inches."""

from __future__ import annotations

from dataclasses import dataclass
from math import dist

from takeoff.findings import Finding
from takeoff.plan.drawing_in.trace import Point, Trace


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """A line of straight pieces. ``group``: which insert of a block it came in by; 0 for none."""

    trace: Trace
    points: tuple[Point, ...]
    closed: bool = False
    group: int = 0

    @property
    def length(self) -> float:
        """Length along it [in]."""
        ends = self.points[1:] + self.points[:1] if self.closed else self.points[1:]
        return sum(dist(a, b) for a, b in zip(self.points, ends, strict=False))


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A text."""

    trace: Trace
    at: Point
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shapes:
    """All that a drawing has on wanted layers."""

    file: str
    paths: tuple[Path, ...]
    labels: tuple[Label, ...]
    findings: tuple[Finding, ...] = ()
    layers: tuple[str, ...] = ()
    """Layers of the drawing, looked up only where the one of the walls has nothing."""

    def on(self, layer: str) -> tuple[Path, ...]:
        """Paths of a layer; capitals don't matter."""
        return tuple(path for path in self.spots(layer) if len(path.points) > 1)

    def spots(self, layer: str) -> tuple[Path, ...]:
        """Paths of a layer, and its points as paths of one."""
        return tuple(path for path in self.paths if path.trace.layer.upper() == layer.upper())

    def texts(self, layer: str) -> tuple[Label, ...]:
        """Labels of a layer."""
        return tuple(label for label in self.labels if label.trace.layer.upper() == layer.upper())
