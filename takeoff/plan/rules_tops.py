"""Rules of stepped and raked tops of outside walls: only where no rafters stand on the plates, corners in order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.geometry.rake_line import RakeLine
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import footprint, side_names
from takeoff.plan.rules_openings import rises_to_the_rake
from takeoff.plan.schema import Building
from takeoff.plan.tree import Loc

if TYPE_CHECKING:
    from takeoff.plan.openings import WallOpening

LEAST_RUN_IN = 6.0
"""Shortest part of a top between its first and its last corner [in]."""


def tops_where_no_rafters_stand(building: Building) -> Iterator[Flaw]:
    """A wall whose plates carry rafters is as high as those want it; so is one whose studs run on to the rake."""
    for name, own in building.walls.by_side.items():
        if own.top is None or name not in side_names(building):
            continue
        loc: Loc = ("walls", "by_side", name, "top")
        usual = building.walls.height
        off = max((abs(v - usual), v, u) for u, v in own.top)
        found = f"{format_length(off[1])} at {format_length(off[2])}"
        if not building.roof.is_gable(name) and not building.roof.is_abutment(name):
            message = (
                f"found a top of the {name} wall at {found}, {format_length(off[0])} off the plates at"
                f" {format_length(own.height or usual)} that the rafters stand on, expected plates level under rafters;"
                " give the wall a height, or part the side in two by a corner of the outline"
            )
            yield Flaw(rule="plan.top", loc=loc, message=message, found=found)
        elif rises_to_the_rake(building, name) and not building.roof.is_abutment(name):
            message = (
                f"found a top of the {name} wall at {found}, expected none: its studs run on to the rake; frame it as a"
                " platform for plates of its own"
            )
            yield Flaw(rule="plan.top", loc=loc, message=message, found=found)
        if own.height is not None:
            message = f"found height beside top of {name!r}, expected one of the two"
            yield Flaw(rule="plan.top", loc=("walls", "by_side", name, "height"), message=message, found="both")


def steps_clear_of_openings(building: Building) -> Iterator[Flaw]:
    """The two studs at a step of a top have room beside kings and jacks; a king may be one of them."""
    for name, own in building.walls.by_side.items():
        line = building.walls.for_side(name).top_line()
        if own.top is None or line is None or name not in side_names(building):
            continue
        studs = profile(building.walls.for_side(name).studs).thickness_in
        openings = tuple(o for o in building.walls.openings if o.side == name)
        loc: Loc = ("walls", "by_side", name, "top")
        yield from _in_framing(line, openings, studs, f"the {name} wall", loc)
    for index, partition in enumerate(building.walls.partitions):
        if partition.top:
            line, studs = RakeLine(points=partition.top), profile(partition.studs).thickness_in
            loc = ("walls", "partitions", index, "top")
            yield from _in_framing(line, partition.openings, studs, f"{partition.name!r}", loc)


def _in_framing(
    line: RakeLine, openings: Sequence[WallOpening], thickness: float, where: str, loc: Loc
) -> Iterator[Flaw]:
    for at in line.steps:
        for opening in openings:
            wide = (1 + opening.jack_count) * thickness
            for low, high, king in (
                (opening.left_in - wide, opening.left_in, opening.left_in - wide + thickness / 2),
                (opening.right_in, opening.right_in + wide, opening.right_in + wide - thickness / 2),
            ):
                overlap = min(at + thickness, high) - max(at - thickness, low)
                shared = any(abs(king - stud) < TOLERANCE.length for stud in (at - thickness / 2, at + thickness / 2))
                if overlap > (thickness if shared else 0.0) + TOLERANCE.length:
                    found = format_length(overlap)
                    message = (
                        f"found the step of the top of {where} at {format_length(at)} with its studs {found} in the"
                        f" king and jacks of the {opening.call} {opening.usual.words}, expected room beside them, or"
                        " the step over the opening"
                    )
                    yield Flaw(rule="plan.top", loc=loc, message=message, found=found)


def tops_along_their_walls(building: Building) -> Iterator[Flaw]:
    """Corners of a top run from left to right, and lie along the wall."""
    ground = footprint(building)
    for name, own in building.walls.by_side.items():
        if own.top is None or name not in side_names(building):
            continue
        loc: Loc = ("walls", "by_side", name, "top")
        length, along = ground.side(name).length_in, [u for u, _ in own.top]
        back = next((k for k in range(1, len(along)) if along[k] < along[k - 1]), None)
        if back is not None:
            found, limit = format_length(along[back]), f"at least {format_length(along[back - 1])}"
            message = f"found corner {back + 1} of the top at {found}, expected {limit}: corners run along the wall"
            yield Flaw(rule="plan.top", loc=loc, message=message, found=found, limit=limit)
        elif along[-1] - along[0] < LEAST_RUN_IN:
            found = format_length(along[-1] - along[0])
            message = f"found a top {found} long, expected corners along the {name} wall ({format_length(length)} long)"
            yield Flaw(rule="plan.top", loc=loc, message=message, found=found)
        for k, u in enumerate(along):
            past = max(-u, u - length)
            if past > LEAST_RUN_IN:
                found = format_length(past)
                message = f"found corner {k + 1} of the top {found} past the end of the {name} wall, expected it before"
                yield Flaw(rule="plan.top", loc=(*loc, k), message=message, found=found)
