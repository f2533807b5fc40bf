"""Where the words of a piece of sheet have most room."""

from __future__ import annotations

from typing import TYPE_CHECKING

from takeoff.sheets.drawing import Point

if TYPE_CHECKING:
    from shapely import Polygon


def roomiest(polygon: Polygon) -> Point:
    """The middle of a rectangle; else the middle of the largest circle that goes into the piece."""
    from shapely import maximum_inscribed_circle

    if polygon.envelope.area - polygon.area < 1.0:
        middle = polygon.centroid
        return float(middle.x), float(middle.y)
    x, y = maximum_inscribed_circle(polygon, tolerance=0.5).coords[0]
    return float(x), float(y)
