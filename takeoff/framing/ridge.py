"""The ridge: a beam or board between the gables, and the false ridge that catches the barges."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from takeoff.framing.eaves import inward, upright_bench
from takeoff.framing.splices import spliced
from takeoff.geometry.vec import add, scale
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.slope import Slope
    from takeoff.framing.stick import Bench


@dataclass(frozen=True, slots=True, kw_only=True)
class Ridge:
    """The ridge as designed. Heights [in] above the plate."""

    beam: bool
    profile: Profile
    grade: str
    vent: float
    """How far the rafters stand proud of its top."""
    slope: Slope
    """One of the two slopes that meet on it, whose u it is measured along."""

    @property
    def top(self) -> float:
        """Rafters' top at the ridge's face, less the vent gap."""
        return self.slope.common.top_at(self.slope.common.run - self.profile.thickness_in / 2) - self.vent

    @property
    def bottom(self) -> float:
        """Lower edge."""
        return self.top - self.profile.depth_in

    @property
    def bench(self) -> Bench:
        """The plumb plane through the ridge's centre line, u as on the slope, v up from the plate."""
        eave = upright_bench(self.slope)
        moved = add(eave.placement.origin, scale(inward(self.slope), self.slope.common.run))
        return replace(eave, placement=replace(eave.placement, origin=moved), face="ridge")


def ridge_members(ridge: Ridge, row: RafterRow, longest: float) -> tuple[Member, ...]:
    """The ridge from gable to gable: a beam in one piece, a board joined on rafters."""
    role = "ridge-beam" if ridge.beam else "ridge-board"
    runs = (ridge.slope.walls,) if ridge.beam else spliced(ridge.slope.walls, longest, row.centres)
    half = ridge.profile.thickness_in / 2
    return tuple(
        ridge.bench.edge_along_u(role, ridge.profile, ridge.grade, u=run, v=ridge.bottom, outward=half) for run in runs
    )


def false_ridges(ridge: Ridge, profile: Profile, grade: str, barge_thickness: float) -> tuple[Member, ...]:
    """Stubs from the end walls to the backs of the barges; their top corners lie in the slopes."""
    left, _, right, _ = ridge.slope.outline.bounds
    half = profile.thickness_in / 2
    top = ridge.slope.common.top_at(ridge.slope.common.run - half)
    spans = ((left + barge_thickness, ridge.slope.walls[0]), (ridge.slope.walls[1], right - barge_thickness))
    return tuple(
        ridge.bench.edge_along_u("false-ridge", profile, grade, u=span, v=top - profile.depth_in, outward=half)
        for span in spans
        if span[1] > span[0]
    )
