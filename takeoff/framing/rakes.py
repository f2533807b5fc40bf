"""Rakes: outlookers in the pockets of the end rafters, and the barge rafters they carry."""

from __future__ import annotations

from dataclasses import replace
from math import floor
from typing import TYPE_CHECKING

from takeoff.geometry.rafter import Pocket, RafterGeometry
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.slope import Slope


def pockets_for(outlooker: Profile, geometry: RafterGeometry, spacing: float) -> tuple[Pocket, ...]:
    """Pockets for outlookers lying flat in the top edge of an end rafter: near the tail, near the ridge, and between.

    The first and the last stand one outlooker's width clear of the rafter's ends, so that the wood beyond the
    pocket does not split off; the others are spaced from the first (common practice, no source).
    """
    width = outlooker.depth_in
    first, last = 1.5 * width, geometry.top_edge - 1.5 * width
    if last <= first:
        return (Pocket(geometry.top_edge / 2, width, outlooker.thickness_in),)
    # One that would touch the last is left out: the last stands for it.
    between = floor((last - first - 2 * width + TOLERANCE.length) / spacing)
    centres = [first + k * spacing for k in range(max(between, 0) + 1)] + [last]
    return tuple(Pocket(centre, width, outlooker.thickness_in) for centre in centres)


def outlookers(row: RafterRow, profile: Profile, grade: str, barge_thickness: float) -> tuple[Member, ...]:
    """Outlookers in the pockets of a slope's end rafters, from the back of the barge to the first inside rafter."""
    slope, half = row.slope, row.profile.thickness_in / 2
    left, _, right, _ = slope.outline.bounds
    inner = [u for u in row.centres if u not in row.ends]
    if not inner:
        return ()
    members: list[Member] = []
    for end in row.placed:
        at_left = end.u < inner[0]
        span = (left + barge_thickness, inner[0] - half) if at_left else (inner[-1] + half, right - barge_thickness)
        lowest = end.cuts.geometry.start / slope.level
        members += [
            slope.bench.edge_along_u(
                "outlooker", profile, grade, u=span, v=lowest + pocket.centre - profile.depth_in / 2, outward=0.0
            )
            for pocket in end.cuts.geometry.pockets
        ]
    return tuple(members)


def barges(row: RafterRow, profile: Profile, grade: str, level_cut_drop: float | None) -> tuple[Member, ...]:
    """Barge rafters at the outside of a slope's rakes: plumb cuts at peak and tail, no bird's mouth.

    Their peaks meet on the ridge's centre line. ``level_cut_drop`` cuts the foot off level, so far below the top of
    the tail cut, that it does not hang below the fascia.
    """
    slope = row.slope
    left, _, right, _ = slope.outline.bounds
    half = profile.thickness_in / 2
    bench = replace(slope.bench, face=f"{slope.name} rake")
    stands = zip((left + half, right - half), slope.rakes, strict=True)
    return tuple(
        bench.rafter("barge", profile, grade, u=u, geometry=_barge(slope, u, profile, level_cut_drop))
        for u, there in stands
        if there
    )


def _barge(slope: Slope, u: float, profile: Profile, level_cut_drop: float | None) -> RafterGeometry:
    (cut,) = slope.slices(u)
    drop = level_cut_drop
    if drop is not None and drop >= profile.depth_in / slope.level - TOLERANCE.length:
        drop = None
    return RafterGeometry(
        slope=slope.common.slope,
        depth=profile.depth_in,
        run=cut.v1 * slope.level,
        overhang=-cut.v0 * slope.level,
        stand=slope.common.height_above_plate,
        tail_level_drop=drop,
    )
