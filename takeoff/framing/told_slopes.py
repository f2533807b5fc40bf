r"""Slopes told by outline: from their edges in plan to the slopes that rafters are sliced from.

Each edge lies in a line that is known exactly: a tail cut or a barge in its side's, moved out; a ridge, hip or valley
in that where the planes of its two slopes meet. Corners are put where these lines meet; what is written has to be
there within an eighth of an inch.

::

         _______          the planes' heights over the deck:
        /       \             plate + stand + slope * (how far inside the wall)
    ___/         \___     so two of them are equal along one straight line in plan
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import dist
from typing import TYPE_CHECKING, Literal

from takeoff.framing.roof_lines import lowest_eave
from takeoff.framing.told_lines import LEVEL, Told, plane, spots, wall_between
from takeoff.geometry.roof_edge import Point, along, turn
from takeoff.geometry.skeleton import SNAP, RoofSlope, is_one_fold
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.wavefront import Kind, RoofSide
from takeoff.plan.slope_edges import traced_slopes

if TYPE_CHECKING:
    from takeoff.framing.roof_lines import RoofSideLine
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.schema import Building
    from takeoff.plan.slope_edges import SlopeEdge, SlopeEdges


def told_slopes(building: Building, lines: Sequence[RoofSideLine], walls: Footprint) -> tuple[RoofSlope, ...]:
    """The slopes that a plan tells, as those laid out from the sides are: in plan, with heights over the lowest eave.

    Args:
        building: with slopes told by outline, its rules asked.
        lines: what each side does for the roof.
        walls: the footprint.

    Raises:
        SlopeError: two slopes don't meet in the edge that they share, or not in a ridge, hip or valley.
    """
    traced = traced_slopes(building.outlines, walls)
    planes = tuple(plane(lines[slope.side or 0]) for slope in traced.slopes)
    told = Told(building=building, traced=traced, lines=lines, planes=planes)
    at = spots(told)
    slopes = (_slope(told, slope, at, lowest_eave(tuple(lines))) for slope in traced.slopes)
    return tuple(sorted(slopes, key=lambda slope: slope.edge))


def _slope(told: Told, slope: SlopeEdges, at: Sequence[Point], base: float) -> RoofSlope:
    """One slope as if it were laid out from the sides."""
    top, first = told.planes[slope.index], slope.side or 0
    sides = []
    for edge in slope.edges:
        kind, across = _kind(told, slope, edge)
        a, b = at[edge.start], at[edge.end]
        if dist(a, b) > SNAP:
            start, end = ((*p, top.height(p) - base) for p in (a, b))
            sides.append(RoofSide(kind, across, start, end))
    eave = next(k for k, side in enumerate(sides) if side.kind == "eave" and side.across == first)
    # A ring may start within an eave that is written in pieces.
    while sides[eave - 1].kind == "eave" and sides[eave - 1].across == first and eave > -len(sides):
        eave -= 1
    ring = tuple(_whole([*sides[eave:], *sides[:eave]]))
    carriers = sorted({edge.side for edge in slope.edges if edge.is_eave and edge.side is not None})
    return RoofSlope(edge=first, edges=tuple(carriers), slope=told.lines[first].slope, sides=ring)


def _whole(sides: Sequence[RoofSide]) -> Iterator[RoofSide]:
    """Sides, pieces of one straight line made one."""
    last: RoofSide | None = None
    for side in sides:
        if last is not None and is_one_fold(last, side):
            last = replace(last, end=side.end)
            continue
        if last is not None:
            yield last
        last = side
    if last is not None:
        yield last


def _kind(told: Told, slope: SlopeEdges, edge: SlopeEdge) -> tuple[Kind, int]:
    """What an edge is for its slope, and the slope or side across it."""
    if edge.across is None:
        return ("eave" if edge.is_eave else "gable"), edge.side or 0
    wall = wall_between(told, edge)
    if wall is not None:
        return "gable", wall
    across = told.traced.slopes[edge.across].side or 0
    return _fold_kind(told, slope.index, edge), across


def _fold_kind(told: Told, index: int, edge: SlopeEdge) -> Literal["ridge", "hip", "valley"]:
    """A ridge where both slopes rise to it level, a hip where water leaves it, a valley where it gathers.

    Raises:
        SlopeError: one slope runs on in the other, steeper or flatter, as over the break of a gambrel.
    """
    one, other = told.planes[index], told.planes[edge.across or 0]
    a, b = told.traced.ends(edge)
    size = dist(a, b)
    into = (-(b[1] - a[1]) / size, (b[0] - a[0]) / size)
    mine, theirs = along(one.rise, into), -along(other.rise, into)
    if mine + theirs > 0:
        return "valley"
    if abs(turn(one.rise, into)) > LEVEL:
        return "hip"
    if max(mine, theirs) > TOLERANCE.length:
        raise told.refused(
            index,
            edge,
            f"is a break to {told.name(edge.across or 0)}, one slope over the other; write shape: gambrel, or make it"
            " a ridge",
        )
    return "ridge"
