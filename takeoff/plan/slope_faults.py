"""What is wrong with the edges of slopes told by outline, in words, with the dimension by which they fail."""

from __future__ import annotations

from itertools import pairwise
from math import dist
from typing import TYPE_CHECKING

from takeoff.geometry.roof_edge import along, distance_to_segment, minus, turn
from takeoff.measure import format_length
from takeoff.plan.footprint import Footprint, Point
from takeoff.plan.slope_edges import FARTHEST_IN, TOUCH_IN

if TYPE_CHECKING:
    from takeoff.plan.outlines import Outlines, SlopeOutline
    from takeoff.plan.slope_edges import SlopeEdge, SlopeEdges, TracedSlopes

NEAR_IN = 36.0
"""Edges further apart aren't meant to be one [in]."""


def overlap_message(one: SlopeOutline, other: SlopeOutline) -> tuple[int, str, str] | None:
    """Where two slopes overlap in plan: the number of the edge of the second, what to say, and by how much."""
    from shapely import LineString, Polygon

    first, second = Polygon(one.points), Polygon(other.points)
    shared = first.intersection(second)
    if shared.area <= TOUCH_IN**2:
        return None
    inner = shared.buffer(-TOUCH_IN / 2)
    if inner.is_empty:
        return None  # no wider than corners may be apart that are one
    width = _width(shared)
    ring = other.points
    inside = [LineString(ends).intersection(first).length for ends in zip(ring, (*ring[1:], ring[0]), strict=True)]
    number = max(range(len(inside)), key=lambda k: inside[k]) + 1
    middle = shared.representative_point()
    found = format_length(width)
    message = (
        f"found {other.name!r} over {one.name!r} by up to {found} near {_at((middle.x, middle.y))} (edge {number}),"
        " expected slopes that share an edge and no more; write the same two points in both where they meet"
    )
    return number, message, found


def _width(shape: object) -> float:
    """The smaller side of the least rectangle round a shape [in]."""
    from shapely import get_coordinates, minimum_rotated_rectangle

    corners = get_coordinates(minimum_rotated_rectangle(shape))  # type: ignore[call-overload]
    sides = [dist(a, b) for a, b in pairwise(corners)]
    return float(min(sides[:2]))


def loose_message(
    outlines: Outlines, traced: TracedSlopes, slope: SlopeEdges, edge: SlopeEdge, walls: Footprint
) -> tuple[str, str]:
    """What to say of an edge that no slope shares and that lies along no side, and by how much it fails."""
    name = outlines.slopes[slope.index].name
    a, b = traced.ends(edge)
    head = f"found edge {edge.number} of {name!r} from {_at(a)} to {_at(b)}"
    gap = _gap(traced, slope, edge)
    if gap:
        other, number, apart = gap
        words = format_length(apart)
        beside = f"edge {number} of {outlines.slopes[other].name!r}"
        return f"{head} up to {words} from {beside}, expected no gap; write the same two points in both", words
    side, off, lean = _nearest_side(a, b, walls)
    if _inside(a, b, walls):
        return (
            f"{head}, beyond which no slope is, expected another slope there, or the edge along a side of the building"
            f" ({walls.sides[side].name} is {format_length(off)} away)",
            format_length(off),
        )
    if lean > TOUCH_IN:
        words = format_length(lean)
        return f"{head} turned {words} over its length from {walls.sides[side].name}, expected it along a side", words
    if outlines.reach == "plate_line":
        return (
            f"{head} {format_length(off)} off {walls.sides[side].name}, expected it on the outside of the wall framing;"
            " or write reach: eave_line, if the outlines go to tails and barges",
            format_length(off),
        )
    limit = format_length(FARTHEST_IN)
    return f"{head} {format_length(off)} off {walls.sides[side].name}, expected it up to {limit} out", format_length(
        off
    )


def _gap(traced: TracedSlopes, slope: SlopeEdges, edge: SlopeEdge) -> tuple[int, int, float] | None:
    """The loose edge of another slope that faces an edge, and how far it is off at most."""
    a, b = traced.ends(edge)
    found = []
    for other in traced.slopes:
        for beside in other.edges if other is not slope else ():
            c, d = traced.ends(beside)
            faces = along(minus(b, a), minus(d, c)) < 0.7 * -dist(a, b) * dist(c, d)
            if beside.is_loose and faces:
                apart = max(distance_to_segment(p, c, d) for p in (a, b))
                found.append((apart, other.index, beside.number))
    if not found or min(found)[0] > NEAR_IN:
        return None
    apart, index, number = min(found)
    return index, number, apart


def _nearest_side(a: Point, b: Point, walls: Footprint) -> tuple[int, float, float]:
    """The nearest side, how far off the middle of an edge is, and how much the edge is turned from it [in]."""
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    off = [distance_to_segment(middle, side.start, side.end) for side in walls.sides]
    best = min(range(len(off)), key=lambda k: off[k])
    return best, off[best], abs(turn(minus(b, a), walls.sides[best].direction))


def _inside(a: Point, b: Point, walls: Footprint) -> bool:
    """Whether what lies beyond an edge is over the building."""
    from shapely import Point as Spot
    from shapely import Polygon

    dx, dy = minus(b, a)
    away = 2 * TOUCH_IN / dist(a, b)
    spot = Spot((a[0] + b[0]) / 2 + dy * away, (a[1] + b[1]) / 2 - dx * away)
    return bool(Polygon(walls.points).contains(spot))


def _at(point: Point) -> str:
    return f"({format_length(point[0])}, {format_length(point[1])})"
