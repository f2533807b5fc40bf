"""Porches: each a minor roof at a wall, on beams and posts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import floor
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.findings import Finding, Place, Severity
from takeoff.framing.minor import Host, Minor
from takeoff.framing.openings import rough_opening
from takeoff.framing.part import Part
from takeoff.framing.porch_beams import (
    HEADROOM_IN,
    LEAST_POST_IN,
    BeamRun,
    beam_bench,
    beam_line,
    beam_members,
    beam_runs,
    post_members,
)
from takeoff.framing.porch_laid import main_eave, meeting, reshaped, sleepers, trimmed_part
from takeoff.framing.porch_ledger import ledger_line
from takeoff.framing.porch_posts import stands_behind
from takeoff.framing.porch_roof import PorchHeights, porch_building, porch_ground, porch_heights, wall_face
from takeoff.framing.porch_room import refuse_without_room
from takeoff.framing.roof_frame import RoofFrame
from takeoff.framing.roof_members import refused
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.model.member import Member
from takeoff.plan.footprint import footprint
from takeoff.plan.porches import porch_labels

if TYPE_CHECKING:
    from takeoff.plan.porches import Porch
    from takeoff.plan.schema import Building

ON_BEAM = "beam, top"

CLEAR_IN = 0.5
"""Side beams of a porch that is laid on the main roof stop this far from the main fascia [in]. No source."""


def porches(host: Host) -> tuple[Minor, ...]:
    """The porches of a building, in the order of the plan."""
    written = host.building.roof.porches
    return tuple(
        _minor(host, porch, label, f"roof.porches[{index}]")
        for index, (porch, label) in enumerate(zip(written, porch_labels(written), strict=True))
    )


def porch_plans(building: Building) -> tuple[tuple[str, Building], ...]:
    """Labels of a building's porches, each with the plan of the small building that it is framed as."""
    written = building.roof.porches
    if not written:
        return ()
    ground = footprint(building)
    labels = porch_labels(written)
    return tuple(
        (label, porch_building(building, ground, porch, label)) for porch, label in zip(written, labels, strict=True)
    )


def _minor(host: Host, porch: Porch, label: str, path: str) -> Minor:
    try:
        building = porch_building(host.building, host.ground, porch, label)
    except ValueError as error:
        raise refused("frame.porch", host.written(f"{path}.roof_height"), str(error)) from error
    ground = porch_ground(host.building, host.ground, porch, label)
    place = host.written(path)
    return Minor(
        kind="porch",
        label=label,
        side=porch.side,
        building=building,
        ground=ground,
        path=path,
        under=lambda minor, roof: _under(host, porch, minor, roof),
        stands_on=ON_BEAM,
        reshape=lambda plan: reshaped(host, porch, plan, place) if porch.meets == "roof" else plan,
        finish=lambda part: trimmed_part(host, porch, part, place) if porch.meets == "roof" else part,
    )


def _under(host: Host, porch: Porch, minor: Minor, roof: RoofFrame) -> Part:
    place = host.written(minor.path)
    if porch.meets == "wall":
        refuse_without_room(host, porch, roof, place)
    top, depth = minor.building.walls.height, porch.beam.size.profile.depth_in
    height = top - depth - porch.deck_height
    if height < LEAST_POST_IN:
        raise refused(
            "frame.porch-post",
            place,
            f"the beams' undersides are {format_length(top - depth)} over the deck, {format_length(height)} over the "
            f"posts' feet: expected at least {format_length(LEAST_POST_IN)}; raise the beams, or lower deck_height",
        )
    runs = beam_runs(porch, minor.ground, _reach(host, porch))
    _refuse_past_beams(porch, runs, roof, place)
    benches = [beam_bench(host.building.name, run, top - depth, place) for run in runs]
    beams = [beam_members(porch, run, bench, place) for run, bench in zip(runs, benches, strict=True)]
    posts = [tuple(post_members(porch, run, bench, height)) for run, bench in zip(runs, benches, strict=True)]
    on_roof = tuple(sleepers(host, porch, roof, benches[0])) if porch.meets == "roof" else ()
    king = tuple(_king_posts(host, porch, minor, roof, place))
    return Part(
        members=(*(m for group in (*beams, *posts) for m in group), *on_roof, *king),
        lines=(
            *(beam_line(run, minor.ground, group) for run, group in zip(runs, beams, strict=True)),
            *ledger_line(host, porch, minor, roof),
        ),
        findings=tuple(_told(host, porch, roof, runs, height, place)),
    )


def _reach(host: Host, porch: Porch) -> float:
    """Length of the side beams: to the wall, or, where the roof runs on over it, clear of the main eave [in]."""
    if porch.meets == "wall":
        return porch.depth - wall_face(host.building, porch)
    return porch.depth - main_eave(host, porch) - CLEAR_IN


def _refuse_past_beams(porch: Porch, runs: tuple[BeamRun, ...], roof: RoofFrame, place: Place) -> None:
    """Every rafter with a seat has a beam under it: past the end of the beams the roof has to lie on the main one."""
    for row in roof.rows:
        (run,) = (run for run in runs if run.side.name == row.slope.side)
        half = row.profile.thickness_in / 2
        past = [max(run.run[0] - u, u - run.run[1]) for u in row.seated]
        if past and max(past) > TOLERANCE.length - half:
            short = format_length(max(past) + half)
            raise refused(
                "frame.porch-room",
                place,
                f"rafters stand up to {short} past the end of the side beams, which stop clear of the main eave, and "
                "don't reach the main slope there: lower beam_height",
            )


