"""From the plan up: where points of the plan are on a face that stands over them."""

from __future__ import annotations

from collections.abc import Sequence

from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE

Point = tuple[float, float]


def plumb_onto(placement: Placement, points: Sequence[Point]) -> tuple[Point, ...]:
    """Points of the plan [in] in the u and v of a face, plumb over them.

    Raises:
        ValueError: the face is plumb itself.
    """
    (ax, ay, _), (bx, by, _) = placement.x, placement.y
    (ox, oy, _) = placement.origin
    across = ax * by - ay * bx
    if abs(across) < TOLERANCE.length:
        raise ValueError("nothing stands plumb over a plumb face")
    return tuple(
        (((x - ox) * by - (y - oy) * bx) / across, ((y - oy) * ax - (x - ox) * ay) / across) for x, y in points
    )
