"""Where ties find room along a gable roof: beside pairs of rafters that stand opposite each other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import inf
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import dot

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.cross_section import CrossSection
    from takeoff.framing.rafters import Placed, RafterRow
    from takeoff.framing.ridge_posts import InsidePost
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.plan.schema import Building

Taken = tuple[float, float]
"""Middle and half thickness of something, along the ridge [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Rafters and posts of a gable roof along its ridge: what ties stand beside, and what they keep clear of."""

    pairs: tuple[tuple[float, tuple[Placed, Placed]], ...]
    """Rafters opposite each other, end rafters left out, with their place."""
    taken: tuple[Taken, ...]
    inside: tuple[float, float]
    """Between the end walls, and the end bays left out where outlookers lie in them."""
    rafter: float
    """Thickness of a rafter."""
    under_clips: float = inf
    """Height of the lowest clip's plates: higher ties stand beside rafters that reach the ridge, clear of its hips."""


def row_along(building: Building, frame: RoofFrame, section: CrossSection, posts: Iterable[InsidePost]) -> Row:
    """The rafters of a gable roof along its ridge."""
    rows = [frame.rows[index] for index in frame.ridges[0].slopes]
    one, other = ({round(_at(row, p, section), 4): p for p in row.placed} for row in rows)
    thickness = frame.rows[0].profile.thickness_in
    standing = sorted({*one, *other})
    inner = sorted({at for side in (one, other) for at, placed in side.items() if placed.role != "end-rafter"})
    low, high = _between_walls(building, frame, section)
    if inner and building.roof.outlookers and building.roof.overhang.rake:
        low, high = max(low, inner[0]), min(high, inner[-1])
    return Row(
        pairs=tuple((at, (one[at], other[at])) for at in inner if at in one and at in other),
        taken=(
            *((at, thickness / 2) for at in standing),
            *((dot((*post.spot, 0.0), section.along), post.profile.depth_in / 2) for post in posts),
        ),
        inside=(low, high),
        rafter=thickness,
        under_clips=min((line.clip.plate for line in frame.plan.lines if line.clip), default=inf),
    )


def _at(row: RafterRow, placed: Placed, section: CrossSection) -> float:
    return dot(row.slope.bench.placement.to_world((placed.u, 0.0, 0.0)), section.along)


def _between_walls(building: Building, frame: RoofFrame, section: CrossSection) -> tuple[float, float]:
    """Inner faces of the two gable walls, along the ridge [in]."""
    spots = []
    for line in frame.plan.lines:
        if line.bears:
            continue
        depth = profile(building.walls.for_side(line.side.name).studs).depth_in
        (x, y), (nx, ny) = line.side.start, line.side.normal
        spots.append(dot((x - nx * depth, y - ny * depth, 0.0), section.along))
    return min(spots), max(spots)


def free_spots(row: Row, section: CrossSection, tie: Profile, low: float) -> Iterator[float]:
    """Middles of ties along the ridge [in]: beside each pair with room, toward the building's middle if it can be.

    Args:
        row: what stands along the ridge.
        section: the roof across it.
        tie: profile of the ties.
        low: height of their lower edge above the deck [in].
    """
    half, middle = tie.thickness_in / 2, sum(row.inside) / 2
    for at, placed in row.pairs:
        if not section.laps(placed, low, tie.depth_in):
            continue
        if low + tie.depth_in > row.under_clips and any("ridge" not in one.cuts.upper for one in placed):
            continue
        inward = 1.0 if at < middle else -1.0
        beside = (at + side * (half + row.rafter / 2) for side in (inward, -inward))
        free = next((spot for spot in beside if _clear(row, spot, half)), None)
        if free is not None:
            yield free


def _clear(row: Row, spot: float, half: float) -> bool:
    low, high = row.inside
    inside = low - TOLERANCE.length <= spot - half and spot + half <= high + TOLERANCE.length
    # Places are rounded to find opposite rafters: that much two sticks side by side may seem to share.
    return inside and all(abs(spot - at) > half + room - TOLERANCE.mark for at, room in row.taken)


def chosen(spots: Sequence[float], apart: float | None) -> tuple[float, ...]:
    """The fewest of some places at most so far apart, first and last among them; all where there is no limit."""
    if apart is None or not spots:
        return tuple(spots)
    kept = [spots[0]]
    for here, following in pairwise(spots[1:]):
        if following - kept[-1] > apart + TOLERANCE.mark:
            kept.append(here)
    return (*kept, *spots[1:][-1:])