def _king_posts(host: Host, porch: Porch, minor: Minor, roof: RoofFrame, place: Place) -> Iterator[Member]:
    """Under the front end of a ridge beam: a short post on the front beam, no wider than the ridge."""
    front = minor.ground.sides[0]
    for end in roof.ends_over(front.name):
        if not end.ridge.beam:
            continue
        stick = profile("2x6" if porch.beam.width_in >= profile("2x6").depth_in else "2x4")
        plies = max(1, floor(end.ridge.profile.thickness_in / stick.thickness_in))
        run = BeamRun(side=front, run=(0.0, front.length_in), posts=(), set_back=0.0)
        set_back = max(0.0, (porch.beam.width_in - stick.depth_in) / 2)
        bench = beam_bench(host.building.name, run, minor.building.walls.height, place)
        origin = bench.placement.to_world((0.0, 0.0, -set_back))
        bench = replace(bench, placement=replace(bench.placement, origin=origin))
        u, _, _ = bench.placement.from_world((*end.spot, origin[2]))
        for k in range(plies):
            at = u + (k - (plies - 1) / 2) * stick.thickness_in
            yield bench.along_v("king-post", stick, "no2", u=at, v=(0.0, end.ridge.bottom - origin[2]))


def _told(
    host: Host, porch: Porch, roof: RoofFrame, runs: tuple[BeamRun, ...], height: float, place: Place
) -> Iterator[Finding]:
    heights = porch_heights(host.building, porch)
    count = sum(len(run.posts) for run in runs)
    yield Finding(
        rule="frame.porch",
        severity=Severity.NOTE,
        message=f"the beams' tops are {format_length(heights.beam)} over the deck, {_meeting(porch, heights, roof)}; "
        f"{count} posts of {porch.posts.size} are {format_length(height)} long under "
        f"beams of {porch.beam.words}",
        place=place,
        building=host.building.name,
        where="beams and posts",
    )
    if height < HEADROOM_IN - TOLERANCE.length:
        yield Finding(
            rule="frame.porch-headroom",
            severity=Severity.WARNING,
            message=f"it is {format_length(height)} from the posts' feet to the undersides of the beams, less than the "
            f"{format_length(HEADROOM_IN)} that one walks under: raise the roof or the beams, give it less pitch or "
            "less depth, lower deck_height, or lay it on the main roof (meets: roof)",
            place=place,
            building=host.building.name,
            where="beams and posts",
        )
    spans = [b - a for run in runs for a, b in zip(run.posts, run.posts[1:], strict=False)]
    longest = f", up to {format_length(max(spans))} between posts," if spans else ""
    yield Finding(
        rule="frame.porch-design",
        severity=Severity.WARNING,
        message=f"beams of {porch.beam.words}{longest} and posts of {porch.posts.size} are taken as written: their "
        "sizes, caps, bases, footings and what holds them down against wind and sideways need a design",
        place=place,
        building=host.building.name,
        where="beams and posts",
    )
    yield from _before_doors(host, porch, runs[0], place)
    if porch.shape == "gable" and porch.ridge and porch.ridge.kind == "beam":
        yield Finding(
            rule="frame.porch-ridge",
            severity=Severity.WARNING,
            message="the ridge beam ends at the wall: it needs a pocket or a hanger there, "
            + (
                "before the post of studs that stands in the wall behind it; its fixing needs a design"
                if stands_behind(porch, host.ground.side(porch.side), host.part.members)
                else "and studs under it down to the floor, which are not in this take-off"
            ),
            place=place,
            building=host.building.name,
            where="ridge",
        )


def _before_doors(host: Host, porch: Porch, front: BeamRun, place: Place) -> Iterator[Finding]:
    """Posts of the front that stand before a door of the wall."""
    half = profile(porch.posts.size).thickness_in / 2
    doors = [rough_opening(o) for o in host.building.walls.openings if o.side == porch.side]
    for door in (one for one in doors if one.door):
        for post in (porch.across_in[0] + at for at in front.posts):
            if door.u[0] - half < post < door.u[1] + half:
                yield Finding(
                    rule="frame.porch-post",
                    severity=Severity.WARNING,
                    message=f"a post stands before the {door.what}, {format_length(post - porch.across_in[0])} from "
                    "the porch's left end; say where posts stand (posts: places), or how far apart (spacing)",
                    place=place,
                    building=host.building.name,
                    where="posts",
                )


def _meeting(porch: Porch, heights: PorchHeights, roof: RoofFrame) -> str:
    """Where the roof ends, in a builder's words."""
    if porch.meets == "wall":
        where = "peak" if porch.shape == "gable" else "wall"
        return f"the rafters' tops at the {where} {format_length(heights.wall)}"
    run, height = meeting(roof)
    return (
        f"the roof runs up into the tops of the {porch.sleeper} sleepers on the main slope {format_length(height)} "
        f"over the deck, {format_length(run - porch.depth)} level in from the wall"
    )
