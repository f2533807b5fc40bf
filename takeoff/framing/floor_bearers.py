"""Plates that a loft's joists lie on: of the walls round it, and of partitions that end under it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import dist
from typing import TYPE_CHECKING, Literal

from takeoff.catalog.profiles import profile
from takeoff.framing.floor_outline import ALONG
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.plan.footprint import side_names
from takeoff.plan.runs import strip_of

if TYPE_CHECKING:
    from takeoff.plan.schema import Building

Point = tuple[float, float]
Span = tuple[float, float]

BLOCK_IN = 1.5
"""Joists end so far inside the outside of a wall's framing [in]: there stand the blocks between the rafters."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateUnder:
    """The plates of a partition that joists lie on, along u."""

    name: str
    v: float
    """Middle of the plates [in]."""
    half: float
    """Half their width [in]."""
    u: Span

    @property
    def joists(self) -> Literal["over", "hang"]:
        """Joists always lie over it."""
        return "over"

    @property
    def faces(self) -> Span:
        """Where its faces lie, v [in]."""
        return self.v - self.half, self.v + self.half


SNAP_IN = 1 / 8
"""A loft written so near to lying on plates lies on them [in]: heights are written to the sixteenth."""


def on_the_plates(building: Building, top: float, depth: float) -> float:
    """Height of the tops of a loft's joists, right over the plates that they are written to lie on [in]."""
    levels = {building.walls.for_side(name).height_in for name in side_names(building)}
    levels |= {p.height_in(building.walls.height) for p in building.walls.partitions if not p.top}
    near = [level + depth for level in sorted(levels) if abs(level + depth - top) <= SNAP_IN]
    return min(near, key=lambda at: abs(at - top), default=top)


def reaches(building: Building, roles: Sequence[str], sides: Sequence[str]) -> tuple[float, ...]:
    """How far joists reach out over each edge of a floor, on to the plates of the wall there [in].

    Args:
        building: as the plan writes it.
        roles: of the edges.
        sides: what the edges are called.
    """
    known = side_names(building)
    return tuple(
        profile(building.walls.for_side(side).studs).depth_in - BLOCK_IN if role == "plate" and side in known else 0.0
        for role, side in zip(roles, sides, strict=True)
    )


def plates_under(
    building: Building, level: float, flat: Callable[[Point], Point], corners: Sequence[Point]
) -> tuple[PlateUnder, ...]:
    """Partitions whose level tops are where a loft's joists lie and that run across the joists, in the order of v.

    Args:
        building: as the plan writes it.
        level: height of the joists' undersides over the deck [in].
        flat: from the plan's coordinates to the loft's own.
        corners: of the loft, in its own coordinates.
    """
    low, high = min(v for _, v in corners), max(v for _, v in corners)
    found = []
    for partition in building.walls.partitions:
        top = partition.height_in(building.walls.height)
        a, b = flat(partition.start), flat(partition.end)
        across = abs(b[1] - a[1]) <= ALONG * dist(a, b)
        if partition.top or not across or abs(top - level) > TOLERANCE.mark:
            continue
        half, v = strip_of(partition).depth / 2, (a[1] + b[1]) / 2
        if v + half > low + TOLERANCE.mark and v - half < high - TOLERANCE.mark:
            found.append(PlateUnder(name=partition.name, v=v, half=half, u=(min(a[0], b[0]), max(a[0], b[0]))))
    return tuple(sorted(found, key=lambda plate: (plate.v, plate.u)))
