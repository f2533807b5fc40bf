"""Backing where one wall ends against another: a flat stud between two others, or blocks between the studs there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil
from typing import TYPE_CHECKING

from takeoff.framing.spacing import gaps
from takeoff.framing.studs import channels, upright_grade
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.framing.wall import TeeIn, Wall

BLOCKS_APART_IN = 24.0
"""Blocks behind the end of a partition apart, at most [in]. Common practice, no source."""


def tee_members(wall: Wall, standing: Sequence[Member], fire_rows: Sequence[float]) -> tuple[Member, ...]:
    """The backing of all tees of a wall.

    Args:
        wall: that other walls end against.
        standing: its uprights.
        fire_rows: middles of its rows of blocks [in], which back the end of a wall as well.
    """
    backed = channels(wall)
    made: list[Member] = []
    for tee in wall.tees:
        sticks = _flats(wall, tee, fire_rows) if tee in backed else _blocks(wall, tee, standing, fire_rows)
        # Two walls that end near each other may share a bay: its blocks back both.
        made += [stick for stick in sticks if not any(_crosses(stick, other) for other in made)]
    return tuple(made)


def _crosses(one: Member, other: Member) -> bool:
    """Whether two blocks would lie in each other."""
    x, y, z = one.placement.from_world(other.placement.origin)
    beside = x >= one.length_in - TOLERANCE.length or x + other.length_in <= TOLERANCE.length
    return (
        one.role.name == other.role.name == "tee-block"
        and not beside
        and abs(y) < one.profile.depth_in - TOLERANCE.length
        and abs(z) < one.profile.thickness_in - TOLERANCE.length
    )


def _insets(wall: Wall, tee: TeeIn, thickness: float) -> Iterator[float]:
    """How far behind the outside a stick lies that is flush with the side the other wall stands at."""
    if tee.inside:
        yield wall.studs.depth_in - thickness
    if tee.outside:
        yield 0.0


def _flats(wall: Wall, tee: TeeIn, fire_rows: Sequence[float]) -> Iterator[Member]:
    """The flat stud of a channel at each side where another wall stands, as high as that, parted by fire blocks."""
    middle, half = sum(tee.u) / 2, wall.plate / 2
    for inset in _insets(wall, tee, tee.studs.thickness_in):
        for cut in wall.stud_zones()[0].slices(middle):
            top = min(cut.v1 - abs(cut.upper.slope) * tee.studs.depth_in / 2, tee.top)
            rows = [row for row in sorted(fire_rows) if cut.v0 < row - half < top]
            for v in zip((cut.v0, *(row + half for row in rows)), (*(row - half for row in rows), top), strict=True):
                if v[1] - v[0] > tee.studs.depth_in:
                    grade = upright_grade(wall, v[1] - v[0])
                    yield wall.bench.turned_along_v("tee-stud", tee.studs, grade, u=middle, v=v, inset=inset)


def _blocks(wall: Wall, tee: TeeIn, standing: Sequence[Member], fire_rows: Sequence[float]) -> Iterator[Member]:
    """Blocks on edge in the bays behind the end of the wall and beside it."""
    t, high = wall.studs.thickness_in, wall.studs.depth_in
    spans = [_span(wall, member) for member in standing]
    top = min(tee.top, wall.height - 2 * wall.plate if wall.platform else tee.top)
    count = ceil(top / BLOCKS_APART_IN) - 1
    for row in (top / (count + 1) * (k + 1) for k in range(count)):
        low, upper = row - high / 2, row + high / 2
        if any(abs(row - fire) < (high + t) / 2 for fire in fire_rows):
            continue
        passing = [u for u, v0, v1 in spans if v0 <= low and v1 >= upper]
        for bay in gaps(passing, t):
            behind = bay[1] > tee.u[0] - t + TOLERANCE.length and bay[0] < tee.u[1] + t - TOLERANCE.length
            if behind and bay[1] - bay[0] >= t and bay[1] - bay[0] <= 2 * wall.spacing:
                for inset in _insets(wall, tee, t):
                    yield wall.bench.edge_along_u(
                        "tee-block", wall.studs, wall.plates_grade, u=bay, v=low, outward=-inset
                    )


def _span(wall: Wall, upright: Member) -> tuple[float, float, float]:
    u, v, _ = wall.bench.placement.from_world(upright.placement.origin)
    return u, v, v + upright.length_in
