"""Eaves: blocking over the plate between the rafters, and the fascia on their tails."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profiles
from takeoff.catalog.rules import rule
from takeoff.framing.mouth import EAVE_VALLEY
from takeoff.framing.spacing import gaps
from takeoff.framing.splices import spliced
from takeoff.framing.square_eaves import tilted_fascia
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP
from takeoff.model.member import SQUARE_ENDS, EndCut, Member

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.slope import Slope
    from takeoff.framing.stick import Bench


EAVES = ("eave", "purlin")
"""Roles of the edges over which bays are filled."""

LEAST_BLOCK_IN = 0.5
"""Where an outlooker leaves less than this under it, there is no block [in]. Common practice, no source."""


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
    """The eave's own plane: plumb over the outside face of the wall or purlin, v up from its top."""
    along = slope.bench.placement.x
    foot = slope.bench.placement.to_world((0.0, 0.0, 0.0))
    origin = (foot[0], foot[1], foot[2] - slope.common.height_above_plate)
    placement = replace(slope.bench.placement, origin=origin, x=along, y=UP)
    return replace(slope.bench, placement=placement, face=f"{slope.side} {'purlin' if slope.on_purlin else 'eave'}")


def _bays(row: RafterRow) -> tuple[tuple[float, float], ...]:
    """Clear spaces between the rafters that stand on plate or purlin; none across a wing that parts the eave."""
    eaves = tuple(_eaves(row.slope))
    return tuple(
        (u0, u1) for u0, u1 in gaps(row.seated, row.profile.thickness_in) if any(a <= u0 and u1 <= b for a, b in eaves)
    )


def _eaves(slope: Slope) -> Iterator[tuple[float, float]]:
    """From where to where along u an eave is, up to where a neighbouring one meets it over the wall's line."""
    edges = slope.outline.edges
    for index, edge in enumerate(edges):
        if edge.role in EAVES:
            before, after = edges[index - 1], edges[(index + 1) % len(edges)]
            left = before.a[0] if before.role == EAVE_VALLEY else edge.a[0]
            yield left, after.b[0] if after.role == EAVE_VALLEY else edge.b[0]


def eave_blocks(row: RafterRow, blocking: EaveBlocking, grade: str) -> tuple[Member, ...]:
    """One block for each bay between rafters, plumb at the outside face of the wall, standing on the plate.

    Where an outlooker crosses the wall in an end bay, the block stops under it.
    """
    bench = upright_bench(row.slope)
    return tuple(
        bench.edge_along_u("eave-block", blocking.profile, grade, u=bay, v=0.0, outward=0.0, height=height)
        for bay in _bays(row)
        if (height := _height(row, blocking, bay, 0.0, row.slope.common.height_above_plate)) > LEAST_BLOCK_IN
    )


def high_blocking(row: RafterRow, *, vented: bool, size: Profile | None = None) -> EaveBlocking | None:
    """The block over the high wall of a shed roof, at the inner edge of which the rafters stand lowest."""
    common = row.slope.common
    return eave_blocking(common.top_at(_high_block(row)) - common.upper_plate, vented=vented, size=size)


def high_blocks(row: RafterRow, blocking: EaveBlocking, grade: str) -> tuple[Member, ...]:
    """Blocks between the rafters over a high wall, flush with its outside."""
    bench, common, inner = upright_bench(row.slope), row.slope.common, _high_block(row)
    bench = replace(bench, face=f"{row.slope.side} slope, high wall")
    stand = common.top_at(inner) - common.upper_plate
    return tuple(
        bench.edge_along_u(
            "eave-block",
            blocking.profile,
            grade,
            u=bay,
            v=common.upper_plate,
            outward=-inner,
            height=height,
        )
        for bay in _bays(row)
        if (height := _height(row, blocking, bay, inner, stand)) > LEAST_BLOCK_IN
    )


