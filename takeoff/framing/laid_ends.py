"""Ends of rafters that are laid on another roof: cut along its surface instead of plumb.

             ,-'|
         ,-'    | ridge cut
     ,-'    ,-''
 ,-'____,-'
foot: a cut along the surface; level where the rafter runs along the other roof's eave, and bevelled then
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import EndCut

if TYPE_CHECKING:
    from takeoff.geometry.rafter import RafterGeometry

LAID = "laid"
"""Role of the edges of a slope's outline that lie on another roof."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """The plane that a slope's rafters are laid on, as the slope sees it.

    Heights are reckoned from the plate of the slope's wall [in].
    """

    height: float
    """Over u = 0, at the outside face of the wall."""
    along: float
    """Rise for one inch along the eave, to the right."""
    inward: float
    """Rise for one inch level, in from the wall."""
    within: tuple[float, float] = (float("-inf"), float("inf"))
    """From where to where along the eave it is there [in]."""

    def under(self, u: float) -> bool:
        """Whether it is there under a stick at ``u``."""
        return self.within[0] < u < self.within[1]

    def at(self, u: float, h: float) -> float:
        """Height over a place [in]."""
        return self.height + self.along * u + self.inward * h

    def lowest(self, u: float, thickness: float, h: float = 0.0) -> float:
        """Height on the face of a stick on which it is lower [in]."""
        return self.at(u, h) - abs(self.along) * thickness / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidEnds:
    """A rafter's geometry and the cut along the surface; None where the rafter clears it."""

    geometry: RafterGeometry
    lower: EndCut | None = None
    upper: EndCut | None = None

    def with_lower(self, cuts: tuple[EndCut, ...], *, on_laid: bool) -> tuple[EndCut, ...]:
        """Cuts of the lower end, the surface's first where the rafter ends on it and not outside of it."""
        return _with(self.lower, cuts, on_laid=on_laid)

    def with_upper(self, cuts: tuple[EndCut, ...], *, on_laid: bool) -> tuple[EndCut, ...]:
        """Cuts of the upper end, likewise."""
        return _with(self.upper, cuts, on_laid=on_laid)


def _with(laid: EndCut | None, cuts: tuple[EndCut, ...], *, on_laid: bool) -> tuple[EndCut, ...]:
    if laid is None:
        return cuts
    # A plumb plane through the tip that the surface's cut leaves takes nothing off.
    return (laid, *cuts[1:]) if on_laid else (*cuts, laid)


def laid_ends(surface: Surface, geometry: RafterGeometry, u: float, thickness: float) -> LaidEnds:
    """A rafter at ``u`` cut along the surface, where it would reach below it.

    Args:
        surface: that it lies on.
        geometry: of the rafter without it.
        u: its centre line along the eave [in].
        thickness: of the rafter [in].
    """
    lowest = surface.lowest(u, thickness)
    highest = 2 * surface.at(u, 0.0) - lowest
    upper = surface.inward > geometry.slope
    tip = geometry.end if upper else geometry.start
    if geometry.underside_at(tip) > highest + tip * surface.inward - TOLERANCE.length:
        return LaidEnds(geometry=geometry)
    cut = _cut(surface, geometry, u)
    laid = replace(geometry, surface=(lowest, surface.inward))
    return LaidEnds(geometry=laid, lower=None if upper else cut, upper=cut if upper else None)


def _cut(surface: Surface, geometry: RafterGeometry, u: float) -> EndCut:
    """The surface as the plane of an end, in the stick's axes."""
    c, s = 1 / hypot(1, geometry.slope), geometry.slope / hypot(1, geometry.slope)
    whole = hypot(1, surface.inward, surface.along)
    inward, up, across = surface.inward / whole, -1 / whole, surface.along / whole
    x, y = geometry.to_stick(0.0, surface.at(u, 0.0))
    return EndCut((inward * c + up * s, up * c - inward * s, across), (x, y, 0.0))
