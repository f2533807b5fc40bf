"""Layout of a ridge that ends on another roof, which is cut along that roof: a tape is hooked on its square end."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.framing.laid_over import height_over
from takeoff.geometry.vec import scale

if TYPE_CHECKING:
    from takeoff.framing.fold_members import RidgeStick
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.geometry.placement import Placement
    from takeoff.model.layout import LayoutLine


def from_square_end(frame: RoofFrame, ridge: RidgeStick, line: LayoutLine) -> LayoutLine:
    """A layout line of a ridge, reckoned from its first end; of one that ends on another roof, from its square end.

    Args:
        frame: the roof.
        ridge: of it.
        line: what is marked on it, from its first end.

    Returns:
        The line, as long as the stick is to the tip of its top edge.
    """
    level = (fold for fold in frame.plan.folds if fold.kind == "ridge")
    plane = next(fold.laid_on for one, fold in zip(frame.ridges, level, strict=True) if one is ridge)
    if plane is None:
        return line
    low, high = (_clear(ridge, plane, u) for u in ridge.run)
    whole = ridge.run[1] - ridge.run[0]
    if low > high:
        return replace(line, length_in=whole * low / (low - high))
    over = next((end.side for end in frame.ridge_ends if end.ridge is ridge and not end.at_start), None)
    marks = (replace(mark, position_in=round(whole - mark.position_in, 6)) for mark in line.marks)
    return replace(
        line,
        start=f"{over} end" if over else "square end",
        length_in=whole * high / (high - low),
        marks=tuple(sorted(marks, key=lambda mark: mark.position_in)),
        tape=line.tape and replace(line.tape, start=line.tape.at(whole), along=scale(line.tape.along, -1.0)),
    )


def _clear(ridge: RidgeStick, plane: Placement, u: float) -> float:
    """Height of its top over the other roof, at a place along it [in]."""
    x, y, _ = ridge.bench.placement.to_world((u, 0.0, 0.0))
    return ridge.bottom + ridge.profile.depth_in - height_over(plane, x, y)
