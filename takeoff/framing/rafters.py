"""Common and end rafters: the slices of a slope."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from takeoff.framing.spacing import clear_of, layout_positions
from takeoff.geometry.rafter import Pocket
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.slope import Slope


@dataclass(frozen=True, slots=True, kw_only=True)
class RafterRow:
    """Where the rafters of one slope stand: centres [in] along u, left to right."""

    slope: Slope
    profile: Profile
    grade: str
    inner: tuple[float, ...]
    ends: tuple[float, float]

    @property
    def centres(self) -> tuple[float, ...]:
        """All of them, left to right."""
        return tuple(sorted((*self.inner, *self.ends)))


def rafter_row(slope: Slope, profile: Profile, grade: str, spacing: float) -> RafterRow:
    """End rafters flush with the outside of the end walls, the others on multiples of the spacing."""
    left, right = slope.walls
    half = profile.thickness_in / 2
    ends = (left + half, right - half)
    centres = (left + p for p in layout_positions(right - left, spacing, from_right=slope.from_right))
    return RafterRow(
        slope=slope, profile=profile, grade=grade, inner=clear_of(centres, ends, profile.thickness_in), ends=ends
    )


def rafters(row: RafterRow, pockets: Sequence[Pocket]) -> tuple[Member, ...]:
    """The rafters of one slope; the end ones with ``pockets`` for outlookers cut in their top edge."""
    return tuple(
        _rafter(row, "end-rafter", u, tuple(pockets)) if u in row.ends else _rafter(row, "common-rafter", u, ())
        for u in row.centres
    )


def _rafter(row: RafterRow, role: str, u: float, pockets: tuple[Pocket, ...]) -> Member:
    (cut,) = row.slope.outline.slices(u)
    geometry = replace(row.slope.geometry_at(cut), pockets=pockets)
    return row.slope.bench.rafter(role, row.profile, row.grade, u=u, geometry=geometry)
