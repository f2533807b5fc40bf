"""A wall as an outline to be sliced: its stud zones between plates, with its openings as holes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeoff.geometry.outline import Edge, Outline, rectangle, ring

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.stick import Bench
    from takeoff.plan.footprint import Side

HOLE_ROLES = ("sill", "jack", "header", "jack")


@dataclass(frozen=True, slots=True, kw_only=True)
class RoughOpening:
    """An opening framed in a wall. u from the left end of the side, v from the bottom of the bottom plate [in]."""

    what: str
    """As a builder calls it: ``window 3040``."""
    u: tuple[float, float]
    v: tuple[float, float]
    jacks: int
    header: Profile
    plies: int
    door: bool
    """The bottom plate is cut out."""

    def framed(self, stud_thickness: float, sill_thickness: float) -> tuple[tuple[float, float], tuple[float, float]]:
        """Extents in u and v with jacks, header and sill: what the wall's other studs keep out of."""
        side = self.jacks * stud_thickness
        low = self.v[0] if self.door else self.v[0] - sill_thickness
        return (self.u[0] - side, self.u[1] + side), (low, self.v[1] + self.header.depth_in)


@dataclass(frozen=True, slots=True, kw_only=True)
class RakeLine:
    """The line that a gable wall's studs reach: the underside of its end rafters."""

    peak: float
    """u of the peak [in]."""
    foot: float
    """v over the outer corners [in]."""
    slope: float

    def at(self, u: float) -> float:
        """V over ``u``."""
        return self.foot + self.slope * (self.peak - abs(u - self.peak))


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """One side's wall, ready to be framed."""

    side: Side
    bench: Bench
    studs: Profile
    grade: str
    plates_grade: str
    spacing: float
    height: float
    from_right: bool
    extent: tuple[float, float]
    """Ends of the framing along u: a through wall runs the whole side, a butt wall stands between its neighbours."""
    neighbours: tuple[float, float]
    """Depth of the walls met at the left and right end, 0 where this wall is the one that butts."""
    cap_extent: tuple[float, float]
    openings: tuple[RoughOpening, ...]
    rake: RakeLine | None
    balloon: bool

    @property
    def plate(self) -> float:
        """Thickness of one plate [in]."""
        return self.studs.thickness_in

    @property
    def platform(self) -> bool:
        """Has a top plate and a cap plate at the wall's height."""
        return not self.balloon

    def stud_zones(self) -> tuple[Outline, ...]:
        """Outlines between plates (and up to the rake) that studs are sliced from, openings left out."""
        holes = tuple(self._hole(opening) for opening in self.openings)
        u0, u1 = self.extent
        if self.balloon:
            return (Outline(self._raked(self.plate, "bottom"), holes),)
        low = Outline(
            rectangle(u0, self.plate, u1, self.height - 2 * self.plate, ("bottom", "end", "top", "end")), holes
        )
        return (low, Outline(self._raked(self.height, "plate"))) if self.rake else (low,)

    def _hole(self, opening: RoughOpening) -> tuple[Edge, ...]:
        (u0, u1), (v0, v1) = opening.framed(self.studs.thickness_in, self.plate)
        # A door's hole goes down to the deck, so that nothing is framed under it.
        return rectangle(u0, v0 if not opening.door else -self.plate, u1, v1, HOLE_ROLES)

    def _raked(self, bottom: float, role: str) -> tuple[Edge, ...]:
        rake = self._rake()
        # Where the rake passes under the outline's bottom there is no stud: start where it clears the plate.
        clear = max(0.0, (bottom - rake.foot) / rake.slope)
        u0, u1 = max(self.extent[0], clear), min(self.extent[1], 2 * rake.peak - clear)
        points = [(u0, bottom), (u1, bottom), (u1, rake.at(u1)), (rake.peak, rake.at(rake.peak)), (u0, rake.at(u0))]
        return ring(points, (role, "end", "rake", "rake", "end"))

    def _rake(self) -> RakeLine:
        if self.rake is None:
            raise ValueError(f"{self.side.name} has no rake")
        return self.rake
