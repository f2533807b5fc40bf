"""Where a loft lies, as the plan asks for it."""

from __future__ import annotations

from takeoff.plan.floors import Loft
from takeoff.plan.footprint import Footprint

Point = tuple[float, float]


def wanted_of(ground: Footprint, loft: Loft) -> tuple[Point, ...]:
    """Corners of a loft as the plan asks for it, what lies in the walls and beyond included.

    Raises:
        KeyError: it lies along a side that is not there.
    """
    if loft.outline is not None or loft.side is None or loft.depth is None:
        return loft.outline or ()
    side = ground.side(loft.side)
    (ax, ay), (bx, by), (nx, ny) = side.start, side.end, side.normal
    d = loft.depth
    return ((ax, ay), (bx, by), (bx - nx * d, by - ny * d), (ax - nx * d, ay - ny * d))
