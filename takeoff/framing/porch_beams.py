r"""Beams and posts of a porch, in place of walls.

::

    shed: one beam along the front        gable: side beams run from the wall over the corner posts,
                                          the front beam hangs between them and carries the ridge's post
    ======= wall =======                  ======= wall =======
                                          |P|            |P|
                                          | |            | |
    P======P======P====P                  |P|====KP======|P|
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.findings import Place
from takeoff.framing.roof_members import longest_of, refused
from takeoff.framing.splices import spliced
from takeoff.framing.stick import Bench
from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP
from takeoff.measure import format_length
from takeoff.model.layout import LayoutLine, LayoutMark, Tape
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.plan.footprint import Footprint, Side
    from takeoff.plan.porches import Porch

LEAST_POST_IN = 12.0
"""Shortest post that is worth the name [in]. Common practice, no source."""

HEADROOM_IN = 80.0
"""Under the beams of a porch, as over a door: 6'-8" [in]. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamRun:
    """A beam along a side of a porch, and the posts under it; all [in]."""

    side: Side
    run: tuple[float, float]
    """Its ends, from the side's left end seen from outside."""
    posts: tuple[float, ...]
    """Centres of the posts under it, from the same end; those of its corners are under the beam that runs over them."""
    set_back: float
    """Of the posts' middle from the outside of the beam."""


def beam_runs(porch: Porch, ground: Footprint, reach: float) -> tuple[BeamRun, ...]:
    """The beams of a porch with their posts.

    Args:
        porch: as the plan has it.
        ground: its rectangle.
        reach: length of its side beams, from the front [in].
    """
    front, right, left = ground.sides[0], ground.sides[1], ground.sides[3]
    wide, half = porch.beam.width_in, profile(porch.posts.size).thickness_in / 2
    if porch.shape == "shed":
        ends = (half, front.length_in - half)
        posts = porch.posts.places or evenly(ends, porch.posts.spacing)
        return (BeamRun(side=front, run=(0.0, front.length_in), posts=posts, set_back=wide / 2),)
    between = evenly((wide / 2, front.length_in - wide / 2), porch.posts.spacing)[1:-1]
    deep = evenly((half, reach - half), porch.posts.spacing)
    start = left.length_in - reach
    return (
        BeamRun(side=front, run=(wide, front.length_in - wide), posts=between, set_back=wide / 2),
        BeamRun(side=right, run=(0.0, reach), posts=deep, set_back=wide / 2),
        BeamRun(side=left, run=(start, left.length_in), posts=tuple(start + u for u in deep), set_back=wide / 2),
    )


def evenly(ends: tuple[float, float], most: float) -> tuple[float, ...]:
    """Places from end to end, as few as keep at most so far apart [in]."""
    bays = max(1, ceil((ends[1] - ends[0]) / most - TOLERANCE.length))
    return tuple(ends[0] + (ends[1] - ends[0]) * k / bays for k in range(bays + 1))


def beam_members(porch: Porch, run: BeamRun, bench: Bench, place: Place) -> tuple[Member, ...]:
    """The plies of a beam, joined over posts, the joints of neighbouring plies over different ones where there are.

    Raises:
        PlanError: a joint finds no post.
    """
    size, grade = porch.beam.size.profile, porch.beam.grade
    members: list[Member] = []
    before: tuple[float, ...] = ()
    for ply in range(porch.beam.size.plies):
        pieces = _pieces(run, longest_of(size, grade), before)
        before = tuple(end for _, end in pieces[:-1])
        lost = [at for at in before if not _on_post(at, run)]
        if lost:
            raise refused(
                "frame.porch-beam",
                place,
                f"the beam {porch.beam.words} of the {run.side.name} is {format_length(run.run[1] - run.run[0])} long, "
                f"stock {format_length(longest_of(size, grade))}: its joint at {format_length(lost[0])} has no post "
                "under it; space the posts closer, or place one there",
            )
        outward = -ply * size.thickness_in
        members += [bench.edge_along_u("porch-beam", size, grade, u=at, v=0.0, outward=outward) for at in pieces]
    return tuple(members)


def _pieces(run: BeamRun, longest: float, before: Sequence[float]) -> tuple[tuple[float, float], ...]:
    apart = spliced(run.run, longest, run.posts, away_from=before, offset=1.0)
    if all(_on_post(end, run) for _, end in apart[:-1]):
        return apart
    return spliced(run.run, longest, run.posts)


def _on_post(at: float, run: BeamRun) -> bool:
    return any(abs(at - post) < TOLERANCE.length for post in run.posts)


def beam_bench(building: str, run: BeamRun, bottom: float, place: Place) -> Bench:
    """Where a beam is made: its outside face, v up from its lower edge."""
    at = Placement((*run.side.start, bottom), (*run.side.direction, 0.0), UP)
    return Bench(building=building, face=run.side.name, placement=at, written=place)


def post_members(porch: Porch, run: BeamRun, bench: Bench, height: float) -> Iterator[Member]:
    """The posts under a beam, from where they start up to its lower edge.

    Args:
        porch: as the plan has it.
        run: the beam.
        bench: where the beam is made.
        height: of the posts [in].
    """
    size = profile(porch.posts.size)
    outer = bench.placement.to_world((0.0, 0.0, size.depth_in / 2 - run.set_back))
    standing = replace(bench, placement=replace(bench.placement, origin=outer))
    for u in run.posts:
        yield standing.along_v("porch-post", size, porch.posts.grade, u=u, v=(-height, 0.0))


def beam_line(run: BeamRun, ground: Footprint, beams: Sequence[Member]) -> LayoutLine:
    """Posts under a beam, and the joints of its plies, from its left end seen from outside."""
    start = run.run[0]
    posts = {(round(u - start, 6), "P", "porch post") for u in run.posts}
    ends = {
        round(run_end - start, 6)
        for beam in beams
        for run_end in (_along(run, beam) + beam.length_in,)
        if run_end < run.run[1] - TOLERANCE.length
    }
    joints = {(at, "/", "joint of a ply") for at in ends}
    return LayoutLine(
        name=f"{run.side.name} beam, underside",
        start=f"{ground.left_of(run.side.name).name} end",
        length_in=run.run[1] - start,
        marks=tuple(LayoutMark(*mark) for mark in sorted(posts | joints)),
        tape=_tape(run, beams[0]) if beams else None,
    )


def _tape(run: BeamRun, beam: Member) -> Tape:
    """Along the middle of a ply, from where the beam starts."""
    dx, dy = run.side.direction
    x, y, z = beam.placement.to_world((0.0, beam.profile.depth_in / 2, 0.0))
    back = _along(run, beam) - run.run[0]
    return Tape((x - dx * back, y - dy * back, z), (dx, dy, 0.0))


def _along(run: BeamRun, member: Member) -> float:
    (x, y), (dx, dy) = run.side.start, run.side.direction
    px, py, _ = member.placement.origin
    return (px - x) * dx + (py - y) * dy
