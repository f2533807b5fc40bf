"""Partitions drawn as lines, or as rectangles as thick as the wall, each with a label that names it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import dist

from takeoff.findings import Finding, Severity
from takeoff.plan.drawing_in.drawn import DrawnLine
from takeoff.plan.drawing_in.house import lines
from takeoff.plan.drawing_in.lengths import spot_at
from takeoff.plan.drawing_in.named_parts import DrawnPart, word_at
from takeoff.plan.drawing_in.nodes import listing, point, word
from takeoff.plan.drawing_in.part_labels import PARTITION, PartLabel, read_part_label
from takeoff.plan.drawing_in.shapes import Label, Path
from takeoff.plan.drawing_in.sides import to_side
from takeoff.plan.drawing_in.trace import Point, at, told
from takeoff.plan.footprint import Side
from takeoff.plan.tree import Keys, Node

NEAR_IN = 24.0
"""A label stands no further from its partition [in]."""

THICKEST_IN = 12.0
"""A rectangle no wider than this is one wall, drawn by its faces [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPartition:
    """A partition: its line from ``from`` to ``to``, and what its label says."""

    line: DrawnLine
    label: PartLabel

    @property
    def side(self) -> Side:
        """Its line as a side that openings are measured along, under its name."""
        return Side(self.label.name, self.line.a, self.line.b)


def drawn_partitions(
    paths: Sequence[Path], labels: Sequence[Label], written: Sequence[Keys]
) -> tuple[tuple[DrawnPartition, ...], tuple[Finding, ...]]:
    """The partitions on a layer. Those without a name are numbered; labels at none of them are told.

    Args:
        paths: on the layer.
        labels: on the layer.
        written: partitions of the plan, which say where a line begins.
    """
    drawn = [line for path in paths for line in _centre_lines(path)]
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
            f"found the label {label.words[:60]!r} at {at(label.at)}, expected"
            f' a partition within {NEAR_IN:g}"; not used',
        )
        for j, label in enumerate(labels)
        if j not in mine.values()
    )
    found = []
    for i, line in enumerate(drawn):
        said = read_part_label(labels[mine[i]].words, PARTITION) if i in mine else PartLabel(name="")
        said = said if said.name else replace(said, name=f"partition {i + 1}")
        found.append(DrawnPartition(line=_as_written(line, said.name, written), label=said))
    return tuple(found), findings


def part_of(partition: DrawnPartition, openings: Sequence[Keys]) -> DrawnPart:
    """What goes into the plan's list."""
    line = partition.line
    values: list[tuple[tuple[str, ...], Node]] = [
        (("from",), point(line.trace, line.a)),
        (("to",), point(line.trace, line.b)),
    ]
    values += [(path, word(line.trace, value)) for path, value in partition.label.values]
    if openings:
        values.append((("openings",), listing(line.trace, openings)))
    return DrawnPart(name=partition.label.name, trace=line.trace, values=tuple(values))


def _centre_lines(path: Path) -> tuple[DrawnLine, ...]:
    if path.closed and len(path.points) == 4:
        a, b, c, d = path.points
        for one, other, far, near in ((a, b, c, d), (b, c, d, a)):
            if dist(near, one) <= THICKEST_IN < dist(one, other):
                ends = (_between(near, one), _between(other, far))
                return (DrawnLine(kind="partition", trace=path.trace, a=ends[0], b=ends[1]),)
    return lines((path,), "partition")


def _between(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)


def _as_written(line: DrawnLine, name: str, written: Sequence[Keys]) -> DrawnLine:
    """The line turned to begin where the plan has it begin: its doors are measured from there."""
    for block in written:
        if word_at(block, "name").casefold() == name.casefold():
            a, b = spot_at(block, "from"), spot_at(block, "to")
            if a and b and dist(line.a, a) + dist(line.b, b) > dist(line.a, b) + dist(line.b, a):
                return replace(line, a=line.b, b=line.a)
    return line
