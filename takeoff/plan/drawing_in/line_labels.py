"""Centre lines of walls and girders, drawn as lines or as rectangles as thick as they are, and their labels."""

from __future__ import annotations

from collections.abc import Sequence
from math import dist
from typing import TYPE_CHECKING

from takeoff.findings import Finding, Severity
from takeoff.plan.drawing_in.drawn import DrawnLine
from takeoff.plan.drawing_in.house import lines
from takeoff.plan.drawing_in.shapes import Label, Path
from takeoff.plan.drawing_in.sides import to_side
from takeoff.plan.drawing_in.trace import Point, at, told
from takeoff.plan.footprint import Side

if TYPE_CHECKING:
    from takeoff.plan.drawing_in.drawn import LineKind

NEAR_IN = 24.0
"""A label stands no further from its line [in]."""

THICKEST_IN = 12.0
"""A rectangle no wider than this is one wall or girder, drawn by its faces [in]."""


def centre_lines(path: Path, kind: LineKind) -> tuple[DrawnLine, ...]:
    """The straight pieces of a path; of a narrow rectangle the line along its middle."""
    if path.closed and len(path.points) == 4:
        a, b, c, d = path.points
        for one, other, far, near in ((a, b, c, d), (b, c, d, a)):
            if dist(near, one) <= THICKEST_IN < dist(one, other):
                ends = (_between(near, one), _between(other, far))
                return (DrawnLine(kind=kind, trace=path.trace, a=ends[0], b=ends[1]),)
    return lines((path,), kind)


def labels_of(
    drawn: Sequence[DrawnLine], labels: Sequence[Label], what: str
) -> tuple[list[str | None], tuple[Finding, ...]]:
    """For each line the words of the label nearest to it; labels at none of them are told.

    Args:
        drawn: the lines.
        labels: on their layer.
        what: a line is, in words: a partition.
    """
    pairs = sorted(
        (to_side(label.at, Side("", line.a, line.b)), i, j)
        for i, line in enumerate(drawn)
        for j, label in enumerate(labels[:500])
    )
    mine: dict[int, int] = {}
    for away, i, j in pairs:
        if away <= NEAR_IN and i not in mine and j not in mine.values():
            mine[i] = j
    findings = tuple(
        told(
            label.trace,
            "label",
            Severity.WARNING,
            f'found the label {label.words[:60]!r} at {at(label.at)}, expected {what} within {NEAR_IN:g}"; not used',
        )
        for j, label in enumerate(labels)
        if j not in mine.values()
    )
    return [labels[mine[i]].words if i in mine else None for i in range(len(drawn))], findings


def _between(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
