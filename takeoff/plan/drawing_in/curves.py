"""Arcs as straight pieces."""

from __future__ import annotations

from collections.abc import Sequence
from math import acos, atan, atan2, ceil, cos, dist, pi, sin

Point = tuple[float, float]

MOST_PIECES = 64
"""Most straight pieces of one arc."""


def arc_points(centre: Point, radius: float, start: float, sweep: float, within: float) -> list[Point]:
    """Points of an arc from its start to its end.

    Args:
        centre: of the circle.
        radius: of it.
        start: angle of the first point [rad].
        sweep: angle gone through, + counter-clockwise [rad].
        within: how far a piece may stand off the arc.

    Source:
        Geometry: the sagitta of a chord over the angle t is r (1 - cos t/2).
    """
    widest = 2 * acos(max(1 - within / radius, -1.0)) if radius > within else pi / 2
    pieces = min(max(ceil(abs(sweep) / max(widest, 1e-3) - 1e-9), 1), MOST_PIECES)
    x, y = centre
    angles = [start + sweep * k / pieces for k in range(pieces + 1)]
    return [(x + radius * cos(angle), y + radius * sin(angle)) for angle in angles]


def bulged(points: Sequence[Point], bulges: Sequence[float], *, closed: bool, within: float) -> list[Point]:
    """Corners of a polyline whose segments may be arcs.

    Args:
        points: its vertices.
        bulges: for each, the tangent of a quarter of the angle of the arc to the next; 0 is straight.
        closed: whether the last runs to the first.
        within: how far a straight piece may stand off its arc.
    """
    out: list[Point] = []
    for index, (start, bulge) in enumerate(zip(points, bulges, strict=True)):
        out.append(start)
        last = index == len(points) - 1
        if not bulge or (last and not closed):
            continue
        end = points[(index + 1) % len(points)]
        out += _bulge(start, end, bulge, within)[1:-1]
    return out


def _bulge(start: Point, end: Point, bulge: float, within: float) -> list[Point]:
    """Points of the arc between two vertices.

    Source:
        Geometry: bulge k = tan(t/4); radius = chord (1 + k^2) / 4|k|, centre left of the chord by chord (1 - k^2) / 4k.
    """
    chord = dist(start, end)
    if not chord:
        return [start, end]
    off = (1 - bulge * bulge) / (4 * bulge)
    centre = (
        (start[0] + end[0]) / 2 - (end[1] - start[1]) * off,
        (start[1] + end[1]) / 2 + (end[0] - start[0]) * off,
    )
    begin = atan2(start[1] - centre[1], start[0] - centre[0])
    return arc_points(centre, dist(centre, start), begin, 4 * atan(bulge), within)
