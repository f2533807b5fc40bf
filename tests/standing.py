"""What carries a stick, and what it carries: spots just beyond its ends, and the sticks that fill them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from measured import Box, plane_offset, world_box
from shapely import Point

from takeoff.geometry.vec import Vec
from takeoff.model.member import Member

NEAR = 1e-5
TOUCH = 1 / 64
"""How far beyond the end of a stick what carries it is looked for [in]."""


def boxed(members: Iterable[Member]) -> list[tuple[Member, Box]]:
    return [(m, world_box(m)) for m in members]


def beyond(stud: Member, end: int, by: float = TOUCH) -> Iterator[Vec]:
    """Spots just beyond an end of a stud: at its middle and along its edges, near its outer, middle and inner side."""
    cut, depth = stud.cuts[end], stud.profile.depth_in
    aside = stud.profile.thickness_in / 2 - TOUCH
    step = by if end else -by
    for z in (0.0, -aside, aside):
        for y in (depth - 0.5, depth / 2, 0.5):
            x = (plane_offset(stud, cut) - cut.normal[2] * z - cut.normal[1] * y) / cut.normal[0]
            yield stud.placement.to_world((x + step, y, z))


def filled(members: Iterable[tuple[Member, Box]], spot: Vec) -> bool:
    """Whether a spot in the world is inside one of the sticks."""
    near = (m for m, (low, high) in members if all(low[i] - NEAR <= spot[i] <= high[i] + NEAR for i in range(3)))
    return any(inside(m, spot) for m in near)


def inside(member: Member, spot: Vec) -> bool:
    x, y, z = member.placement.from_world(spot)
    return abs(z) <= member.profile.thickness_in / 2 + NEAR and member.side.buffer(NEAR).covers(Point(x, y))
