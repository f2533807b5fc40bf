"""Partitions drawn as lines, or as rectangles as thick as the wall, each with a label that names it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import dist

from takeoff.findings import Finding
from takeoff.plan.drawing_in.drawn import DrawnLine
from takeoff.plan.drawing_in.lengths import spot_at
from takeoff.plan.drawing_in.line_labels import centre_lines, labels_of
from takeoff.plan.drawing_in.named_parts import DrawnPart, word_at
from takeoff.plan.drawing_in.nodes import listing, point, word
from takeoff.plan.drawing_in.part_labels import PARTITION, PartLabel, read_part_label
from takeoff.plan.drawing_in.shapes import Label, Path
from takeoff.plan.footprint import Side
from takeoff.plan.tree import Keys, Node


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
    drawn = [line for path in paths for line in centre_lines(path, "partition")]
    said_at, findings = labels_of(drawn, labels, "a partition")
    found = []
    for i, (line, words) in enumerate(zip(drawn, said_at, strict=True)):
        said = PartLabel(name="") if words is None else read_part_label(words, PARTITION)
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


def _as_written(line: DrawnLine, name: str, written: Sequence[Keys]) -> DrawnLine:
    """The line turned to begin where the plan has it begin: its doors are measured from there."""
    for block in written:
        if word_at(block, "name").casefold() == name.casefold():
            a, b = spot_at(block, "from"), spot_at(block, "to")
            if a and b and dist(line.a, a) + dist(line.b, b) > dist(line.a, b) + dist(line.b, a):
                return replace(line, a=line.b, b=line.a)
    return line
