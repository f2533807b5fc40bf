"""Rakes: the outlookers, or the blocks of a ladder, and the barge rafters they carry."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.framing.plumb_ends import PlanLine, PlumbEnds, end_cuts, lower_reach
from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.rafters import Placed, RafterRow
    from takeoff.framing.slope import Slope


def outlookers(row: RafterRow, profile: Profile, grade: str, barge_thickness: float) -> tuple[Member, ...]:
    """Outlookers of a slope's rakes, from the back of the barge to the first inside rafter.

    They lie flat in the pockets of the end rafters, or on edge over end rafters that are dropped.
    """
    slope, half = row.slope, row.profile.thickness_in / 2
    left, _, right, _ = slope.outline.bounds
    inner = [u for u in row.centres if u not in row.ends]
    if not inner:
        return ()
    members: list[Member] = []
    for end in row.placed:
        at_left = end.u < inner[0]
        span = (left + barge_thickness, inner[0] - half) if at_left else (inner[-1] + half, right - barge_thickness)
        members += _across(row, end, "outlooker", profile, grade, span)
    return tuple(members)


def ladder_blocks(row: RafterRow, profile: Profile, grade: str, barge_thickness: float) -> tuple[Member, ...]:
    """Blocks on edge between the end rafters and the backs of the barges."""
    half = row.profile.thickness_in / 2
    left, _, right, _ = row.slope.outline.bounds
    members: list[Member] = []
    for end in row.placed:
        at_left = end.u < (left + right) / 2
        span = (left + barge_thickness, end.u - half) if at_left else (end.u + half, right - barge_thickness)
        if span[1] - span[0] > TOLERANCE.length:
            members += _across(row, end, "ladder-block", profile, grade, span)
    return tuple(members)


def _across(
    row: RafterRow, end: Placed, role: str, profile: Profile, grade: str, span: tuple[float, float]
) -> list[Member]:
    """The sticks that run out from an end rafter, flat in its pockets or on edge."""
    bench, tail = row.slope.bench, -row.slope.common.overhang / row.slope.level
    if end.crossed:
        return [bench.standing_along_u(role, profile, grade, u=span, v=tail + at.centre) for at in end.crossed]
    return [
        bench.edge_along_u(role, profile, grade, u=span, v=tail + pocket.centre - profile.depth_in / 2, outward=0.0)
        for pocket in end.cuts.geometry.pockets
    ]


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
    members = []
    for u, there in stands:
        if there:
            geometry, ends = _barge(slope, u, profile, level_cut_drop)
            members.append(bench.rafter("barge", profile, grade, u=u, geometry=geometry, ends=ends))
    return tuple(members)


def _barge(
    slope: Slope, u: float, profile: Profile, level_cut_drop: float | None
) -> tuple[RafterGeometry, PlumbEnds | None]:
    """Cuts of a barge; under a clip its head is cut to the face of the hip, and the planes of its ends are given."""
    (cut,) = slope.slices(u)
    drop = level_cut_drop
    if drop is not None and (slope.common.tail_lean or drop >= profile.depth_in / slope.level - TOLERANCE.length):
        drop = None
    geometry = RafterGeometry(
        slope=slope.common.slope,
        depth=profile.depth_in,
        run=cut.v1 * slope.level,
        overhang=-cut.v0 * slope.level,
        stand=slope.common.height_above_plate,
        tail_level_drop=drop,
        tail_lean=slope.common.tail_lean,
    )
    if cut.upper.role != "hip":
        return geometry, None
    head = slope.upper_at(cut, profile.thickness_in)
    geometry = replace(geometry, ridge_half=geometry.run - head.centre, cheek=head.tip - head.centre)
    foot = lower_reach([PlanLine(-geometry.overhang, 0.0, geometry.tail_lean)], profile.thickness_in)
    return geometry, PlumbEnds(end_cuts(geometry, foot.lines, upper=False), end_cuts(geometry, head.lines, upper=True))
