"""Checks of openings in slopes: plies and hangers of their headers, hangers of the rafters cut at them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from takeoff.catalog.rules import rule
from takeoff.checks.rafters import NEAR, marks_text
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding, Severity
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.joint import Joint
from takeoff.model.member import Member
from takeoff.plan.schema import Building

AS_HUNG = {True: "on hangers", False: "without hangers"}


@dataclass(frozen=True, slots=True)
class Headers:
    """The headers of one opening: their plies, and the joints at their ends."""

    plies: tuple[Member, ...]
    joints: tuple[Joint, ...]

    @property
    def where(self) -> str:
        """What a finding calls them."""
        return f"roof headers {marks_text(dict.fromkeys(ply.mark for ply in self.plies))}"


def _headers(building: FramedBuilding, plan: Building) -> tuple[tuple[Headers, int], ...]:
    """Headers of each opening, with the plies of one; an opening is known by its place in the plan."""
    found = []
    for index, skylight in enumerate(plan.roof.skylights):
        spot = f".skylights[{index}]"
        indices = [
            i
            for i, member in enumerate(building.members)
            if member.role.name == "roof-header" and member.written.path.endswith(spot)
        ]
        plies = tuple(building.members[i] for i in indices)
        found.append((Headers(plies, tuple(j for j in building.joints if j.upper in indices)), skylight.plies))
    return tuple((headers, plies) for headers, plies in found if headers.plies)


def opening_headers(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Single headers up to a span; nailed ones, without hangers, up to a longer one."""
    single, nailed = rule("opening.single-header"), rule("opening.header-hanger")
    for headers, plies in _headers(building, plan):
        first = headers.plies[0]
        hung = all(joint.kind == "hangs" for joint in headers.joints)
        length = format_length(first.length_in)
        yield verdict(
            single,
            passed=plies > 1 or first.length_in <= single.value + NEAR,
            building=building.name,
            where=headers.where,
            found=f"{'doubled' if plies > 1 else 'single'} headers {length} long",
            limit=format_length(single.value),
            place=first.written,
            advice="double headers and trimmers: write plies: 2",
        )
        yield verdict(
            nailed,
            passed=hung or first.length_in <= nailed.value + NEAR,
            building=building.name,
            where=headers.where,
            found=f"headers {length} long, {AS_HUNG[hung]}",
            limit=format_length(nailed.value),
            place=first.written,
            advice="hang them on the trimmers",
        )


def cut_rafters(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Rafters cut at openings: the longest against what may go without a hanger."""
    limit = rule("opening.tail-rafter")
    cut = [(i, m) for i, m in enumerate(building.members) if m.role.name == "cut-common"]
    if not cut:
        return
    hanging = _on_headers(building, "hangs")
    index, longest = max(cut, key=lambda pair: pair[1].length_in)
    yield verdict(
        limit,
        passed=index in {joint.upper for joint in hanging} or longest.length_in <= limit.value + NEAR,
        building=building.name,
        where=f"cut rafter {longest.mark}",
        found=f"{format_length(longest.length_in)} long, {AS_HUNG[index in {joint.upper for joint in hanging}]}",
        limit=format_length(limit.value),
        place=longest.written,
        advice="hang it on the header",
    )
    yield from _shallow(building, hanging)


def _shallow(building: FramedBuilding, hanging: Sequence[Joint]) -> Iterator[Finding]:
    """Headers that do not catch the whole depth of a rafter that hangs on them."""
    for joint in sorted(hanging, key=lambda joint: joint.bearing_in)[:1]:
        rafter, header = building.members[joint.upper], building.members[joint.lower]
        if rafter.rafter is None:
            continue
        square = rafter.rafter.square_head or rafter.rafter.square_foot
        # Plies of a plumb header step down with the slope, each under the sheathing by its own thickness.
        wanted = rafter.rafter.depth if square else rafter.rafter.plumb_depth
        wanted -= 0.0 if square else header.profile.thickness_in * rafter.rafter.slope
        if joint.bearing_in < wanted - NEAR:
            yield Finding(
                rule="opening.header-depth",
                severity=Severity.WARNING,
                message=f"the header catches {format_length(joint.bearing_in)} of the {format_length(wanted)} that it "
                "could catch of the cut rafters; take a deeper header, or hangers made for it",
                place=header.written,
                building=building.name,
                where=f"roof header {header.mark}",
                found=format_length(joint.bearing_in),
                limit=format_length(wanted),
            )


def _on_headers(building: FramedBuilding, kind: str) -> list[Joint]:
    return [
        joint
        for joint in building.joints
        if joint.kind == kind
        and building.members[joint.lower].role.name == "roof-header"
        and building.members[joint.upper].role.name == "cut-common"
    ]