def _high_block(row: RafterRow) -> float:
    """Level distance of the inner side of the blocks over a high wall [in]."""
    return row.slope.high_wall - row.profile.thickness_in


def _height(row: RafterRow, blocking: EaveBlocking, bay: tuple[float, float], at: float, stand: float) -> float:
    """Height of the block in one bay [in], whose lower side is ``at`` and has room for a block of ``stand``."""
    common, half = row.slope.common, row.profile.thickness_in / 2
    pockets = [
        pocket
        for end in row.placed
        if any(abs(abs(end.u - edge) - half) < TOLERANCE.length for edge in bay)
        for pocket in end.outlookers
    ]
    thickness = blocking.profile.thickness_in
    crossing = [
        pocket.depth
        for pocket in pockets
        # Its foot is lower down the slope than its top: the block is under it from the one to the other.
        if (pocket.centre - pocket.width / 2 - common.tail) * row.slope.level < at + thickness
        and (pocket.centre + pocket.width / 2 - common.tail) * row.slope.level + pocket.depth > at
    ]
    if not crossing:
        return blocking.height
    return min(blocking.height, stand - max(crossing) / row.slope.level)


def vent_area(row: RafterRow, blocking: EaveBlocking) -> float:
    """Net free area over the blocks of one eave [sq in], screens not taken off."""
    return blocking.air * sum(b - a for a, b in _bays(row))


@dataclass(frozen=True, slots=True, kw_only=True)
class FasciaRun:
    """One straight run of fascia in its plane: ends on its back face, and how far its front reaches past them."""

    u: tuple[float, float]
    mitres: tuple[float, float]
    """Reach of the front past the back at each end, for one inch of thickness; below 0 at an inner corner."""
    high: bool = False
    """On the upper plumb cuts, over the high wall of a shed roof."""


def fascia(
    row: RafterRow, runs: Iterable[FasciaRun], profile: Profile, grade: str, longest: float
) -> tuple[Member, ...]:
    """Fascia on the tail cuts, mitred at corners, joined on rafters where it is longer than stock.

    It is dropped so that its outer top edge lies in the plane of the rafters' tops and the sheathing runs over it.
    """
    return tuple(member for run in runs for member in _fascia_run(row, run, profile, grade, longest))


def _fascia_run(row: RafterRow, run: FasciaRun, profile: Profile, grade: str, longest: float) -> list[Member]:
    common, thickness = row.slope.common, profile.thickness_in
    if common.tail_lean and not run.high:
        return list(tilted_fascia(row, run, profile, grade, longest))
    bench = upright_bench(row.slope)
    if run.high:
        # On the upper plumb cuts: the sheathing rises over it, so its inner edge is the one that touches.
        outward, top = -common.end, common.top_at(common.end)
    else:
        outward = common.overhang + thickness
        top = common.top_at(-outward)
    tips = (run.u[0] - max(0.0, run.mitres[0]) * thickness, run.u[1] + max(0.0, run.mitres[1]) * thickness)
    members = [
        bench.edge_along_u("fascia", profile, grade, u=part, v=top - profile.depth_in, outward=outward)
        for part in spliced(tips, longest, row.centres)
    ]
    start, end = (_mitre(k, sign) for k, sign in zip(run.mitres, (-1.0, 1.0), strict=True))
    members[0] = replace(members[0], cuts=(start, members[0].cuts[1]))
    members[-1] = replace(members[-1], cuts=(members[-1].cuts[0], end))
    return members


def _mitre(reach: float, sign: float) -> EndCut:
    """End of a fascia whose front reaches past its back by so much for one inch of thickness."""
    across = hypot(1, reach)
    return EndCut((sign / across, 0.0, -reach / across + 0.0)) if reach else SQUARE_ENDS[sign > 0]


def fascia_drop(slope: float, profile: Profile) -> float:
    """Plumb distance from the top of the tail cut to the lower edge of a dropped fascia [in]."""
    return profile.depth_in + profile.thickness_in * slope
