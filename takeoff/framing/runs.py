"""Plates and fascia as runs: what of a frame may be joined otherwise, and the frame joined so."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from math import dist
from typing import TYPE_CHECKING

from takeoff.catalog.rules import rule
from takeoff.framing.contacts import contacts
from takeoff.framing.walls import stud_centres
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import SQUARE_ENDS, EndCut, Member
from takeoff.model.run import Run

if TYPE_CHECKING:
    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.wall import Wall
    from takeoff.geometry.placement import Placement
    from takeoff.model.building import FramedBuilding
    from takeoff.model.joint import Joint

_PLATES = ("bottom-plate", "top-plate", "cap-plate")
_FASCIA = "fascia"

Axis = tuple["Placement", tuple[float, ...]]
"""Axes of a face, and where joints may fall along u."""


def runs(
    members: Sequence[Member], walls: Iterable[Wall], rows: Iterable[RafterRow], *, bolted: bool
) -> tuple[Run, ...]:
    """The plates and fascia among the members, each from end to end.

    Args:
        members: of one building; the pieces of a run stand beside each other.
        walls: that the plates are of.
        rows: of the rafters that the fascia is on.
        bolted: the bottom plates are; their joints stay, since each piece has its bolts.
    """
    axes: dict[tuple[str, str], Axis] = {}
    for wall in walls:
        level = _PLATES if wall.top is None else _PLATES[:1]  # parts of a stepped top are joined as they are
        for role in level[1:] if bolted else level:
            axes[role, wall.bench.face] = (wall.bench.placement, stud_centres(wall))
    for row in rows:
        axes[_FASCIA, f"{row.slope.side} eave"] = (row.slope.bench.placement, row.centres)
    found: list[Run] = []
    top: dict[str, tuple[int, float]] = {}
    for pieces in _lines(members, axes):
        first = members[pieces[0]]
        run, start = _run(members, pieces, axes[first.role.name, first.face])
        if first.role.name == "top-plate":
            top[first.face] = (len(found), start)
        elif first.role.name == "cap-plate" and first.face in top:
            under, under_start = top[first.face]
            offset = rule("plate.joint-offset").value
            run = replace(run, under=under, offset_in=offset, starts_in=start - under_start)
        found.append(run)
    return tuple(found)


def _lines(members: Sequence[Member], axes: Mapping[tuple[str, str], Axis]) -> list[tuple[int, ...]]:
    """Numbers of the members that go on from each other."""
    lines: list[tuple[int, ...]] = []
    for number, member in enumerate(members):
        if (member.role.name, member.face) not in axes:
            continue
        if lines and lines[-1][-1] == number - 1 and _goes_on(members[number - 1], member):
            lines[-1] = (*lines[-1], number)
        else:
            lines.append((number,))
    return lines


def _goes_on(one: Member, other: Member) -> bool:
    alike = (one.role, one.face, one.profile, one.grade) == (other.role, other.face, other.profile, other.grade)
    return alike and dist(_end(one, 2), _end(other, 0)) <= TOLERANCE.length * 10


def _end(member: Member, bound: int) -> tuple[float, float, float]:
    return member.placement.to_world((float(member.side.bounds[bound]), 0.0, 0.0))


def _run(members: Sequence[Member], pieces: tuple[int, ...], axis: Axis) -> tuple[Run, float]:
    """The run of some members, and where it starts along u of its face."""
    placement, centres = axis
    start = placement.from_world(_end(members[pieces[0]], 0))[0]
    reached, ends = 0.0, list[float]()
    for number in pieces:
        reached += members[number].length_in
        ends.append(reached)
    run = Run(
        pieces=pieces,
        length_in=reached,
        joints_in=tuple(ends[:-1]),
        places_in=tuple(c - start for c in centres if TOLERANCE.length < c - start < reached - TOLERANCE.length),
    )
    return run, start


def rejoined(building: FramedBuilding, joints_in: Sequence[tuple[float, ...]]) -> FramedBuilding:
    """The building with its runs joined otherwise.

    Args:
        building: not yet marked.
        joints_in: for each of its runs, where its pieces are joined, from its start [in].
    """
    changed = {
        run.pieces[0]: (run, at) for run, at in zip(building.runs, joints_in, strict=True) if at != run.joints_in
    }
    if not changed:
        return building
    gone = {number for run, _ in changed.values() for number in run.pieces}
    members: list[Member] = []
    stays: dict[int, int] = {}
    for number, member in enumerate(building.members):
        if number in changed:
            run, at = changed[number]
            members += _cut(building.members[run.pieces[0]], building.members[run.pieces[-1]], run, at)
        elif number not in gone:
            stays[number] = len(members)
            members.append(member)
    return replace(building, members=tuple(members), joints=_joints(building, members, stays), runs=())


def _joints(building: FramedBuilding, members: Sequence[Member], stays: Mapping[int, int]) -> tuple[Joint, ...]:
    """Joints of what stays as they were found, under its new numbers; those of the new pieces found anew."""
    kept = (
        replace(joint, upper=stays[joint.upper], lower=stays[joint.lower])
        for joint in building.joints
        if joint.upper in stays and joint.lower in stays
    )
    old = set(stays.values())
    return (*kept, *(joint for joint in contacts(members) if not (joint.upper in old and joint.lower in old)))


def _cut(first: Member, last: Member, run: Run, joints_in: tuple[float, ...]) -> list[Member]:
    """A run's pieces, cut off square at its joints; its ends stay as they are."""
    from shapely import box

    begin = float(first.side.bounds[0])
    ends = (0.0, *joints_in, run.length_in)
    members = []
    for left, right in pairwise(ends):
        origin = first.placement.to_world((begin + left, 0.0, 0.0))
        members.append(
            replace(
                first,
                side=box(0.0, 0.0, right - left, float(first.side.bounds[3])),
                placement=replace(first.placement, origin=origin),
                cuts=SQUARE_ENDS,
            )
        )
    return _with_ends(members, first, last)


def _with_ends(members: list[Member], first: Member, last: Member) -> list[Member]:
    end = _moved(last.cuts[1], members[-1].length_in - last.length_in)
    members[0] = replace(members[0], cuts=(first.cuts[0], members[0].cuts[1]))
    members[-1] = replace(members[-1], cuts=(members[-1].cuts[0], end))
    return members


def _moved(cut: EndCut, along: float) -> EndCut:
    """The cut at the end of a stick that is so much longer."""
    if cut.through is None:
        return cut
    x, y, z = cut.through
    return replace(cut, through=(x + along, y, z))
