"""What a gable wall has beside its studs: the post under a ridge beam, and fire blocks between tall studs."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, floor
from typing import TYPE_CHECKING

from takeoff.framing.spacing import gaps
from takeoff.framing.studs import stud_ends, upright_grade
from takeoff.framing.wall import RidgePost, Wall
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import SQUARE_ENDS, Member

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile


def ridge_post(wall: Wall, beam: Profile, middle: float, beam_bottom: float) -> RidgePost:
    """The post under a beam that ends over ``middle`` of a wall [in], built up of the wall's studs.

    It is at least as wide as the beam; where the end rafters reach below the beam, it stands between them.
    """
    t = wall.studs.thickness_in
    plies = ceil(beam.thickness_in / t - TOLERANCE.length)
    sides = (middle - plies * t / 2, middle + plies * t / 2)
    line = wall.studs_to
    if line and min(line.at(sides[0]), line.past(sides[1])) < beam_bottom:
        plies = max(1, floor(beam.thickness_in / t + TOLERANCE.length))
    away = max(plies * t, beam.thickness_in) / 2 + t / 2
    return RidgePost(
        centres=tuple(middle + (k - (plies - 1) / 2) * t for k in range(plies)),
        beside=(middle - away, middle + away),
        top=beam_bottom,
    )


def post_members(wall: Wall) -> tuple[Member, ...]:
    """Plies of the posts: in each stud zone from what they stand on to what they carry, stopped by a header."""
    ends = (
        (u, v[0], min(v[1], post.top), (foot, head if v[1] < post.top else SQUARE_ENDS[1]))
        for post in wall.posts
        for zone in wall.stud_zones()
        for u in post.centres
        for cut in zone.slices(u)
        for v, (foot, head) in (stud_ends(zone, cut, wall.studs.thickness_in),)
    )
    return tuple(
        wall.bench.along_v("post", wall.studs, upright_grade(wall, v1 - v0), u=u, v=(v0, v1), cuts=cuts)
        for u, v0, v1, cuts in ends
        if v1 - v0 > wall.studs.thickness_in
    )


def fire_blocks(wall: Wall, rows: Iterable[float], standing: Iterable[Member]) -> tuple[Member, ...]:
    """Blocks between neighbouring uprights wherever both pass a row and nothing else stands in the bay."""
    t = wall.studs.thickness_in
    spans = [_span(wall, member) for member in standing]
    blocks: list[Member] = []
    for row in rows:
        low, high = row - t / 2, row + t / 2
        passing = [u for u, v0, v1 in spans if v0 <= low and v1 >= high]
        ending = [u for u, v0, v1 in spans if v0 < high and v1 > low and u not in passing]
        blocks += [
            wall.bench.flat_along_u("fire-block", wall.studs, wall.plates_grade, u=bay, v=low)
            for bay in gaps(passing, t)
            if bay[1] - bay[0] >= t
            and not _through_opening(wall, bay, row)
            and not any(bay[0] < u < bay[1] for u in ending)
        ]
    return tuple(blocks)


def _span(wall: Wall, upright: Member) -> tuple[float, float, float]:
    """Centre line and ends of an upright in its wall."""
    u, v, _ = wall.bench.placement.from_world(upright.placement.origin)
    return u, v, v + upright.length_in


def _through_opening(wall: Wall, bay: tuple[float, float], v: float) -> bool:
    middle = (bay[0] + bay[1]) / 2
    half = wall.plate / 2
    return not any(
        cut.v0 <= v - half and v + half <= cut.v1 for zone in wall.stud_zones() for cut in zone.slices(middle)
    )
