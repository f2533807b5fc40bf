"""Outlines with some of their edges moved out or in, the neighbours following along their own lines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import hypot

from takeoff.geometry.outline import Edge, Point
from takeoff.geometry.tolerance import TOLERANCE


def shifted(edges: Sequence[Edge], out: Mapping[str, float]) -> tuple[Edge, ...]:
    """The ring with its edges moved outward by role [in]; below 0 moves inward, roles not named stay.

    Corners are where the moved lines meet; between two edges in one line the corner is moved straight out.
    """
    lines = [_moved(edge, out.get(edge.role, 0.0)) for edge in edges]
    corners = [_meeting(lines[k - 1], line) for k, line in enumerate(lines)]
    return tuple(replace(edge, a=a, b=b) for edge, a, b in zip(edges, corners, [*corners[1:], corners[0]], strict=True))


def _moved(edge: Edge, out: float) -> Edge:
    (ax, ay), (bx, by) = edge.a, edge.b
    length = hypot(bx - ax, by - ay)
    nx, ny = (by - ay) / length * out, -(bx - ax) / length * out
    return replace(edge, a=(ax + nx, ay + ny), b=(bx + nx, by + ny))


def _meeting(one: Edge, other: Edge) -> Point:
    ux, uy = one.b[0] - one.a[0], one.b[1] - one.a[1]
    vx, vy = other.b[0] - other.a[0], other.b[1] - other.a[1]
    turn = ux * vy - uy * vx
    if abs(turn) < TOLERANCE.length:
        return other.a
    along = ((other.a[0] - one.a[0]) * vy - (other.a[1] - one.a[1]) * vx) / turn
    return (one.a[0] + along * ux, one.a[1] + along * uy)
