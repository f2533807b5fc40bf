"""Checks of rafters: notches, tails, bearing, the ridge they meet, and their lateral support."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.rules import rule
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.joint import Joint
from takeoff.model.member import Member
from takeoff.plan.schema import Building

NEAR = TOLERANCE.length


def rafter_marks(building: FramedBuilding) -> tuple[Member, ...]:
    """One rafter of each mark that has a bird's mouth."""
    found = {m.mark: m for m in building.members if m.rafter is not None and m.rafter.seat}
    return tuple(found.values())


def notch_depth(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Depth of the bird's mouth, square to the edge."""
    limit = rule("notch.end-depth")
    for member in rafter_marks(building):
        assert member.rafter is not None  # see rafter_marks
        cut, most = member.rafter, limit.value * member.profile.depth_in
        yield verdict(
            limit,
            passed=cut.heel_square <= most + NEAR,
            building=building.name,
            where=member.name,
            found=f"a notch {format_length(cut.heel_square, denominator=32)} deep",
            limit=format_length(most, denominator=32),
            place=member.written,
            advice="shorten the seat or take a deeper rafter",
        )


def tail(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """What is left of a tail ripped shallower than its rafter, and its length along the slope."""
    for member in rafter_marks(building):
        assert member.rafter is not None  # see rafter_marks
        cut = member.rafter
        if cut.tail_depth is None or cut.tail_depth >= cut.depth or not cut.overhang:
            continue
        left, reach = rule("notch.tail-depth"), rule("notch.tail-length")
        yield verdict(
            left,
            passed=cut.tail_depth >= left.value - NEAR,
            building=building.name,
            where=member.name,
            found=f"a tail {format_length(cut.tail_depth)} deep",
            limit=format_length(left.value),
            place=member.written,
            advice="rip the tail less",
        )
        yield verdict(
            reach,
            passed=cut.tail <= reach.value + NEAR,
            building=building.name,
            where=member.name,
            found=f"a ripped tail {format_length(cut.tail)} long",
            limit=format_length(reach.value),
            place=member.written,
            advice="shorten the overhang or leave the tail its full depth",
        )


def seat_bearing(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Bearing of each rafter mark on its plate, as built."""
    limit = rule("bearing.rafter")
    for member, joint in _least_bearing(building):
        found = joint.bearing_in if joint else 0.0
        yield verdict(
            limit,
            passed=found >= limit.value - NEAR,
            building=building.name,
            where=member.name,
            found=f"a bearing of {format_length(found)} on the plate",
            limit=format_length(limit.value),
            place=member.written,
        )


def _least_bearing(building: FramedBuilding) -> Iterator[tuple[Member, Joint | None]]:
    seats = {joint.upper: joint for joint in building.joints if joint.kind == "bears"}
    worst: dict[str, tuple[Member, Joint | None]] = {}
    for index, member in enumerate(building.members):
        if member.rafter is None or not member.rafter.seat:
            continue
        joint = seats.get(index)
        known = worst.get(member.mark)
        if known is None or _bearing(joint) < _bearing(known[1]):
            worst[member.mark] = (member, joint)
    yield from worst.values()


def _bearing(joint: Joint | None) -> float:
    return joint.bearing_in if joint else 0.0


def lateral_support(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Depth to thickness of the rafters, nominal: whether they want blocking at the plate."""
    limit = rule("lateral.bearing-ratio")
    for member in rafter_marks(building):
        if member.profile.nominal is None:
            continue
        ratio = member.profile.nominal[1] / member.profile.nominal[0]
        blocked = any(m.role.name == "eave-block" for m in building.members)
        yield verdict(
            limit,
            passed=ratio <= limit.value or blocked,
            building=building.name,
            where=member.name,
            found=f"{ratio:g} to 1" + (", blocked over the plate" if blocked else ""),
            limit=f"{limit.value:g} to 1 unblocked",
            place=member.written,
            advice="put blocks over the plate",
        )
