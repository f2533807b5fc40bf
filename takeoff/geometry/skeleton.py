r"""Roof slopes over any simple outline: the weighted straight skeleton, its faces put together.

::

      +-----------------+
      | \             / |      every edge that is no wall carries a slope; slopes rise till they meet in
      |   \_________/   |      ridges, hips and valleys, or reach a wall
      |   /         \   |
      | /             \ |
      +-----------------+
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import dist

from takeoff.geometry.moving_line import MovingLine, moving_lines
from takeoff.geometry.roof_edge import (
    Point,
    RoofEdge,
    RoofError,
    crosses,
    distance_to_segment,
    refuse_bad_outline,
    signed_area,
)
from takeoff.geometry.untangle import Segment, plan, traced
from takeoff.geometry.vec import Vec
from takeoff.geometry.wavefront import Front, Loop, RoofSide, advanced

STEPS_PER_EDGE = 40
"""Changes of the level outline allowed for each edge; a sound one has a few."""

NEAR = (1e-4, 1e-6, 2e-3)
"""Tolerances [in] at which corners have met, in the order tried: far over what files written to six decimals leave,
far under a sixteenth. Where an outline is out of true by just about one of them, it is sound for another."""

SNAP = 1e-3
"""Sides shorter than this, and corners this near a straight line [in], are traces of events that fell together."""

SOUND = 1 / 64
"""How far a corner may be off the plane of its slope [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofSlope:
    """One slope in plan: the sides of its outline, counter-clockwise from the left end of the eave of ``edge``.

    ``edges`` are all the edges that carry it: edges in one line, of one slope, whose slopes run together, as on both
    sides of a wing, make one slope. ``edge`` is the first of them, and what a neighbour's ``across`` names.
    """

    edge: int
    edges: tuple[int, ...]
    slope: float
    """Rise over run."""
    sides: tuple[RoofSide, ...]

    @property
    def ring(self) -> tuple[tuple[Point, float], ...]:
        """Corners in plan with their heights over the eaves; side k starts in corner k."""
        return tuple((plan(side.start), side.start[2]) for side in self.sides)

    @property
    def area(self) -> float:
        """In plan [sq in]."""
        return signed_area([plan(side.start) for side in self.sides])


def roof_slopes(edges: Sequence[RoofEdge]) -> tuple[RoofSlope, ...]:
    """Slopes of the roof over an outline, by edge; together they cover it exactly once.

    All eaves are at height 0. Kinds of sides:

    - eave: over its edge; also over the head of a wall that the only slope runs on over, higher up;
    - ridge: the top of two slopes, level;
    - hip, valley: any other fold between two slopes, by whether water leaves it or gathers in it; a slope that ends
      under a steeper one on the same line has a level valley;
    - gable: against a wall, along the outline or where the wall stands on into the roof.

    Slopes may stand at different heights on the two sides of a wall; across all other sides they are continuous.
    With one pitch a line square to the eave crosses a slope once; with several pitches it may cross it more often.

    Args:
        edges: one simple ring, counter-clockwise.

    Raises:
        RoofError: the ring is not one, a slope is not over 0, neighbours in one line differ in slope, or the slopes
            leave part of the outline open.

    Source:
        Geometry; see ``wavefront``.
    """
    refuse_bad_outline(edges)
    errors = []
    for near in NEAR:
        try:
            return _roofed(edges, near)
        except RoofError as error:
            errors.append(error)
    raise errors[0]


def _roofed(edges: Sequence[RoofEdge], near: float) -> tuple[RoofSlope, ...]:
    lines = moving_lines(edges)
    sides, seams = _followed(edges, lines, near)
    slopes = _put_together(edges, sides, _slope_of(edges, seams))
    _refuse_unsound(edges, lines, slopes)
    return slopes


def _refuse_unsound(edges: Sequence[RoofEdge], lines: Sequence[MovingLine], slopes: Sequence[RoofSlope]) -> None:
    """Prove the result: the slopes are simple, plane, and add up to the outline.

    Raises:
        RoofError: they are not.
    """
    outline = signed_area([edge.a for edge in edges])
    if abs(sum(slope.area for slope in slopes) - outline) > SNAP * sum(dist(edge.a, edge.b) for edge in edges):
        raise RoofError("the slopes do not close over the outline", range(len(edges)))
    for slope in slopes:
        if any(abs(lines[slope.edge].height_over(place) - height) > SOUND for place, height in slope.ring):
            raise RoofError(f"the slope of edge {slope.edge} is not plane", slope.edges)
        ends = [(plan(side.start), plan(side.end)) for side in slope.sides]
        if any(crosses(*one, *other) for one, other in combinations(ends, 2)):
            raise RoofError(f"the slope of edge {slope.edge} crosses itself", slope.edges)


def _followed(
    edges: Sequence[RoofEdge], lines: Sequence[MovingLine], near: float
) -> tuple[list[tuple[int, RoofSide]], list[tuple[int, int]]]:
    """All sides of all slopes, by edge, in pieces; and which edges carry one slope."""
    corners: list[Vec] = [(float(edge.a[0]), float(edge.a[1]), 0.0) for edge in edges]
    ends = [*corners[1:], corners[0]]
    sides = [(k, RoofSide("eave", k, corners[k], ends[k])) for k, edge in enumerate(edges) if not edge.is_wall]
    seams: list[tuple[int, int]] = []
    waiting: list[Loop] = [tuple(Front(k, corner) for k, corner in enumerate(corners))]
    for _ in range(STEPS_PER_EDGE * len(edges)):
        if not waiting:
            return sides, seams
        found = advanced(lines, waiting.pop(), near)
        sides += found.sides
        seams += found.seams
        waiting += found.loops
    raise RoofError("the slopes do not come to an end", range(len(edges)))


def _slope_of(edges: Sequence[RoofEdge], seams: Iterable[tuple[int, int]]) -> list[int]:
    """For each edge, the first edge that carries the same slope; a wall is only itself."""
    first = list(range(len(edges)))
    for one, other in seams:
        if edges[one].is_wall:
            continue
        low, high = sorted((first[one], first[other]))
        first = [low if k == high else k for k in first]
    return first


def _put_together(
    edges: Sequence[RoofEdge], sides: Iterable[tuple[int, RoofSide]], slope_of: Sequence[int]
) -> tuple[RoofSlope, ...]:
    pieces: dict[int, list[RoofSide]] = defaultdict(list)
    for edge, side in sides:
        across = side.across if side.kind == "eave" else slope_of[side.across]
        pieces[slope_of[edge]].append(RoofSide(side.kind, across, side.start, side.end))
    slopes = []
    for edge, slope in enumerate(edges):
        if slope.slope is not None and slope_of[edge] == edge:
            carriers = tuple(k for k in range(len(edges)) if slope_of[k] == edge)
            ring = _tidy(_in_order(edge, pieces[edge]))
            if len(ring) < 3:
                raise RoofError(f"the slope of edge {edge} has no room beside its neighbours", [edge])
            slopes.append(RoofSlope(edge=edge, edges=carriers, slope=slope.slope, sides=ring))
    return tuple(slopes)


def _in_order(edge: int, pieces: Sequence[RoofSide]) -> list[RoofSide]:
    """Pieces of one slope's outline as a ring, from its first eave on.

    Raises:
        RoofError: they make no single ring.
    """
    try:
        loops = traced(Segment(k, piece.start, piece.end) for k, piece in enumerate(pieces))
    except ValueError as error:
        raise RoofError(f"the slope of edge {edge} does not close", [edge]) from error
    if len(loops) != 1:
        raise RoofError(f"the slope of edge {edge} falls apart", [edge])
    ring = [pieces[segment.edge] for segment in loops[0]]
    eave = next(k for k, piece in enumerate(ring) if piece.kind == "eave" and piece.across == edge)
    return ring[eave:] + ring[:eave]


def _tidy(ring: Sequence[RoofSide]) -> tuple[RoofSide, ...]:
    """The ring without specks, pieces of one straight fold made one."""
    tidy: list[RoofSide] = []
    for side in ring:
        if dist(plan(side.start), plan(side.end)) <= SNAP:
            continue
        start = tidy[-1].end if tidy else side.start
        side = RoofSide(side.kind, side.across, start, side.end)
        if tidy and is_one_fold(tidy[-1], side):
            side = RoofSide(side.kind, side.across, tidy.pop().start, side.end)
        tidy.append(side)
    last = tidy.pop()
    if not tidy:
        return (last,)
    return (*tidy, RoofSide(last.kind, last.across, last.start, tidy[0].start))


def is_one_fold(one: RoofSide, other: RoofSide) -> bool:
    """Whether a side runs straight on in the next, of one kind and beside the same slope or wall."""
    if (one.kind, one.across) != (other.kind, other.across):
        return False
    a, b, c = plan(one.start), plan(one.end), plan(other.end)
    return dist(a, c) > SNAP and distance_to_segment(b, a, c) <= SNAP
