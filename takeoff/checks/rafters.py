"""Checks of rafters: notches, tails, bearing, the ridge they meet, and their lateral support."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil, hypot

from takeoff.catalog.rules import rule
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding
from takeoff.framing.joints import BEARERS
from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.schema import Building

JACKS = ("common-rafter", "hip-jack", "valley-jack", "cripple-jack")
"""Rafters that hips and valleys have to reach under."""

NEAR = TOLERANCE.length


@dataclass(frozen=True, slots=True)
class Alike:
    """Seated rafters of one size that share their bird's mouth and tail, whatever their lengths."""

    member: Member
    """One of them, the one with the longest run."""
    cut: RafterGeometry
    where: str
    """What a finding calls them."""


def alike(building: FramedBuilding) -> tuple[Alike, ...]:
    """Groups of the rafters that stand on plates, in the order of the frame."""
    groups: dict[tuple[object, ...], list[Member]] = {}
    for member in building.members:
        cut = member.rafter
        if cut is not None and cut.stands_on_plate:
            shape = (round(v, 4) for v in (cut.slope, cut.seat, cut.tail_depth_cut, cut.tail))
            groups.setdefault((member.profile.name, *shape), []).append(member)
    return tuple(_group(members) for members in groups.values())


def _group(members: Sequence[Member]) -> Alike:
    longest = max(members, key=lambda m: m.length_in)
    assert longest.rafter is not None  # see alike
    marks = tuple(dict.fromkeys(m.mark for m in members))
    return Alike(longest, longest.rafter, longest.name if len(marks) == 1 else f"rafters {marks_text(marks)}")


def marks_text(marks: Iterable[str]) -> str:
    """Marks in few words: ``E1, J1 to J13, R1``."""
    numbers: dict[str, list[int]] = {}
    for mark in marks:
        letter = mark.rstrip("0123456789")
        numbers.setdefault(letter, []).append(int(mark[len(letter) :]))
    return ", ".join(part for letter, found in sorted(numbers.items()) for part in _runs(letter, sorted(found)))


def _runs(letter: str, numbers: Sequence[int]) -> Iterator[str]:
    start = 0
    for k, number in enumerate(numbers):
        if k + 1 < len(numbers) and numbers[k + 1] == number + 1:
            continue
        first = numbers[start]
        yield f"{letter}{number}" if first == number else f"{letter}{first} to {letter}{number}"
        start = k + 1


def notch_depth(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Depth of the bird's mouth, square to the edge."""
    limit = rule("notch.end-depth")
    for group in alike(building):
        most = limit.value * group.cut.depth
        yield verdict(
            limit,
            passed=group.cut.heel_square <= most + NEAR,
            building=building.name,
            where=group.where,
            found=f"a notch {format_length(group.cut.heel_square, denominator=32)} deep",
            limit=format_length(most, denominator=32),
            place=group.member.written,
            advice="shorten the seat or take a deeper rafter",
        )


def tail(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """What is left of a tail ripped shallower than its rafter, and its length along the slope."""
    left, reach = rule("notch.tail-depth"), rule("notch.tail-length")
    for group in alike(building):
        cut = group.cut
        if cut.tail_depth_cut >= cut.depth or not cut.tail:
            continue
        yield verdict(
            left,
            passed=cut.tail_depth_cut >= left.value - NEAR,
            building=building.name,
            where=group.where,
            found=f"a tail {format_length(cut.tail_depth_cut)} deep",
            limit=format_length(left.value),
            place=group.member.written,
            advice="rip the tail less",
        )
        yield verdict(
            reach,
            passed=cut.tail <= reach.value + NEAR,
            building=building.name,
            where=group.where,
            found=f"a ripped tail {format_length(cut.tail)} long",
            limit=format_length(reach.value),
            place=group.member.written,
            advice="shorten the overhang or leave the tail its full depth",
        )


def seat_bearing(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Least bearing on the plate, as built: level, along the rafter, of hips and valleys as of all others."""
    limit = rule("bearing.rafter")
    found = {
        joint.upper: joint.bearing_in
        for joint in building.joints
        if joint.kind == "bears" and building.members[joint.lower].role.name in BEARERS
    }
    bearing: dict[str, float] = {}
    one: dict[str, Member] = {}
    for index, member in enumerate(building.members):
        if member.rafter is not None and member.rafter.stands_on_plate:
            bearing[member.mark] = min(found.get(index, 0.0), bearing.get(member.mark, float("inf")))
            one.setdefault(member.mark, member)
    for least in sorted(set(bearing.values())):
        marks = [mark for mark, value in bearing.items() if value == least]
        mends = dict.fromkeys(_longer_seat(one[mark], limit.value) for mark in marks)
        yield verdict(
            limit,
            passed=least >= limit.value - NEAR,
            building=building.name,
            where=f"rafters {marks_text(marks)}",
            found=f"a bearing of {format_length(least)} on the plate",
            limit=format_length(limit.value),
            advice="; ".join(mends),
        )


def _longer_seat(member: Member, least: float) -> str:
    """How a rafter gets so long a bearing [in]: hips and valleys have what their depth leaves them."""
    cut, kind = member.rafter, member.role.name
    if cut is None or kind not in ("hip", "valley"):
        return "give the rafters a longer seat (rafters: seat)"
    deep = cut.depth + max(0.0, least - cut.seat) * cut.slope / hypot(1, cut.slope)
    return (
        f"write {kind}s: with a size at least {format_length(ceil(deep * 16) / 16)} deep, or give the rafters a longer"
        " seat (rafters: seat)"
    )


def hip_depth(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Plumb cut of hips and valleys against that of the rafters that end on them."""
    limit = rule("hip.depth")
    cuts = [m.rafter.plumb_depth for m in building.members if m.rafter is not None and m.role.name in JACKS]
    for group in alike(building):
        if not cuts or group.member.role.name not in ("hip", "valley"):
            continue
        yield verdict(
            limit,
            passed=group.cut.plumb_depth >= limit.value * max(cuts) - NEAR,
            building=building.name,
            where=group.where,
            found=f"a plumb cut of {format_length(group.cut.plumb_depth)}",
            limit=format_length(limit.value * max(cuts)),
            place=group.member.written,
            advice="take a deeper one",
        )


def lateral_support(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Depth to thickness of the rafters, nominal: whether they want blocking at the plate."""
    limit = rule("lateral.bearing-ratio")
    blocked = any(m.role.name == "eave-block" for m in building.members)
    for size in dict.fromkeys(group.member.profile for group in alike(building)):
        if size.nominal is None:
            continue
        ratio = size.nominal[1] / size.nominal[0]
        yield verdict(
            limit,
            passed=ratio <= limit.value or blocked,
            building=building.name,
            where=f"{size.name} rafters",
            found=f"{ratio:g} to 1" + (", blocked over the plate" if blocked else ""),
            limit=f"{limit.value:g} to 1 unblocked",
            advice="put blocks over the plate",
        )
