"""Blocks between studs for what is hung on a wall later, by the plan's list."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.framing.spacing import gaps
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.framing.wall import Wall
    from takeoff.plan.walls import Backing

LEAST_IN = 3.0
"""A shorter block is no block [in]. Common practice, no source."""


def backing_blocks(wall: Wall, asked: Backing, start: float, standing: Sequence[Member]) -> tuple[Member, ...]:
    """Blocks on edge in every bay that the backing reaches into, flush with the wall's inside.

    Args:
        wall: that it is in.
        asked: as the plan has it.
        start: where the wall's framing begins along the line that the plan measures on [in].
        standing: all sticks of the wall; a bay with something at that height has no block.
    """
    size = profile(asked.size)
    low, high = asked.height - size.depth_in / 2, asked.height + size.depth_in / 2
    boxes = [_box(wall, member) for member in standing]
    near = [b for b in boxes if b[1] < high - TOLERANCE.length and b[2] > low + TOLERANCE.length]
    passing = [(b[0] + b[3]) / 2 for b in near if b[1] <= low and b[2] >= high and b[3] - b[0] <= wall.plate + 0.01]
    holes = [(o.u[0], o.u[1]) for o in wall.openings if o.v[0] < high and o.v[1] > low]
    taken = [(b[0], b[3]) for b in near if b[1] > low or b[2] < high or b[3] - b[0] > wall.plate + 0.01]
    u0, u1 = asked.start - start, asked.end - start
    return tuple(
        wall.bench.edge_along_u(
            "backing-block", size, wall.plates_grade, u=bay, v=low, outward=size.thickness_in - wall.studs.depth_in
        )
        for bay in gaps(passing, wall.plate)
        if bay[1] > u0 + TOLERANCE.length
        and bay[0] < u1 - TOLERANCE.length
        and bay[1] - bay[0] >= LEAST_IN
        and not any(a < bay[1] - TOLERANCE.length and b > bay[0] + TOLERANCE.length for a, b in (*holes, *taken))
    )


def _box(wall: Wall, member: Member) -> tuple[float, float, float, float]:
    """Left end, lower end, upper end and right end of a stick on its wall [in]."""
    half = member.profile.thickness_in / 2
    corners = [
        wall.bench.placement.from_world(member.placement.to_world((float(x), float(y), z)))
        for x, y in member.side.exterior.coords
        for z in (-half, half)
    ]
    us, vs = [c[0] for c in corners], [c[1] for c in corners]
    return min(us), min(vs), max(vs), max(us)
