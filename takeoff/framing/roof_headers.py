"""Headers of openings in slopes: on edge between the trimmers, square to the slope or plumb."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.geometry.placement import Placement
from takeoff.geometry.vec import UP
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.slope import Slope
    from takeoff.framing.slope_openings import SlopeOpening


def roof_headers(row: RafterRow) -> tuple[Member, ...]:
    """The headers of all openings of a slope, ply by ply up the slope, their top edges on the sheathing."""
    return tuple(
        _ply(row.slope, opening, v, row.grade) for opening in row.slope.openings for v in _lower_faces(opening)
    )


def _lower_faces(opening: SlopeOpening) -> Iterator[float]:
    """Where the lower face of each ply meets the tops of the rafters [in] along v."""
    step = opening.header_reach / opening.plies
    for start in (opening.cut_v[0], opening.v[1]):
        yield from (start + ply * step for ply in range(opening.plies))


def _ply(slope: Slope, opening: SlopeOpening, v: float, grade: str) -> Member:
    """One ply. A plumb one is dropped so that its outer top edge lies in the slope."""
    face, header = slope.bench.placement, opening.header
    up = UP if opening.plumb else face.z
    # A plane through the ply's lower face: u along the eave, v up the ply, 0 at its top edge.
    bench = replace(slope.bench, placement=Placement(face.to_world((0.0, v, 0.0)), face.x, up), written=opening.written)
    return bench.edge_along_u("roof-header", header, grade, u=opening.u, v=-header.depth_in, outward=0.0)
