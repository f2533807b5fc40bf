"""Where a floor's joists fall along u: on its layout, or on that of the rafters that stand on the same plates."""

from __future__ import annotations

from math import ceil, floor
from typing import TYPE_CHECKING

from takeoff.framing.spacing import layout_positions
from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from takeoff.framing.floor_plan import FloorPlan


def stations(plan: FloorPlan) -> tuple[float, ...]:
    """Middles of the joists on the layout, left to right [in].

    Beside rafters that are as far apart each joist lies against one of them, all on the same side; else a joist that
    would stand in a rafter moves beside it, whichever way is less.
    """
    width, spacing = max(edge.a[0] for edge in plan.edges), plan.floor.joists.spacing
    if not plan.rafters:
        return layout_positions(width, spacing)
    first = _beside(plan, width / 2) if _alike(plan) else spacing
    low, high = ceil((TOLERANCE.length - first) / spacing), floor((width - TOLERANCE.length - first) / spacing)
    free = (_clear(plan, first + k * spacing) for k in range(low, high + 1))
    return tuple(sorted({round(u, 6) for u in free if plan.thickness / 2 <= u <= width - plan.thickness / 2}))


def _alike(plan: FloorPlan) -> bool:
    """Whether some rafters stand as far apart as the joists do."""
    spots = [u for u, _ in plan.rafters]
    return any(abs(b - a - plan.floor.joists.spacing) < TOLERANCE.mark for a in spots for b in spots)


def _beside(plan: FloorPlan, u: float) -> float:
    """The place to the right of the rafter nearest to a place."""
    at, half = min(plan.rafters, key=lambda rafter: (abs(rafter[0] - u), rafter[0]))
    return at + half + plan.thickness / 2


def _clear(plan: FloorPlan, u: float) -> float:
    """The nearest place where a joist stands in no rafter."""
    half = plan.thickness / 2

    def free(at: float) -> bool:
        return all(abs(at - other) >= half + width - TOLERANCE.mark for other, width in plan.rafters)

    if free(u):
        return u
    beside = (other + way * (width + half) for other, width in plan.rafters for way in (-1, 1))
    return min((at for at in beside if free(at)), key=lambda at: (abs(at - u), at))
