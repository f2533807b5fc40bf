"""Porches and dormers drawn from above: rectangles, each with the name that it has in the plan."""

from __future__ import annotations

from collections.abc import Sequence
from math import dist
from typing import Literal

from takeoff.plan.drawing_in.named_parts import DrawnPart, word_at
from takeoff.plan.drawing_in.nodes import word
from takeoff.plan.drawing_in.shapes import Label
from takeoff.plan.drawing_in.sides import Mark, inside, spread
from takeoff.plan.footprint import Footprint, Side
from takeoff.plan.tree import Keys

Kind = Literal["porch", "dormer"]

NEAR_IN = 48.0
"""The name of a porch or dormer stands no further from its middle, where it doesn't stand in it [in]."""

FRONT = {"porch": "depth", "dormer": "front"}
"""The plan's key that says how far the front is from the wall."""


def names_by_side(blocks: Sequence[Keys], kind: Kind) -> tuple[str, ...]:
    """What the plan's porches or dormers are called: ``south porch``, or by number where one side has several."""
    sides = [word_at(block, "side") for block in blocks]
    found = []
    for index, side in enumerate(sides):
        number = f" {sides[: index + 1].count(side)}" if sides.count(side) > 1 else ""
        found.append(f"{side} {kind}{number}")
    return tuple(found)


def drawn_minors(found: Sequence[Mark], labels: Sequence[Label], walls: Footprint, kind: Kind) -> tuple[DrawnPart, ...]:
    """Porches or dormers: where they stand along their side, how wide, and how far out or in their front is."""
    parts = []
    for mark in found:
        label = _name(mark, labels)
        side = _side(mark, walls, kind, label)
        over = spread(mark.points, side)
        front = -over.near if kind == "porch" else over.near
        values = {"left": over.left, "width": over.right - over.left, FRONT[kind]: front}
        parts.append(
            DrawnPart(
                name=label or f"{side.name} {kind}",
                trace=mark.trace,
                values=tuple(((key,), word(mark.trace, float(value))) for key, value in values.items()),
                instead_of=("center",),
            )
        )
    return tuple(parts)


def _name(mark: Mark, labels: Sequence[Label]) -> str:
    ring = mark.points
    near = [
        (dist(label.at, mark.middle), label.words)
        for label in labels[:200]
        if inside(label.at, ring) or dist(label.at, mark.middle) <= NEAR_IN
    ]
    return " ".join(min(near)[1].split()) if near else ""


def _side(mark: Mark, walls: Footprint, kind: Kind, label: str) -> Side:
    """The side that the name says, or the one whose wall the nearest edge of it lies along."""
    named = [side for side in walls.sides if label.casefold().startswith(f"{side.name} {kind}".casefold())]
    if named:
        return named[0]

    def off(side: Side) -> tuple[float, float]:
        over = spread(mark.points, side)
        gap = abs(over.far) if kind == "porch" else abs(over.near)
        shared = min(over.right, side.length_in) - max(over.left, 0.0)
        return (round(gap, 2) if shared > 0 else 1e9, -shared)

    return min(walls.sides, key=off)
