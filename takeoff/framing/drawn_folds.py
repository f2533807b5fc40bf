"""Compares the ridges, hips and valleys of a drawing with the roof laid out from its walls."""

from __future__ import annotations

from collections.abc import Iterator
from math import dist
from typing import TYPE_CHECKING

from takeoff.findings import Finding, Place, Severity
from takeoff.framing.roof_plan import Fold, roof_plan
from takeoff.measure import format_length
from takeoff.plan.footprint import footprint

if TYPE_CHECKING:
    from takeoff.plan.drawing_in.drawn import DrawnLine
    from takeoff.plan.schema import Building

Point = tuple[float, float]

BESIDE_IN = 2.0
"""A line drawn this near the one laid out is the same [in]: drawings show centres, or one face."""

SHORT_IN = 60.0
"""A drawn line may end so much before or past the one laid out [in]: at the wall, or at the edge of the roof."""


def folds_as_drawn(building: Building, drawn: tuple[DrawnLine, ...], place: Place) -> tuple[Finding, ...]:
    """A warning for each line drawn that the roof doesn't have, and for each it has that isn't drawn.

    Args:
        building: one that can be framed.
        drawn: its ridges, hips and valleys in a drawing; where there are none, nothing is compared.
        place: of the roof in the plan.
    """
    if not drawn:
        return ()
    folds = roof_plan(building, footprint(building), lambda _: place).folds
    return (*_not_there(building, drawn, folds), *_not_drawn(building, drawn, folds))


def _not_there(building: Building, drawn: tuple[DrawnLine, ...], folds: tuple[Fold, ...]) -> Iterator[Finding]:
    for line in drawn:
        if not any(_same(line, fold) for fold in folds):
            message = f"found a {line.kind} drawn from {_at(line.a)} to {_at(line.b)}, expected it where the roof"
            message += f" laid out has one: {_listed(line.kind, folds)}"
            yield _finding(message, line.trace.place, building)


def _not_drawn(building: Building, drawn: tuple[DrawnLine, ...], folds: tuple[Fold, ...]) -> Iterator[Finding]:
    for fold in folds:
        if not any(_same(line, fold) for line in drawn):
            message = f"found no {fold.kind} drawn from {_at(fold.low)} to {_at(fold.high)}, where the roof laid out"
            yield _finding(f"{message} has one", Place(drawn[0].trace.file), building)


def _same(line: DrawnLine, fold: Fold) -> bool:
    low, high = (fold.low[0], fold.low[1]), (fold.high[0], fold.high[1])
    length = dist(low, high)
    if line.kind != fold.kind or not length:
        return False
    ux, uy = (high[0] - low[0]) / length, (high[1] - low[1]) / length
    beside = max(abs((x - low[0]) * uy - (y - low[1]) * ux) for x, y in (line.a, line.b))
    along = sorted((x - low[0]) * ux + (y - low[1]) * uy for x, y in (line.a, line.b))
    return beside <= BESIDE_IN and max(abs(along[0]), abs(along[1] - length)) <= SHORT_IN


def _listed(kind: str, folds: tuple[Fold, ...]) -> str:
    known = [f"{_at(fold.low)} to {_at(fold.high)}" for fold in folds if fold.kind == kind]
    return "; ".join(known) or "it has none"


def _finding(message: str, place: Place, building: Building) -> Finding:
    return Finding(
        rule="drawing.differs", severity=Severity.WARNING, message=message, place=place, building=building.name
    )


def _at(point: tuple[float, ...]) -> str:
    return f"({format_length(point[0])}, {format_length(point[1])})"
