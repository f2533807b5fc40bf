"""Audit of the built frame: every stick as a solid with all its cuts.

No two may stand in each other; rafters end on wood, their seats are carried, their tops lie in their slope.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from takeoff.checks.audit_ends import OFF_IN, loose_ends, off_the_slope
from takeoff.findings import Finding, Severity
from takeoff.geometry.solid import CutPlane, Shared, Solid, prism
from takeoff.geometry.vec import Vec
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member

PENETRATION_IN = 1 / 32
"""Two sticks may stand this far in each other [in]: what a saw and a hammer make good."""


def solid(member: Member) -> Solid:
    """The wood of a member."""
    cuts = [
        CutPlane(*member.placed(cut))
        for main, more in zip(member.cuts, member.cheeks, strict=True)
        for cut in (main, *more)
    ]
    return prism(member.side, member.profile.thickness_in, cuts, member.placement)


def overlaps(
    members: Sequence[Member], solids: Sequence[Solid] | None = None
) -> Iterator[tuple[Member, Member, Shared]]:
    """Pairs of members that stand in each other by more than `PENETRATION_IN`, swept along x.

    Args:
        members: all sticks of a building.
        solids: of each; left out, they are made.
    """
    solids = solids or [solid(member) for member in members]
    boxes = [each.bounds for each in solids]
    order = sorted(range(len(members)), key=lambda k: boxes[k][0][0])
    for position, i in enumerate(order):
        for j in order[position + 1 :]:
            if boxes[j][0][0] >= boxes[i][1][0] - PENETRATION_IN:
                break
            if not _boxes_meet(boxes[i], boxes[j]):
                continue
            shared = solids[i].shared_with(solids[j])
            if shared and shared.depth > PENETRATION_IN:
                yield members[i], members[j], shared


def _boxes_meet(one: tuple[Sequence[float], Sequence[float]], other: tuple[Sequence[float], Sequence[float]]) -> bool:
    return all(one[0][k] < other[1][k] - PENETRATION_IN and other[0][k] < one[1][k] - PENETRATION_IN for k in range(3))


def audit(building: FramedBuilding) -> tuple[Finding, ...]:
    """Warnings of all that is wrong; a note where nothing is.

    Told are pairs of sticks that stand in each other, ends of rafters that touch nothing, seats that nothing carries,
    and top edges off their slope.
    """
    solids = [solid(member) for member in building.members]
    found = (*_overlaps(building, solids), *_loose(building, solids), *_off(building))
    if found:
        return found
    rafters = sum(member.rafter is not None for member in building.members)
    message = f"none of {len(building.members)} sticks stands in another"
    if rafters:
        message += f"; the ends, seats and top edges of {rafters} rafters are where they should be"
    return (Finding(rule="audit.overlap", severity=Severity.NOTE, message=message, building=building.name),)


def _overlaps(building: FramedBuilding, solids: Sequence[Solid]) -> Iterator[Finding]:
    for one, other, shared in overlaps(building.members, solids):
        yield Finding(
            rule="audit.overlap",
            severity=Severity.WARNING,
            message=f"{one.name} ({one.face}) and {other.name} ({other.face}) stand {format_length(shared.depth)} "
            f"in each other at {_spot(shared.middle)}",
            building=building.name,
            where=f"{one.mark} and {other.mark}",
            found=format_length(shared.depth, denominator=32),
            limit=format_length(PENETRATION_IN, denominator=32),
        )


def _loose(building: FramedBuilding, solids: Sequence[Solid]) -> Iterator[Finding]:
    for loose in loose_ends(building.members, solids):
        lacks = "is carried by nothing" if loose.end == "seat" else "touches nothing"
        yield Finding(
            rule="audit.end",
            severity=Severity.WARNING,
            message=f"the {loose.end} of {loose.member.name} ({loose.member.face}) {lacks}, at {_spot(loose.spot)}",
            building=building.name,
            where=loose.member.mark,
        )


def _off(building: FramedBuilding) -> Iterator[Finding]:
    for member, by in off_the_slope(building):
        how = f"{format_length(abs(by), denominator=32)} {'over' if by > 0 else 'under'}"
        yield Finding(
            rule="audit.top",
            severity=Severity.WARNING,
            message=f"the top edge of {member.name} is {how} the plane of the {member.face}",
            building=building.name,
            where=member.mark,
            found=format_length(abs(by), denominator=32),
            limit=format_length(OFF_IN, denominator=32),
        )


def _spot(spot: Vec) -> str:
    x, y, z = (format_length(value) for value in spot)
    return f"x {x}, y {y}, {z} over the deck"
