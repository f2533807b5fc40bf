"""What a gable wall has beside its studs: the post under a ridge beam, and fire blocks between tall studs."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from takeoff.catalog.rules import rule
from takeoff.framing.spacing import gaps
from takeoff.framing.studs import upright_grade
from takeoff.framing.wall import Wall
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile


@dataclass(frozen=True, slots=True, kw_only=True)
class RidgePost:
    """Studs side by side under the end of a ridge beam, together at least as wide as the beam."""

    centres: tuple[float, ...]
    top: float
    """v of the beam's underside [in]."""


def ridge_post(wall: Wall, beam: Profile, beam_bottom: float) -> RidgePost:
    """The post in the middle of a gable wall, built up of the wall's studs."""
    t = wall.studs.thickness_in
    plies = ceil(beam.thickness_in / t - TOLERANCE.length)
    middle = wall.side.length_in / 2
    return RidgePost(centres=tuple(middle + (k - (plies - 1) / 2) * t for k in range(plies)), top=beam_bottom)


def post_members(wall: Wall, post: RidgePost) -> tuple[Member, ...]:
    """Plies of the post: in each stud zone from what it stands on to what it carries, stopped by a header."""
    ends = (
        (u, cut.v0, min(cut.v1, post.top)) for zone in wall.stud_zones() for u in post.centres for cut in zone.slices(u)
    )
    return tuple(
        wall.bench.along_v("post", wall.studs, upright_grade(wall, v1 - v0), u=u, v=(v0, v1))
        for u, v0, v1 in ends
        if v1 - v0 > wall.studs.thickness_in
    )


def block_rows(wall: Wall) -> tuple[float, ...]:
    """Middles of the rows of fire blocks in a balloon-framed gable [in], as far apart as the rule lets them be."""
    if not wall.balloon or wall.rake is None:
        return ()
    apart = rule("fireblock.tall-stud-rows").value
    tallest = wall.rake.at(wall.rake.peak)
    return tuple(apart * k for k in range(1, ceil(tallest / apart)))


def fire_blocks(wall: Wall, standing: Iterable[Member]) -> tuple[Member, ...]:
    """Blocks between neighbouring uprights wherever both pass a row."""
    uprights = [(m.placement.to_world((0.0, 0.0, 0.0)), m) for m in standing]
    local = [(wall.bench.placement.from_world(foot), m.length_in) for foot, m in uprights]
    t = wall.studs.thickness_in
    blocks: list[Member] = []
    for row in block_rows(wall):
        v = row - t / 2
        passing = [u for (u, v0, _), length in local if v0 <= v and v0 + length >= row + t / 2]
        blocks += [
            wall.bench.flat_along_u("fire-block", wall.studs, wall.plates_grade, u=bay, v=v)
            for bay in gaps(passing, t)
            if not _through_opening(wall, bay, row)
        ]
    return tuple(blocks)


def _through_opening(wall: Wall, bay: tuple[float, float], v: float) -> bool:
    middle = (bay[0] + bay[1]) / 2
    return not any(cut.v0 <= v <= cut.v1 for zone in wall.stud_zones() for cut in zone.slices(middle))
