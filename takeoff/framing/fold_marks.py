"""Where hips and valleys come over the plates and end on the ridges, as a tape marks them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.roles import role
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.layout import LayoutMark

if TYPE_CHECKING:
    from takeoff.framing.fold_members import RidgeStick
    from takeoff.framing.folds import FoldStick
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.slope import Slope
    from takeoff.geometry.placement import Placement

_PARALLEL = 1e-6
"""Sine of an angle under which two lines in plan don't meet."""


def folds_on_plate(frame: RoofFrame, slope: Slope) -> Iterator[LayoutMark]:
    """Where the middles of the hips and valleys beside a slope cross the outside of its wall."""
    left, right = slope.walls
    for stick in _beside(frame, slope):
        crossed = _crossing(slope.bench.placement, stick, 0.0) if stick.over_wall else None
        if crossed is None:
            continue
        at = right - crossed if slope.from_right else crossed - left
        if -TOLERANCE.mark <= at <= right - left + TOLERANCE.mark:
            yield _mark(stick, max(0.0, min(at, right - left)))


def folds_on_ridge(frame: RoofFrame, slope: Slope, ridge: RidgeStick) -> Iterator[LayoutMark]:
    """Where the middles of the hips and valleys beside a slope come to the face of a ridge, or to its end."""
    placement, length = ridge.bench.placement, ridge.run[1] - ridge.run[0]
    thickness = ridge.profile.thickness_in
    for stick in _beside(frame, slope):
        ends = (placement.from_world(end) for end in (stick.fold.high, stick.fold.low))
        low, high = ridge.run[0] - thickness, ridge.run[1] + thickness
        u = next((u for u, _, away in ends if abs(away) <= thickness and low <= u <= high), None)
        if u is None:
            continue
        _, _, below = placement.from_world((*stick.heel, 0.0))
        face = thickness / 2 if below > 0 else -thickness / 2
        met = _crossing(placement, stick, face)
        yield _mark(stick, max(0.0, min((u if met is None else met) - ridge.run[0], length)))


def _beside(frame: RoofFrame, slope: Slope) -> Iterator[FoldStick]:
    index = frame.plan.slopes.index(slope)
    return (stick for stick in frame.sloped if index in stick.fold.slopes)


def _crossing(placement: Placement, stick: FoldStick, across: float) -> float | None:
    """Where a fold crosses, in plan, a line along x of a placement that lies so far off it to its level side [in]."""
    (ax, ay, _), (x, y, _) = placement.x, placement.origin
    sx, sy = (-ay, ax) if placement.z[2] > _PARALLEL else (placement.z[0], placement.z[1])
    (px, py), (dx, dy) = stick.heel, stick.fold.direction
    toward = dx * sx + dy * sy
    if abs(toward) < _PARALLEL:
        return None
    go = (across - (px - x) * sx - (py - y) * sy) / toward
    return (px + dx * go - x) * ax + (py + dy * go - y) * ay


def _mark(stick: FoldStick, at: float) -> LayoutMark:
    known = role(stick.fold.kind)
    return LayoutMark(round(at, 6), known.layout_symbol, known.words.split(",")[0])
