"""Checks of what ties rafters: height, size and spacing of ties, and what their height does to the rafters' spans."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from takeoff.catalog.rules import Rule, rule, rules
from takeoff.checks.rafters import NEAR, alike
from takeoff.checks.verdict import section, verdict
from takeoff.findings import Finding, Severity
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import dot
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.schema import Building

SPAN_FACTOR = "tie.span-factor-"
"""Start of the ids of the span factors; a share of the ridge's height, one over it, follows."""


def ties(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Rafter ties and ceiling joists: in the lower third, deep and close enough; nailed to the rafters."""
    if plan.roof.ridge is None or plan.roof.ridge.kind == "beam":
        return  # a beam carries the rafters: what lies between them is not asked for
    found = _with_role(building, "rafter-tie")
    if found:
        yield from _rafter_ties(building, found, found[0])
    joists = _with_role(building, "ceiling-joist")
    if not joists:
        return
    yield from _in_rows(building, joists, "tie.spacing", "ceiling joists")
    yield _nailing(building, joists, "ceiling joists", "the heel joint")


def _rafter_ties(building: FramedBuilding, ties: Sequence[Member], member: Member) -> Iterator[Finding]:
    where, high, deep = "rafter ties", rule("tie.height"), rule("tie.depth")
    share = _share(building, member)
    yield verdict(
        high,
        passed=share <= high.value + NEAR,
        building=building.name,
        where=where,
        found=f"ties at {share:.0%} of the height",
        limit=f"{high.value:.0%}",
        place=member.written,
        advice="put them lower, or carry the rafters on a ridge beam",
    )
    yield _deep_enough(building, member, deep, where)
    yield from _in_rows(building, ties, "tie.spacing", where)
    yield from _span_factor(building, share, member)
    yield _nailing(building, ties, where, "the laps")


def _deep_enough(building: FramedBuilding, member: Member, deep: Rule, where: str) -> Finding:
    return verdict(
        deep,
        passed=member.profile.depth_in >= deep.value - NEAR,
        building=building.name,
        where=where,
        found=f"a {member.profile.name}",
        limit=format_length(deep.value),
        place=member.written,
    )


def collars(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Collar ties in the upper third, deep and close enough; without any, the straps that a ridge board needs."""
    found = _with_role(building, "collar-tie")
    if not found:
        if plan.roof.ridge and plan.roof.ridge.kind == "board" and plan.roof.shape == "gable":
            yield _straps(building)
        return
    member, where = found[0], "collar ties"
    high, deep = rule("collar.height"), rule("collar.depth")
    share = _share(building, member)
    yield verdict(
        high,
        passed=share >= high.value - NEAR,
        building=building.name,
        where=where,
        found=f"collar ties at {share:.0%} of the height",
        limit=f"{high.value:.0%}",
        place=member.written,
        advice="put them higher, or strap the rafters over the ridge",
    )
    yield _deep_enough(building, member, deep, where)
    yield from _in_rows(building, found, "collar.spacing", where)


def tied(building: FramedBuilding) -> str:
    """What ties the rafters' feet, in words; empty where nothing does."""
    words = {"ceiling-joist": "ceiling joists", "rafter-tie": "rafter ties"}
    return next((text for role, text in words.items() if _with_role(building, role)), "")


def _with_role(building: FramedBuilding, role: str) -> tuple[Member, ...]:
    return tuple(member for member in building.members if member.role.name == role)


def _share(building: FramedBuilding, member: Member) -> float:
    """Height of a tie's lower edge over the ridge's, both above the plate: the lower one, where walls differ."""
    low = member.placement.origin[2]
    heights = []
    for group in alike(building):
        plate = group.member.placement.to_world((*group.cut.to_stick(0.0, 0.0), 0.0))[2]
        heights.append((group.cut.top_at(group.cut.run), low - plate))
    ridge, height = max(heights)
    return height / ridge


def _in_rows(building: FramedBuilding, ties: Sequence[Member], rule_id: str, where: str) -> Iterator[Finding]:
    """The widest gap between rafters that are tied, along the ridge, on centre."""
    limit, mine = rule(rule_id), {index for index, member in enumerate(building.members) if member.role is ties[0].role}
    lapped = {
        round(dot(building.members[joint.lower].placement.origin, building.members[joint.upper].placement.z), 4)
        for joint in building.joints
        if joint.kind == "laps" and joint.upper in mine
    }
    widest = max((b - a for a, b in pairwise(sorted(lapped))), default=0.0)
    if widest:
        yield verdict(
            limit,
            passed=widest <= limit.value + TOLERANCE.mark,
            building=building.name,
            where=where,
            found=f"{where} {format_length(widest)} apart at most",
            limit=format_length(limit.value),
            place=ties[0].written,
            advice="put them closer",
        )


def _span_factor(building: FramedBuilding, share: float, member: Member) -> Iterator[Finding]:
    """The factor of the next height up in the table."""
    table = [known for known in rules() if known.id.startswith(SPAN_FACTOR)]
    factors = [(1 / float(known.id.removeprefix(SPAN_FACTOR)), known) for known in table]
    reached = [(at, known) for at, known in factors if share <= at + NEAR]
    if not reached:
        return
    _, known = min(reached, key=lambda pair: pair[0])
    message = (
        "ties this low leave the rafters their spans in the tables"
        if known.value == 1
        else f"ties at {share:.0%} of the ridge's height: take the rafters' spans in the tables at {known.value:g}"
    )
    yield Finding(
        rule="tie.span-factor",
        severity=Severity.NOTE,
        message=message,
        place=member.written,
        building=building.name,
        section=section(known),
        where="rafter ties",
        found=f"{share:.2f}",
        limit=f"{known.value:g}",
    )


def _nailing(building: FramedBuilding, members: Sequence[Member], where: str, joint: str) -> Finding:
    mine = {index for index, member in enumerate(building.members) if member.role is members[0].role}
    laps = [found.bearing_in for found in building.joints if found.kind == "laps" and found.upper in mine]
    least = f"{format_length(min(laps))} long at least" if laps else "missing"
    return Finding(
        rule="tie.nailing",
        severity=Severity.NOTE,
        message=f"{joint} with the rafters, {least}, carry the roof's thrust: nail them by the code's table for span,"
        " slope and snow",
        place=members[0].written,
        building=building.name,
        section="R802.5.2, Table R802.5.2, IRC 2018/2021 (recalled, to be looked up)",
        where=where,
    )


def _straps(building: FramedBuilding) -> Finding:
    width, apart = rule("collar.strap"), rule("collar.spacing")
    return Finding(
        rule="collar.strap",
        severity=Severity.WARNING,
        message="no collar ties are written: strap opposite rafters over the ridge, with straps"
        f" {format_length(width.value)} wide (20 gage) at most {format_length(apart.value)} apart",
        building=building.name,
        section=section(width),
        where="ridge board",
    )
