"""Flat outlines whose edges have roles, and the slices that layout lines cut from them.

Members of a face run along v; a layout line is a line u = constant.

        v ^      ____ridge____
          |     |   |   |     |        a slice: from the eave edge
          |     |   |   |     rake     to the ridge edge at one u
          |     |___|___|_____|
          +------- eave ---------> u
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Edge:
    """One side of an outline, from ``a`` to ``b``, with the role that decides how sticks end on it."""

    role: str
    a: Point
    b: Point

    @property
    def slope(self) -> float:
        """Rise of v for one of u; 0 for an edge that runs along v."""
        run = self.b[0] - self.a[0]
        return (self.b[1] - self.a[1]) / run if run else 0.0

    def v_at(self, u: float) -> float:
        """Height of the edge's line over ``u``."""
        return self.a[1] + (u - self.a[0]) * self.slope


@dataclass(frozen=True, slots=True)
class Slice:
    """What a layout line at ``u`` has inside the outline, between two of its edges."""

    u: float
    lower: Edge
    upper: Edge

    @property
    def v0(self) -> float:
        """Lower end [in]."""
        return self.lower.v_at(self.u)

    @property
    def v1(self) -> float:
        """Upper end [in]."""
        return self.upper.v_at(self.u)


@dataclass(frozen=True, slots=True)
class Outline:
    """A ring of edges, counter-clockwise, with rings of edges for the holes in it.

    A hole may reach over the ring, as a door's does at the floor.
    """

    edges: tuple[Edge, ...]
    holes: tuple[tuple[Edge, ...], ...] = ()

    @property
    def polygon(self) -> BaseGeometry:
        """The outline as a shape, holes taken out. A hole from side to side may leave it in parts."""
        from shapely import Polygon, union_all

        rings = [Polygon([edge.a for edge in ring]) for ring in self.holes]
        return Polygon([edge.a for edge in self.edges]).difference(union_all(rings))

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Least u and v, greatest u and v, of the ring."""
        us = [edge.a[0] for edge in self.edges]
        vs = [edge.a[1] for edge in self.edges]
        return min(us), min(vs), max(us), max(vs)

    def all_edges(self) -> Iterator[Edge]:
        """Edges of the ring and of every hole."""
        yield from self.edges
        for hole in self.holes:
            yield from hole

    def slices(self, u: float) -> tuple[Slice, ...]:
        """Slices at one layout line, lowest first; none where the line misses the outline.

        A line through a corner counts the edge to its right, so that each line meets an even number of edges.
        """
        found = _crossed(self.edges, u)
        for hole in self.holes:
            for gap in _crossed(hole, u):
                found = [part for whole in found for part in _without(whole, gap)]
        return tuple(found)

    def edges_with(self, role: str) -> tuple[Edge, ...]:
        """All edges that have this role."""
        return tuple(edge for edge in self.all_edges() if edge.role == role)


def cut_off_below(edges: Sequence[Edge], v: float, role: str) -> tuple[Edge, ...]:
    """What of a ring lies above a level line; the edge along the line gets the role.

    The line is met twice at most. A ring that lies above it already stays as it is.
    """
    return cut_off(edges, (0.0, 1.0), v, role)


def cut_off(edges: Sequence[Edge], normal: Point, least: float, role: str) -> tuple[Edge, ...]:
    """What of a ring lies beyond a straight line, where ``normal . (u, v) >= least``; the edge along it gets the role.

    The line is met twice at most. A ring that lies beyond it already stays as it is; one that lies this side of it
    leaves nothing.
    """
    beyond = {edge.a: normal[0] * edge.a[0] + normal[1] * edge.a[1] - least for edge in edges}
    if min(beyond.values()) >= -TOLERANCE.length:
        return tuple(edges)
    if max(beyond.values()) <= TOLERANCE.length:
        return ()
    kept: list[Edge] = []
    for edge in edges:
        at_a, at_b = beyond[edge.a], beyond[edge.b]
        low_a, low_b = at_a < 0, at_b < 0
        if low_a and low_b:
            continue
        if low_a or low_b:
            share = at_a / (at_a - at_b)
            spot = (edge.a[0] + share * (edge.b[0] - edge.a[0]), edge.a[1] + share * (edge.b[1] - edge.a[1]))
            kept.append(Edge(edge.role, spot, edge.b) if low_a else Edge(edge.role, edge.a, spot))
        else:
            kept.append(edge)
    last = next(k for k, edge in enumerate(kept) if kept[(k + 1) % len(kept)].a != edge.b)
    start, end = kept[last].b, kept[(last + 1) % len(kept)].a
    return (Edge(role, start, end), *kept[last + 1 :], *kept[: last + 1])


def _crossed(edges: Sequence[Edge], u: float) -> list[Slice]:
    met = [e for e in edges if min(e.a[0], e.b[0]) <= u < max(e.a[0], e.b[0])]
    met.sort(key=lambda edge: edge.v_at(u))
    return [Slice(u, lower, upper) for lower, upper in zip(met[::2], met[1::2], strict=True)]


def _without(whole: Slice, gap: Slice) -> list[Slice]:
    """What a hole's slice leaves of a solid one."""
    if gap.v1 <= whole.v0 or gap.v0 >= whole.v1:
        return [whole]
    below = [Slice(whole.u, whole.lower, gap.lower)] if gap.v0 > whole.v0 else []
    above = [Slice(whole.u, gap.upper, whole.upper)] if gap.v1 < whole.v1 else []
    return below + above


def ring(points: Sequence[Point], roles: Sequence[str]) -> tuple[Edge, ...]:
    """Closed ring of edges: ``roles[i]`` is the edge from ``points[i]`` to the next point."""
    return tuple(Edge(role, a, b) for role, a, b in zip(roles, points, [*points[1:], points[0]], strict=True))


def rectangle(u0: float, v0: float, u1: float, v1: float, roles: Sequence[str]) -> tuple[Edge, ...]:
    """Ring of a rectangle; roles in the order bottom, right, top, left."""
    return ring([(u0, v0), (u1, v0), (u1, v1), (u0, v1)], roles)
