"""Eaves: blocking over the plate between the rafters, and the fascia on their tails."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profiles
from takeoff.catalog.rules import rule
from takeoff.framing.spacing import gaps
from takeoff.framing.splices import spliced
from takeoff.geometry.vec import UP, scale
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.slope import Slope
    from takeoff.framing.stick import Bench


@dataclass(frozen=True, slots=True, kw_only=True)
class EaveBlocking:
    """What fills each bay over the plate."""

    profile: Profile
    height: float
    """As cut [in]; less than the profile's depth where it is ripped."""
    air: float
    """Clear height above the block, at the outside face of the wall [in]."""


def eave_blocking(height_above_plate: float, *, vented: bool, size: Profile | None = None) -> EaveBlocking | None:
    """The block for rafters that stand this high over the plate.

    A solid block reaches the sheathing and is ripped to do so; a vented one is the deepest size that leaves
    air above it. None where the rafters stand too low for any size.
    """
    sizes = [p for p in profiles() if p.kind == "dimension" and p.nominal and p.nominal[0] == 2]
    if vented:
        tallest = height_above_plate - rule("vent.air-space").value
        fits = [p for p in ([size] if size else sizes) if p.depth_in <= tallest]
        if not fits:
            return None
        chosen = max(fits, key=lambda p: p.depth_in)
        return EaveBlocking(profile=chosen, height=chosen.depth_in, air=height_above_plate - chosen.depth_in)
    fits = [p for p in ([size] if size else sizes) if p.depth_in >= height_above_plate]
    if not fits:
        return None
    return EaveBlocking(profile=min(fits, key=lambda p: p.depth_in), height=height_above_plate, air=0.0)


def upright_bench(slope: Slope) -> Bench:
    """The eave's own plane: plumb over the outside face of the wall, v up from the top of the plate."""
    along = slope.bench.placement.x
    foot = slope.bench.placement.to_world((0.0, 0.0, 0.0))
    origin = (foot[0], foot[1], foot[2] - slope.common.height_above_plate)
    placement = replace(slope.bench.placement, origin=origin, x=along, y=UP)
    return replace(slope.bench, placement=placement, face=f"{slope.side} eave")


def eave_blocks(row: RafterRow, blocking: EaveBlocking, grade: str) -> tuple[Member, ...]:
    """One block for each bay between rafters, plumb at the outside face of the wall, standing on the plate."""
    bench = upright_bench(row.slope)
    return tuple(
        bench.edge_along_u("eave-block", blocking.profile, grade, u=bay, v=0.0, outward=0.0, height=blocking.height)
        for bay in gaps(row.centres, row.profile.thickness_in)
    )


def vent_area(row: RafterRow, blocking: EaveBlocking) -> float:
    """Net free area over the blocks of one eave [sq in], screens not taken off."""
    return blocking.air * sum(b - a for a, b in gaps(row.centres, row.profile.thickness_in))


def fascia(row: RafterRow, profile: Profile, grade: str, longest: float) -> tuple[Member, ...]:
    """Fascia on the tail cuts, to the outside of the barges, joined on rafters where it is longer than stock.

    It is dropped so that its outer top edge lies in the plane of the rafters' tops and the sheathing runs over it.
    """
    slope = row.slope
    outer = slope.common.overhang + profile.thickness_in
    top = slope.common.top_at(-outer)
    left, _, right, _ = slope.outline.bounds
    bench = upright_bench(slope)
    return tuple(
        bench.edge_along_u("fascia", profile, grade, u=run, v=top - profile.depth_in, outward=outer)
        for run in spliced((left, right), longest, row.centres)
    )


def fascia_drop(slope: float, profile: Profile) -> float:
    """Plumb distance from the top of the tail cut to the lower edge of a dropped fascia [in]."""
    return profile.depth_in + profile.thickness_in * slope


def inward(slope: Slope) -> tuple[float, float, float]:
    """Level direction from the eave toward the ridge."""
    return scale(upright_bench(slope).placement.z, -1.0)
