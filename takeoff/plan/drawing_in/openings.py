"""Openings drawn in walls: a mark in a side and the label beside it."""

from __future__ import annotations

from collections.abc import Sequence
from math import dist

from takeoff.findings import Finding, Severity
from takeoff.measure import format_length
from takeoff.plan.drawing_in.labels import LIKE_LABEL, OpeningLabel, read_label
from takeoff.plan.drawing_in.nodes import keys
from takeoff.plan.drawing_in.shapes import Label
from takeoff.plan.drawing_in.sides import Mark, spread, to_side
from takeoff.plan.drawing_in.trace import Trace, at, told
from takeoff.plan.footprint import Footprint, Side
from takeoff.plan.tree import Entry, Keys

WALL_IN = 18.0
"""An opening is drawn no further off the outside of its wall than this [in]."""

PARTITION_IN = 6.0
"""Nor further off the middle of its partition [in]."""

NEAR_IN = 72.0
"""A label stands no further from the middle of its opening than this [in]."""

ACROSS_IN = 4.0
"""A mark that takes up less along the wall is a line across it, and shows the opening's middle only [in]."""

UNLIKE_IN = 3.0
"""So much may the width drawn differ from the label's [in]: one of both may be the rough opening."""


def drawn_openings(
    found: Sequence[Mark], labels: Sequence[Label], walls: Footprint, partitions: Sequence[Side] = ()
) -> tuple[tuple[tuple[Side, Keys], ...], tuple[Finding, ...]]:
    """Openings as a plan would have them, each with its side or partition, and what is wrong with any.

    Args:
        found: the marks, in the order drawn.
        labels: on their layer.
        walls: the footprint.
        partitions: centre lines of the partitions drawn.
    """
    findings: list[Finding] = []
    mine = labelled(found, labels, findings)
    nodes: list[tuple[Side, Keys]] = []
    for index, mark in enumerate(found):
        side = _side(mark, walls, partitions)
        if side is None:
            message = f"found an opening at {at(mark.middle)} in no wall, expected it within {format_length(WALL_IN)}"
            findings.append(told(mark.trace, "opening", Severity.ERROR, f"{message} of a side"))
        elif index not in mine:
            message = f"found an opening at {at(mark.middle)} without a label, expected one near: {LIKE_LABEL}"
            findings.append(told(mark.trace, "label", Severity.ERROR, message))
        else:
            label = mine[index]
            try:
                said = read_label(label.words)
                nodes.append((side, _opening(mark, side, label, said, findings, named=side in walls.sides)))
            except ValueError as error:
                message = f"found the label {label.words[:60]!r} at {at(label.at)}, expected {error}"
                findings.append(told(label.trace, "label", Severity.ERROR, message))
    return tuple(nodes), tuple(findings)


def labelled(found: Sequence[Mark], labels: Sequence[Label], findings: list[Finding]) -> dict[int, Label]:
    """The label of each mark: nearest pairs first. Labels left over are told."""
    pairs = sorted(
        (dist(mark.middle, label.at), i, j)
        for i, mark in enumerate(found)
        for j, label in enumerate(labels)
        if dist(mark.middle, label.at) <= NEAR_IN
    )
    mine: dict[int, Label] = {}
    taken: set[int] = set()
    for _, i, j in pairs:
        if i not in mine and j not in taken:
            mine[i] = labels[j]
            taken.add(j)
    for j, label in enumerate(labels):
        if j not in taken:
            message = f"found the label {label.words[:60]!r} at {at(label.at)} with no opening near, not used"
            findings.append(told(label.trace, "label", Severity.WARNING, message))
    return mine


def _side(mark: Mark, walls: Footprint, partitions: Sequence[Side]) -> Side | None:
    """The side or partition that a mark lies in: it lies along it and is nearest."""
    near, lines = [], (*walls.sides, *partitions)
    for index, side in enumerate(lines):
        over, reach = spread(mark.points, side), WALL_IN if index < len(walls.sides) else PARTITION_IN
        off, along = to_side(mark.middle, side), min(over.far - over.near, WALL_IN)
        if off <= reach and 0 < over.middle < side.length_in:
            near.append((round(off, 3), along, index))
    return lines[min(near)[2]] if near else None


def _opening(mark: Mark, side: Side, label: Label, said: OpeningLabel, findings: list[Finding], *, named: bool) -> Keys:
    over = spread(mark.points, side)
    drawn, (width, height) = over.right - over.left, said.size
    if drawn > ACROSS_IN and abs(drawn - width) > UNLIKE_IN:
        message = (
            f"found an opening drawn {format_length(drawn)} wide and labelled {label.words[:60]!r}"
            f", expected one width; {format_length(width)} is taken"
        )
        findings.append(told(mark.trace, "differs", Severity.WARNING, message))
    trace: Trace = mark.trace
    rest = keys(
        trace,
        {
            "side": side.name if named else None,
            "center": float(over.middle),
            "kind": said.kind,
            "head": said.head,
            "header": said.header,
            "jacks": said.jacks,
        },
    )
    entries = [*rest.entries, _sized(label, "size", (width, height))]
    if said.allowance is not None:
        entries.append(_sized(label, "rough", said.allowance))
    return Keys(trace.spot, tuple(entries))


def _sized(label: Label, key: str, size: tuple[float, float]) -> Entry:
    """A width and a height that a label says."""
    return Entry(label.trace.spot, key, keys(label.trace, {"width": size[0], "height": size[1]}))
