"""Openings in walls: jacks, header plies and sills. Kings and cripples come from slicing the wall."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.framing.header_spacers import header_spacers
from takeoff.framing.studs import jack_centres, upright_grade
from takeoff.framing.wall import RoughOpening, Wall
from takeoff.model.member import Member
from takeoff.plan.header import HeaderSize

if TYPE_CHECKING:
    from collections.abc import Iterator

    from takeoff.catalog.profiles import Profile
    from takeoff.plan.openings import WallOpening


HEAD_PLATE_LEAST_IN = 3.0
"""Room that a plate at the head and its cripples need under a header hung high [in]. Common practice, no source."""


def rough_opening(opening: WallOpening, *, start: float = 0.0, flat: Profile | None = None) -> RoughOpening:
    """The opening as it is framed.

    Args:
        opening: as the plan writes it.
        start: where the wall starts that the plan measures it along [in].
        flat: what lies flat over it where the plan states no header; None where it carries something.

    Raises:
        ValueError: it has no header; the plan's own checks refuse such an opening.
    """
    header = opening.header_size
    lies_flat = flat is not None and opening.header is None
    if flat is not None and lies_flat:
        header = HeaderSize(1, flat.name)
    if header is None:
        raise ValueError(f"no header for an opening {opening.rough_width_in} in wide")
    return RoughOpening(
        what=f"{opening.kind} {opening.call}",
        u=(opening.left_in - start, opening.right_in - start),
        v=(opening.sill_in, opening.head_in),
        jacks=opening.jack_count,
        header=profile(header.size),
        plies=header.plies,
        door=not opening.has_sill,
        flat=lies_flat,
    )


def hung(opening: RoughOpening, top: float) -> RoughOpening:
    """The opening with its header hung high under the plates.

    Where no flat plate has room between its head and the header then, that stays at the head.

    Args:
        opening: as it is framed otherwise.
        top: underside of the top plate [in].
    """
    low = top - opening.header_height
    return replace(opening, header_v=low) if low - opening.v[1] > HEAD_PLATE_LEAST_IN else opening


def opening_members(wall: Wall) -> tuple[Member, ...]:
    """Jacks, header plies and sills of all openings of a wall."""
    return tuple(
        member
        for opening in wall.openings
        for member in (
            *_jacks(wall, opening),
            *_header(wall, opening),
            *header_spacers(wall, opening),
            *_flat_plates(wall, opening),
        )
    )


def _jacks(wall: Wall, opening: RoughOpening) -> tuple[Member, ...]:
    grade = upright_grade(wall, opening.header_low - wall.plate)
    return tuple(
        wall.bench.along_v("jack-stud", wall.studs, grade, u=u, v=(wall.plate, opening.header_low))
        for u in jack_centres(opening, wall.studs.thickness_in)
    )


def _header(wall: Wall, opening: RoughOpening) -> tuple[Member, ...]:
    """Plies on the jacks, the first flush outside and the last flush inside; what lies between is spacer."""
    bearing = opening.jacks * wall.studs.thickness_in
    u = (opening.u[0] - bearing, opening.u[1] + bearing)
    if opening.flat:
        return (wall.bench.flat_along_u("header", opening.header, wall.plates_grade, u=u, v=opening.header_low),)
    free = wall.studs.depth_in - opening.header.thickness_in
    step = free / (opening.plies - 1) if opening.plies > 1 else 0.0
    return tuple(
        wall.bench.edge_along_u(
            "header", opening.header, wall.plates_grade, u=u, v=opening.header_low, outward=-step * ply
        )
        for ply in range(opening.plies)
    )


def _flat_plates(wall: Wall, opening: RoughOpening) -> Iterator[Member]:
    """The sill of a window, and the plate at the head under a header that hangs higher."""
    if not opening.door:
        v = opening.v[0] - wall.plate
        yield wall.bench.flat_along_u("sill", wall.studs, wall.plates_grade, u=opening.u, v=v)
    if opening.header_v is not None:
        yield wall.bench.flat_along_u("head-plate", wall.studs, wall.plates_grade, u=opening.u, v=opening.v[1])
