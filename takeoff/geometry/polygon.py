"""Tidy polygons: no slivers, no doubled corners, one fixed orientation and starting corner."""

from __future__ import annotations

from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry


def cleaned(shape: BaseGeometry) -> tuple[Polygon, ...]:
    """The polygons of ``shape``, each clean, in a fixed order; whatever has no area is dropped.

    Corners are put on a grid of a thousandth of the length tolerance, which closes the slivers that
    differences of polygons leave; corners on a straight line go.
    """
    from shapely import get_parts, normalize, set_precision

    tidy = normalize(set_precision(shape, TOLERANCE.length / 1000)).simplify(TOLERANCE.length / 10)
    return tuple(part for part in get_parts(tidy) if part.geom_type == "Polygon" and part.area > TOLERANCE.area)


def corners(polygon: Polygon) -> tuple[tuple[float, float], ...]:
    """Corners of the outer ring, counter-clockwise, the first not repeated, from the lowest left."""
    points = [(float(x), float(y)) for x, y in polygon.exterior.coords[:-1]]
    if sum(points[k - 1][0] * y - x * points[k - 1][1] for k, (x, y) in enumerate(points)) < 0:
        points.reverse()
    first = points.index(min(points, key=lambda p: (p[1], p[0])))
    return tuple(points[first:] + points[:first])
