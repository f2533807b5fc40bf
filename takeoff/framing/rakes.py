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


def outlookers(
    row: RafterRow, pockets: tuple[Pocket, ...], profile: Profile, grade: str, barge_thickness: float
) -> tuple[Member, ...]:
    """Outlookers at both rakes, from the back of the barge rafter to the side of the first inside rafter."""
    slope, half = row.slope, row.profile.thickness_in / 2
    left, _, right, _ = slope.outline.bounds
    inner = row.centres[1:-1]
    spans = ((left + barge_thickness, inner[0] - half), (inner[-1] + half, right - barge_thickness))
    lowest = -slope.common.tail
    return tuple(
        slope.bench.edge_along_u(
            "outlooker", profile, grade, u=span, v=lowest + pocket.centre - profile.depth_in / 2, outward=0.0
        )
        for span in spans
        for pocket in pockets
    )


def barges(row: RafterRow, profile: Profile, grade: str, level_cut_drop: float | None) -> tuple[Member, ...]:
    """Barge rafters at the outside of both rakes: plumb cuts at peak and tail, no bird's mouth.

    Their peaks meet on the ridge's centre line. ``level_cut_drop`` cuts the foot off level, so far below the top of
    the tail cut, that it does not hang below the fascia.
    """
    slope = row.slope
    common = slope.common
    drop = level_cut_drop
    if drop is not None and drop >= profile.depth_in / slope.level - TOLERANCE.length:
        drop = None
    geometry = RafterGeometry(
        slope=common.slope,
        depth=profile.depth_in,
        run=common.run,
        overhang=common.overhang,
        stand=common.height_above_plate,
        tail_level_drop=drop,
    )
    left, _, right, _ = slope.outline.bounds
    half = profile.thickness_in / 2
    bench = replace(slope.bench, face=f"{slope.name} rake")
    return tuple(bench.rafter("barge", profile, grade, u=u, geometry=geometry) for u in (left + half, right - half))
