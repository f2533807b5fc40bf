"""Elevations: closed outlines of walls seen from outside, drawn anywhere, each with the name of its side in it."""

from __future__ import annotations

from collections.abc import Sequence

from takeoff.findings import Finding, Severity
from takeoff.plan.drawing_in.chains import Ring, rings
from takeoff.plan.drawing_in.drawn import DrawnElevation
from takeoff.plan.drawing_in.settings import DrawnOutline
from takeoff.plan.drawing_in.shapes import Label, Shapes
from takeoff.plan.drawing_in.sides import inside
from takeoff.plan.drawing_in.trace import at, told


def drawn_elevations(
    shapes: Shapes, settings: DrawnOutline, name: str, sides: Sequence[str], *, alone: bool
) -> tuple[tuple[DrawnElevation, ...], tuple[Finding, ...]]:
    """The elevations of one building: those that its name and a side's are written in, or a side's where it is alone.

    Args:
        shapes: of the whole drawing.
        settings: names of layers, tolerance.
        name: of the building.
        sides: names of its sides.
        alone: it is the only building of the plan.
    """
    found: list[DrawnElevation] = []
    findings: list[Finding] = []
    known = {f"{name} {side}".casefold(): side for side in sides}
    known |= {side.casefold(): side for side in sides} if alone else {}
    for whole, layer in ((False, settings.gables), (True, settings.faces)):
        outlines, doubts = rings(shapes.on(layer), settings.tolerance)
        findings += doubts
        for ring in outlines:
            words = [" ".join(label.words.split()).casefold() for label in _labels(ring, shapes.texts(layer))]
            side = next((known[said] for said in words if said in known), None)
            if side is not None:
                found.append(DrawnElevation(trace=ring.traces[0], points=ring.points, side=side, whole=whole))
            elif alone:
                message = f"found an elevation at {at(ring.points[0])} without the name of a side in it, not compared"
                message += f"; expected one of {', '.join(sides)}"
                findings.append(told(ring.traces[0], "label", Severity.WARNING, message))
    return tuple(found), tuple(findings)


def _labels(ring: Ring, labels: Sequence[Label]) -> list[Label]:
    return [label for label in labels[:500] if inside(label.at, ring.points)]
