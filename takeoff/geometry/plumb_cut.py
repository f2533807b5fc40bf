"""Slopes of a roof cut off along a plumb plane."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from takeoff.geometry.roof_edge import Point
from takeoff.geometry.skeleton import SNAP, RoofSlope
from takeoff.geometry.vec import Vec
from takeoff.geometry.wavefront import Kind, RoofSide


def cut_slope(slope: RoofSlope, normal: Point, most: float, kind: Kind, across: int) -> RoofSlope:
    """What of one slope lies where ``normal . (x, y) <= most``; its side along the plane is of that kind.

    The plane meets it twice at most.

    Args:
        slope: in plan, with heights.
        normal: unit vector in plan.
        most: [in].
        kind: of the side along the plane.
        across: what that side's other side is.
    """
    kept = list(_kept(slope.sides, normal, most))
    closed: list[RoofSide] = []
    for k, side in enumerate(kept):
        closed.append(side)
        after = kept[(k + 1) % len(kept)]
        if _apart(side.end, after.start):
            closed.append(RoofSide(kind, across, side.end, after.start))
    first = next((k for k, side in enumerate(closed) if side.kind == "eave"), 0)
    return replace(slope, sides=tuple(closed[first:] + closed[:first]))


def _apart(one: Vec, other: Vec) -> bool:
    return max(abs(one[0] - other[0]), abs(one[1] - other[1])) > SNAP


def _kept(sides: Sequence[RoofSide], normal: Point, most: float) -> Iterator[RoofSide]:
    for side in sides:
        start, end = (normal[0] * p[0] + normal[1] * p[1] - most for p in (side.start, side.end))
        if max(start, end) <= SNAP:
            yield side
        elif min(start, end) < -SNAP:
            spot = _between(side.start, side.end, start / (start - end))
            yield replace(side, end=spot) if end > 0 else replace(side, start=spot)


def _between(a: Vec, b: Vec, share: float) -> Vec:
    x, y, z = (p + share * (q - p) for p, q in zip(a, b, strict=True))
    return (x, y, z)
