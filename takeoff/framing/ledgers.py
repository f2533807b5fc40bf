"""Ledgers: where a slope runs up to a wall that stands already."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.framing.eaves import upright_bench
from takeoff.framing.splices import spliced
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.rafters import RafterRow


def ledgers(row: RafterRow, profile: Profile, grade: str, longest: float) -> Iterator[Member]:
    """The ledgers of a slope, fixed to the wall, their tops level with the rafters' tops at their face."""
    common, thickness = row.slope.common, profile.thickness_in
    bench = upright_bench(row.slope)
    left, right = row.slope.walls
    for edge in row.slope.outline.edges_with("ledger"):
        wall = edge.a[1] * row.slope.level
        top = common.top_at(wall - thickness)
        for run in spliced((left, right), longest, row.centres):
            yield bench.edge_along_u(
                "ledger", profile, grade, u=run, v=top - profile.depth_in, outward=-(wall - thickness)
            )
