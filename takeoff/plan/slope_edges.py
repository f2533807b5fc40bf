r"""Slopes told by outline, taken apart: which edges they share, and along which side of the building the others lie.

::

      +-----------+        Corners that are written within `TOUCH_IN` of each other are one node; an edge that passes
      |\   a     /|        a node of another outline is parted there. An edge between two nodes then belongs to one
      | \_______/ |        slope, and lies along a side of the building, or to two, and is a ridge, a hip or a valley.
      | / b     \ |
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import dist
from typing import TYPE_CHECKING

from takeoff.geometry.roof_edge import along, distance_to_segment, minus, turn
from takeoff.plan.footprint import Footprint, Point, Side, signed_area

if TYPE_CHECKING:
    from takeoff.plan.outlines import Outlines, SlopeOutline

TOUCH_IN = 1 / 8
"""Points this near are one [in]: outlines are written to the sixteenth."""

FARTHEST_IN = 60.0
"""No roof reaches further over its walls [in]."""

_FACING = {"south": (0.0, -1.0), "east": (1.0, 0.0), "north": (0.0, 1.0), "west": (-1.0, 0.0)}


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopeEdge:
    """A piece of a slope's outline between two nodes, the slope on its left."""

    number: int
    """Of the edge as written, 1 from the first point to the second."""
    start: int
    end: int
    """Nodes."""
    side: int | None = None
    """Place in the footprint of the side that it lies along; None between two slopes, or where it lies along none."""
    out: float = 0.0
    """How far outside of the wall framing it lies there [in]."""
    across: int | None = None
    """Place of the slope on its other side; None where there is none."""
    is_eave: bool = False

    @property
    def is_loose(self) -> bool:
        """It lies along no side, and no slope shares it."""
        return self.side is None and self.across is None


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopeEdges:
    """One slope: its edges counter-clockwise."""

    index: int
    """In the plan's list."""
    edges: tuple[SlopeEdge, ...]

    @property
    def side(self) -> int | None:
        """Place in the footprint of the side that it starts on, the first where there are several."""
        return min((edge.side for edge in self.edges if edge.is_eave and edge.side is not None), default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class TracedSlopes:
    """All slopes of a building, and the nodes that their edges join."""

    slopes: tuple[SlopeEdges, ...]
    nodes: tuple[Point, ...]

    def ends(self, edge: SlopeEdge) -> tuple[Point, Point]:
        """Where an edge starts and ends, as written [in]."""
        return self.nodes[edge.start], self.nodes[edge.end]

    def outs(self) -> dict[int, float]:
        """How far the roof reaches over each side, by its place in the footprint [in]."""
        return {edge.side: edge.out for slope in self.slopes for edge in slope.edges if edge.side is not None}


def traced_slopes(outlines: Outlines, walls: Footprint) -> TracedSlopes:
    """The slopes of a plan, taken apart; sound only where `rules_slopes` finds nothing."""
    nodes: list[Point] = []
    rings = [_ring(slope, nodes) for slope in outlines.slopes]
    for joint in _joints(outlines, walls):
        _node(joint, nodes)
    known = tuple(nodes)
    parted = [tuple(_parted(edges, known)) for edges in rings]
    owner = {(edge.start, edge.end): k for k, edges in enumerate(parted) for edge in edges}
    slopes = []
    for k, (slope, edges) in enumerate(zip(outlines.slopes, parted, strict=True)):
        met = [_met(edge, owner, known, walls, reach=outlines.reach) for edge in edges]
        slopes.append(SlopeEdges(index=k, edges=tuple(_with_eaves(slope, met, known, walls))))
    return TracedSlopes(slopes=tuple(slopes), nodes=known)


def is_clockwise(slope: SlopeOutline) -> bool:
    """Whether its points run clockwise."""
    return signed_area(slope.points) < 0


def _ring(slope: SlopeOutline, nodes: list[Point]) -> tuple[SlopeEdge, ...]:
    """The edges of an outline counter-clockwise; new corners become nodes."""
    count = len(slope.points)
    order = list(range(count))
    if is_clockwise(slope):
        order.reverse()
    at = [_node(slope.points[k], nodes) for k in order]
    numbers = [(k if is_clockwise(slope) else k + 1) or count for k in order]
    made = (
        SlopeEdge(number=number, start=a, end=b) for number, a, b in zip(numbers, at, [*at[1:], at[0]], strict=True)
    )
    return tuple(edge for edge in made if edge.start != edge.end)


def _node(point: Point, nodes: list[Point]) -> int:
    for k, known in enumerate(nodes):
        if dist(known, point) <= TOUCH_IN:
            return k
    nodes.append(point)
    return len(nodes) - 1


def _joints(outlines: Outlines, walls: Footprint) -> Iterator[Point]:
    """Where two sides run on in one line, the place over their joint on each edge that passes it."""
    for k, side in enumerate(walls.sides):
        if not in_line(walls.sides[k - 1], side):
            continue
        for slope in outlines.slopes:
            ring = slope.points
            for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
                start, end = (a, b) if not is_clockwise(slope) else (b, a)
                out = _out(start, end, side)
                if out is not None and -TOUCH_IN <= out <= FARTHEST_IN:
                    yield side.start[0] + out * side.normal[0], side.start[1] + out * side.normal[1]


def in_line(one: Side, other: Side) -> bool:
    """Whether two sides look the same way and lie in one line."""
    off = along(minus(other.start, one.start), one.normal)
    return abs(turn(one.direction, other.direction)) * other.length_in <= TOUCH_IN and (
        along(one.direction, other.direction) > 0 and abs(off) <= TOUCH_IN
    )


def _parted(edges: Sequence[SlopeEdge], nodes: Sequence[Point]) -> Iterator[SlopeEdge]:
    """Edges parted at the nodes that they pass."""
    for edge in edges:
        a, b = nodes[edge.start], nodes[edge.end]
        line = minus(b, a)
        passed = sorted(
            (along(minus(p, a), line), k)
            for k, p in enumerate(nodes)
            if k not in (edge.start, edge.end) and distance_to_segment(p, a, b) <= TOUCH_IN
        )
        stops = [edge.start, *(k for _, k in passed), edge.end]
        yield from (replace(edge, start=s, end=e) for s, e in pairwise(stops))


def _met(
    edge: SlopeEdge, owner: dict[tuple[int, int], int], nodes: Sequence[Point], walls: Footprint, *, reach: str
) -> SlopeEdge:
    """An edge with the slope on its other side, or the side that it lies along."""
    across = owner.get((edge.end, edge.start))
    if across is not None:
        return replace(edge, across=across)
    found = _side_along(nodes[edge.start], nodes[edge.end], walls, TOUCH_IN if reach == "plate_line" else FARTHEST_IN)
    return edge if found is None else replace(edge, side=found[0], out=found[1])


def _side_along(a: Point, b: Point, walls: Footprint, farthest: float) -> tuple[int, float] | None:
    """The side that an edge lies along, and how far out; None where it lies along none."""
    beside = []
    for k, side in enumerate(walls.sides):
        out = _out(a, b, side)
        if out is None or not -TOUCH_IN <= out <= farthest:
            continue
        left, right = (along(minus(p, side.start), side.direction) for p in (a, b))
        shared = min(right, side.length_in) - max(left, 0.0)
        if shared > -farthest:
            beside.append((min(0.0, shared), -out, -k))
    if not beside:
        return None
    _, out, k = max(beside)
    return -k, max(0.0, -out)


def _out(a: Point, b: Point, side: Side) -> float | None:
    """How far outside a side an edge lies that runs along it [in]; None where it doesn't."""
    outs = [along(minus(p, side.start), side.normal) for p in (a, b)]
    runs_along = along(minus(b, a), side.direction) > 0
    return sum(outs) / 2 if runs_along and abs(outs[0] - outs[1]) <= TOUCH_IN else None


def _with_eaves(
    slope: SlopeOutline, edges: Sequence[SlopeEdge], nodes: Sequence[Point], walls: Footprint
) -> Iterator[SlopeEdge]:
    """The edges of a slope, its eave marked, and what runs on in one line with it, as beyond a wing."""
    numbers = eave_numbers(slope, edges, nodes, walls)
    carriers = [walls.sides[edge.side] for edge in edges if edge.side is not None and edge.number in numbers]
    for edge in edges:
        side = None if edge.side is None else walls.sides[edge.side]
        yield replace(edge, is_eave=side is not None and any(in_line(one, side) for one in carriers[:1]))


def eave_numbers(
    slope: SlopeOutline, edges: Sequence[SlopeEdge], nodes: Sequence[Point], walls: Footprint
) -> frozenset[int]:
    """Numbers of the edges that the plan calls the eave; none where no edge is that."""
    told = slope.eave
    if isinstance(told, int):
        return frozenset({told} & set(range(1, len(slope.points) + 1)))
    if not isinstance(told, str):
        ring = slope.points
        edge_ends = enumerate(zip(ring, (*ring[1:], ring[0]), strict=True), 1)
        return frozenset(number for number, ends in edge_ends if _same_ends(ends, told))
    named = [k for k, side in enumerate(walls.sides) if side.name == told]
    if named:
        return frozenset(edge.number for edge in edges if edge.side in named)
    return frozenset(edge.number for edge in edges if edge.side is not None and _faces(edge, nodes, told))


def _same_ends(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    return any(dist(one[0], a) <= TOUCH_IN and dist(one[1], b) <= TOUCH_IN for a, b in (other, other[::-1]))


def _faces(edge: SlopeEdge, nodes: Sequence[Point], word: str) -> bool:
    """Whether an edge looks to a compass direction, within its eighth of the horizon."""
    x, y = minus(nodes[edge.end], nodes[edge.start])
    facing = _FACING.get(word.lower())
    return facing is not None and along((y, -x), facing) > 0.924 * dist(nodes[edge.start], nodes[edge.end])
