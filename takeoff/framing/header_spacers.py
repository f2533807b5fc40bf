"""What fills a built-up header to the wall's thickness: flat sticks between its plies, ripped to the gap."""

from __future__ import annotations

from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from takeoff.framing.wall import RoughOpening, Wall
    from takeoff.model.member import Member

SPACERS = ("2x4", "2x6", "2x8")
"""What spacers are ripped from, narrowest first."""

LEAST_RIP_IN = 1.5
"""Narrower gaps are packed with strips of sheet, which are not sticks [in]."""


def packing_gap(wall: Wall, opening: RoughOpening) -> float:
    """Gap between neighbouring plies of a header that is flush with both sides of its wall [in]; 0 for one ply."""
    if opening.flat or opening.plies == 1:
        return 0.0
    return (wall.studs.depth_in - opening.plies * opening.header.thickness_in) / (opening.plies - 1)


def packing_in(wall: Wall, opening: RoughOpening) -> float:
    """Length of the strips of sheet in the gaps of a header that are too narrow for sticks [in]."""
    if not TOLERANCE.mark < packing_gap(wall, opening) < LEAST_RIP_IN - TOLERANCE.length:
        return 0.0
    return (opening.plies - 1) * (opening.u[1] - opening.u[0] + 2 * opening.jacks * wall.studs.thickness_in)


def header_spacers(wall: Wall, opening: RoughOpening) -> Iterator[Member]:
    """A flat stick along the lower and one along the upper edge of each gap between plies."""
    gap = packing_gap(wall, opening)
    if gap < LEAST_RIP_IN - TOLERANCE.length:
        return
    size = next(p for p in map(profile, SPACERS) if p.depth_in >= gap - TOLERANCE.length or p.name == SPACERS[-1])
    bearing = opening.jacks * wall.studs.thickness_in
    u = (opening.u[0] - bearing, opening.u[1] + bearing)
    low, high = opening.header_low, opening.header_low + opening.header_height - size.thickness_in
    for ply in range(opening.plies - 1):
        inset = opening.header.thickness_in + ply * (opening.header.thickness_in + gap)
        for v in (low, high) if high - low > size.thickness_in else (low,):
            yield wall.bench.flat_along_u(
                "header-spacer", size, wall.plates_grade, u=u, v=v, inset=inset, depth=min(gap, size.depth_in)
            )
