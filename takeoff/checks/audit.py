"""Audit of the built frame: every stick as a solid with all its cuts; no two may stand in each other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from takeoff.findings import Finding, Severity
from takeoff.geometry.solid import CutPlane, Shared, Solid, prism
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


def overlaps(members: Sequence[Member]) -> Iterator[tuple[Member, Member, Shared]]:
    """Pairs of members that stand in each other by more than `PENETRATION_IN`, swept along x."""
    solids = [solid(member) for member in members]
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
    """A warning for every pair of sticks that stand in each other, with where; a note where there is none."""
    found = tuple(
        Finding(
            rule="audit.overlap",
            severity=Severity.WARNING,
            message=f"{one.name} ({one.face}) and {other.name} ({other.face}) stand {format_length(shared.depth)} "
            f"in each other at {_spot(shared)}",
            building=building.name,
            where=f"{one.mark} and {other.mark}",
            found=format_length(shared.depth, denominator=32),
            limit=format_length(PENETRATION_IN, denominator=32),
        )
        for one, other, shared in overlaps(building.members)
    )
    if found:
        return found
    message = f"none of {len(building.members)} sticks stands in another"
    return (Finding(rule="audit.overlap", severity=Severity.NOTE, message=message, building=building.name),)


def _spot(shared: Shared) -> str:
    x, y, z = (format_length(value) for value in shared.middle)
    return f"x {x}, y {y}, {z} over the deck"
