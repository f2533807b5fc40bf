"""The lines that fill a hatch."""

from __future__ import annotations

from math import sqrt

from takeoff.sheets.drawing import MM_PER_IN, Hatch, Line


def hatch_lines(hatch: Hatch, one_to: float) -> tuple[Line, ...]:
    """Lines at 45 degrees across the polygon in the axes of its view [in], from its upper left on; none where clear."""
    from shapely import Polygon, get_parts, intersection, linestrings, unary_union

    polygon = Polygon(hatch.points)
    x0, y0, x1, y1 = polygon.bounds
    filled = polygon.difference(unary_union([Polygon(ring) for ring in hatch.clear])) if hatch.clear else polygon
    # A line y - x = c moves by step * sqrt 2 in c for a step square to itself.
    step = hatch.spacing_mm * one_to / MM_PER_IN * sqrt(2)
    count = int((y1 - x0 - (y0 - x1)) / step)
    moves = (y1 - x0 - (index + 0.5) * step for index in range(count + 1))
    across = linestrings([[(x0, x0 + c), (x1, x1 + c)] for c in moves])
    found: list[Line] = []
    for part in get_parts(intersection(filled, across)):
        if part.geom_type == "LineString" and part.length:
            (ax, ay), *_, (bx, by) = sorted(part.coords)
            found.append(Line((ax, ay), (bx, by), hatch.pen))
    return tuple(found)
