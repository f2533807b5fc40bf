"""Lines of a drawing cut off at a window."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from takeoff.sheets.drawing import Line, Pen, Point, Polyline

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

Bounds = tuple[float, float, float, float]
"""Least x and y, greatest x and y [in]."""


def clipped_ring(ring: Sequence[Point], window: Bounds, pen: Pen, mark: str = "") -> Iterator[Polyline]:
    """What of a closed outline is in a window."""
    from shapely import LinearRing

    yield from clipped(LinearRing(ring), window, pen, mark)


def clipped_line(line: Line, window: Bounds) -> Iterator[Line]:
    """What of a straight line is in a window."""
    from shapely import LineString

    for part in clipped(LineString([line.a, line.b]), window, line.pen):
        yield Line(part.points[0], part.points[-1], line.pen)


def clipped(lines: BaseGeometry, window: Bounds, pen: Pen, mark: str = "") -> Iterator[Polyline]:
    """What of any lines is in a window, each run that hangs together by itself."""
    from shapely import LineString, box, get_parts, line_merge

    inside = lines.intersection(box(*window))
    for part in get_parts(line_merge(inside) if inside.geom_type == "MultiLineString" else inside):
        if isinstance(part, LineString) and not part.is_empty:
            yield Polyline(tuple((float(x), float(y)) for x, y in part.coords), pen, mark=mark)
