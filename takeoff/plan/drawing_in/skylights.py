"""Skylights drawn from above: rectangles in a slope."""

from __future__ import annotations

from collections.abc import Sequence
from math import dist, hypot

from takeoff.findings import Finding, Severity
from takeoff.plan.drawing_in.nodes import keys
from takeoff.plan.drawing_in.roof_parts import RoofParts
from takeoff.plan.drawing_in.shapes import Label
from takeoff.plan.drawing_in.sides import Mark, Spread, inside, spread
from takeoff.plan.drawing_in.trace import at, told
from takeoff.plan.footprint import Footprint
from takeoff.plan.tree import Keys, Scalar

CHIMNEY = "chimney"
"""Word that tells a chimney, drawn by its own size."""

NEAR_IN = 36.0
"""The word stands no further from the middle of its chimney [in]."""


def drawn_skylights(
    found: Sequence[Mark], labels: Sequence[Label], walls: Footprint, parts: RoofParts
) -> tuple[tuple[Keys, ...], tuple[Finding, ...]]:
    """Skylights as a plan would have them: what is drawn is the rough opening, seen from above; and chimneys."""
    chimneys = _chimneys(found, labels)
    nodes: list[Keys] = []
    findings: list[Finding] = []
    for number, mark in enumerate(found):
        lying = _slope_of(mark, walls, parts)
        if lying is None:
            message = f"found a skylight at {at(mark.middle)} in no slope, expected it over an eave's side"
            findings.append(told(mark.trace, "opening", Severity.ERROR, message))
            continue
        index, over, slope = lying
        values: dict[str, Scalar] = {
            "side": walls.sides[index].name,
            "left": float(over.left),
            "from_wall": float(over.near),
            "width": float(over.right - over.left),
        }
        if number in chimneys:
            values |= {"kind": CHIMNEY, "depth": float(over.far - over.near)}
        else:
            values["height"] = float((over.far - over.near) * hypot(1, slope))
        nodes.append(keys(mark.trace, values))
    return tuple(nodes), tuple(findings)


def _chimneys(found: Sequence[Mark], labels: Sequence[Label]) -> frozenset[int]:
    """Which of the marks are chimneys: those nearest to the word."""
    told_at = [label.at for label in labels[:200] if CHIMNEY in label.words.casefold()]
    nearest = (min((dist(mark.middle, spot), k) for k, mark in enumerate(found)) for spot in told_at if found)
    return frozenset(k for away, k in nearest if away <= NEAR_IN)


def _slope_of(mark: Mark, walls: Footprint, parts: RoofParts) -> tuple[int, Spread, float] | None:
    """The slope that a mark lies in: of those that rise from sides beside it, the lowest there."""
    if not inside(mark.middle, walls.points):
        return None
    lying: list[tuple[float, int, Spread, float]] = []
    for index, (side, slope) in enumerate(zip(walls.sides, parts.slopes, strict=True)):
        over = spread(mark.points, side)
        if slope is not None and over.near > 0 and 0 < over.middle < side.length_in:
            lying.append(((over.near + over.far) / 2 * slope, index, over, slope))
    if not lying:
        return None
    _, index, over, slope = min(lying, key=lambda each: each[:2])
    return index, over, slope
