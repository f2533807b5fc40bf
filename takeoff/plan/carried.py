"""What the headers of a side or of a bearing partition carry, and the header that the published table gives for it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from takeoff.catalog.header_spans import ONE_FLOOR, ROOF, ROOF_AND_FLOOR, HeaderSpan, header_span, header_spans
from takeoff.catalog.profiles import profile

if TYPE_CHECKING:
    from takeoff.plan.header import HeaderSize

LEAST_PLIES = 2
"""Fewest plies of a header that is chosen: a single ply wants plates of its own above and below."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Carried:
    """What stands on the headers of a side that carries rafters, or of a partition that bears."""

    snow_psf: float
    """Ground snow load [psf]."""
    width_in: float
    """Of the building, square to the side [in]."""
    floor: bool
    """A loft's floor is carried as well as the roof."""
    wall_in: float
    """Depth of the wall's studs, in which the plies have room [in]."""
    inside: bool = False
    """A wall inside the building: it carries one floor, and no snow."""

    @property
    def supporting(self) -> str:
        """In the words of the table."""
        if self.inside:
            return ONE_FLOOR
        return ROOF_AND_FLOOR if self.floor else ROOF

    def row(self, header: HeaderSize) -> HeaderSpan | None:
        """The table's row for a header; None where it has none."""
        return header_span(
            header.plies, header.size, width_in=self.width_in, snow_psf=self.snow_psf, supporting=self.supporting
        )

    def chosen(self, opening_in: float) -> HeaderSpan | None:
        """The row of the header with the fewest and then the shallowest plies that spans an opening [in].

        None where none of the table does, with plies that have room in the wall.
        """
        rows = (
            header_span(plies, name, width_in=self.width_in, snow_psf=self.snow_psf, supporting=self.supporting)
            for plies, _, name in _with_room(self.wall_in)
        )
        return next((row for row in rows if row and row.span_in >= opening_in), None)


@lru_cache(maxsize=64)
def _with_room(wall_in: float) -> tuple[tuple[int, float, str], ...]:
    """Plies, depth and size of the table's headers that have room in a wall so deep [in], the fewest plies first."""
    return tuple(
        sorted(
            {
                (row.plies, profile(row.profile).depth_in, row.profile)
                for row in header_spans()
                if row.plies >= LEAST_PLIES and row.plies * profile(row.profile).thickness_in <= wall_in
            }
        )
    )
