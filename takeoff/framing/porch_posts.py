"""Studs in a wall behind the ridge beam of a porch that ends there, which its hanger or ledge is fixed to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.framing.gable_end import ridge_post
from takeoff.framing.porch_roof import porch_heights
from takeoff.framing.post_room import reach_into

if TYPE_CHECKING:
    from collections.abc import Sequence

    from takeoff.framing.wall import RidgePost, Wall
    from takeoff.model.member import Member
    from takeoff.plan.footprint import Side
    from takeoff.plan.porches import Porch
    from takeoff.plan.schema import Building


def porch_posts(building: Building, wall: Wall) -> Iterator[RidgePost]:
    """Posts in a wall behind the ridge beams of its porches, up to the porch's peak.

    None where the wall has a post there already, or where an opening stands in the way.
    """
    for porch in building.roof.porches:
        if porch.side != wall.side.name or porch.meets != "wall" or porch.ridge is None or porch.ridge.kind != "beam":
            continue
        top = porch_heights(building, porch).wall
        post = ridge_post(replace(wall, rake=None), profile(porch.ridge.size), _middle(porch), top)
        taken = any(post.beside[0] < u < post.beside[1] for u in wall.post_centres)
        if not taken and not any(by for opening in wall.openings for by in reach_into(wall, post, opening)):
            yield post


def stands_behind(porch: Porch, side: Side, members: Sequence[Member]) -> bool:
    """Whether a post stands in the wall of a side behind the middle of a porch."""
    (x, y), (dx, dy) = side.start, side.direction
    posts = (m for m in members if m.role.name == "post" and m.face == side.name)
    along = ((m.placement.origin[0] - x) * dx + (m.placement.origin[1] - y) * dy - _middle(porch) for m in posts)
    return porch.ridge is not None and any(abs(u) <= profile(porch.ridge.size).thickness_in for u in along)


def _middle(porch: Porch) -> float:
    return sum(porch.across_in) / 2
