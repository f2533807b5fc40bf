"""Slopes drawn one by one: closed outlines to tails and barges, each with a label: ``front eave south pitch 8/12``."""

from __future__ import annotations

from takeoff.findings import Finding, Severity
from takeoff.plan.drawing_in.chains import Ring, rings
from takeoff.plan.drawing_in.floors import labelled
from takeoff.plan.drawing_in.house import House
from takeoff.plan.drawing_in.nodes import listing, node_at, point, with_entry, word
from takeoff.plan.drawing_in.part_labels import SLOPE, PartLabel, read_part_label
from takeoff.plan.drawing_in.settings import DrawnOutline
from takeoff.plan.drawing_in.trace import at, told
from takeoff.plan.tree import Keys, Node

PATH = ("outlines", "slopes")


def with_slopes(node: Keys, found: House, settings: DrawnOutline, *, first: bool) -> tuple[Keys, tuple[Finding, ...]]:
    """A building with the slopes that are drawn; as it is where no label of the roof's layer tells an eave.

    Args:
        node: the building.
        found: its part of the drawing.
        settings: names of layers, tolerances.
        first: the drawing goes before what the plan writes.
    """
    labels = found.shapes.texts(settings.roof)
    if not any(read_part_label(label.words, SLOPE).values for label in labels):
        return node, ()
    drawn, findings = rings(found.shapes.on(settings.roof), settings.tolerance)
    said, unused = labelled(drawn, labels, SLOPE)
    findings = (
        *findings,
        *unused,
        *(_unlabelled(ring) for ring, label in zip(drawn, said, strict=True) if not label.values),
    )
    if not drawn:
        return node, findings
    trace = drawn[0].traces[0]
    if node_at(node, *PATH) is not None and not first:
        message = "found slopes in the drawing and in the plan; the plan's are taken"
        return node, (*findings, told(trace, "not-used", Severity.NOTE, message))
    slopes = [_slope(ring, label, k) for k, (ring, label) in enumerate(zip(drawn, said, strict=True), 1)]
    node = with_entry(node, PATH, trace, listing(trace, slopes))
    return with_entry(node, ("outlines", "reach"), trace, word(trace, "eave_line")), findings


def _unlabelled(ring: Ring) -> Finding:
    message = (
        f"found a slope at {at(ring.points[0])} without a label that tells its eave, expected one in each, such as:"
        " front eave south pitch 8/12"
    )
    return told(ring.traces[0], "label", Severity.ERROR, message)


def _slope(ring: Ring, label: PartLabel, number: int) -> Node:
    trace = ring.traces[0]
    made = Keys(trace.spot, ())
    made = with_entry(made, ("name",), trace, word(trace, label.name or f"slope {number}"))
    corners = (point(mark, spot) for spot, mark in zip(ring.points, ring.traces, strict=True))
    made = with_entry(made, ("points",), trace, listing(trace, corners))
    for path, value in label.values:
        is_number = path == ("eave",) and isinstance(value, str) and value.isdecimal()
        made = with_entry(made, path, trace, word(trace, int(str(value)) if is_number else value))
    return made
