"""A panel: one placed piece of sheet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from shapely import Polygon


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """A piece of sheet on a face. Its polygon is in module coordinates: joint to joint, gaps not taken off."""

    building: str
    face: str
    product: str
    zone: Literal["field", "exposed"]
    polygon: Polygon
    """On the face, u and v [in]."""
    strength_axis: Literal["u", "v"]
    flips: bool = False
    """It may be cut with either side of the sheet up: no side of it has to show, or to be walked on."""
    mark: str = ""

    @property
    def length_in(self) -> float:
        """Extent along the strength axis [in]."""
        x0, y0, x1, y1 = self.polygon.bounds
        return float(x1 - x0 if self.strength_axis == "u" else y1 - y0)

    @property
    def width_in(self) -> float:
        """Extent across the strength axis [in]."""
        x0, y0, x1, y1 = self.polygon.bounds
        return float(y1 - y0 if self.strength_axis == "u" else x1 - x0)

    @property
    def area_sqft(self) -> float:
        """Area covered [sq ft]."""
        return float(self.polygon.area / 144)
