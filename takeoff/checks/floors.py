"""Checks of floors: bearing, spans, cantilevers, laps, openings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise, product

from takeoff.catalog.joist_spans import joist_spans_for
from takeoff.catalog.profiles import profile
from takeoff.catalog.rules import rule
from takeoff.checks.rafters import NEAR, marks_text
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding, Severity
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.floors import Floor
from takeoff.plan.schema import Building

JOISTS = ("floor-joist", "trimmer-joist", "tail-joist", "partition-joist")
LEAST_TAIL_IN = 6.0
"""A shorter tail joist can't be nailed or hung at both ends [in]. Common practice, no source."""

TOUCH_IN = 1 / 8
"""Plies nearer than this are one support [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Carried:
    """A joist, and the stretches of it that lie or hang on something, from its start [in]."""

    member: Member
    bears: tuple[tuple[float, float], ...]
    hung: tuple[float, ...]
    """Ends that hang."""

    @property
    def stops(self) -> tuple[tuple[float, float], ...]:
        """All supports in order; a hung end is one without length."""
        return tuple(sorted((*self.bears, *((end, end) for end in self.hung))))

    @property
    def span(self) -> float:
        """The longest clear span [in]."""
        return max((b[0] - a[1] for a, b in pairwise(self.stops)), default=0.0)

    @property
    def reach(self) -> float:
        """How far it reaches past its outermost support [in]."""
        stops = self.stops
        return max(stops[0][0], self.member.length_in - stops[-1][1]) if stops else 0.0


def joist_bearing(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Bearing of the joists, as built; and whether any has but one support."""
    limit = rule("bearing.joist")
    for face, joists in _by_floor(building).items():
        loose = [j.member.mark for j in joists if len(j.stops) < 2]
        if loose:
            yield Finding(
                rule="joist.unsupported",
                severity=Severity.WARNING,
                message=f"joists {marks_text(dict.fromkeys(loose))} have nothing to bear on at one end at least:"
                " move a girder there, or write one",
                place=joists[0].member.written,
                building=building.name,
                where=face,
            )
        bearing = [(b - a, j) for j in joists for a, b in j.bears]
        if not bearing:
            continue
        least, joist = min(bearing, key=lambda pair: pair[0])
        yield verdict(
            limit,
            passed=least >= limit.value - NEAR,
            building=building.name,
            where=face,
            found=f"a bearing of {format_length(least)} at least",
            limit=format_length(limit.value),
            place=joist.member.written,
            advice="take a wider girder, or lap the joists",
        )


def joist_span(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """The longest clear span against the tables, species by species."""
    for face, joists in _by_floor(building).items():
        longest = max(joists, key=lambda j: j.span)
        member, floor = longest.member, _floor(plan, face)
        known = joist_spans_for(member.profile.name, member.grade, floor.joists.spacing)
        found = format_length(longest.span)
        where = f"{face}, {member.name}"
        if not known:
            message = f"a {member.profile.name} spans {found}: no table is known for it here; take its maker's"
            yield Finding(
                rule="joist.span",
                severity=Severity.NOTE,
                message=message,
                place=member.written,
                building=building.name,
                where=where,
            )
            continue
        good = [row.species for row in known if longest.span <= row.clear_span_in + NEAR]
        limit = ", ".join(f"{row.species} {format_length(row.clear_span_in)}" for row in known)
        message = f"a {member.profile.name} spans {found} clear; in the table for 40 and 10 psf at most {limit}"
        if not good:
            message += "; take a deeper joist, a closer spacing or another girder"
        elif len(good) < len(known):
            message += f"; long enough in {' and '.join(good)} only"
        yield Finding(
            rule="joist.span",
            severity=Severity.NOTE if good else Severity.WARNING,
            message=message,
            place=member.written,
            building=building.name,
            section="Table R502.3.1(2), IRC 2018/2021 (recalled, to be looked up)",
            where=where,
            found=found,
            limit=limit,
        )


def joist_cantilever(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """How far joists reach past their last support, against their nominal depth."""
    limit = rule("joist.cantilever")
    for face, joists in _by_floor(building).items():
        farthest = max(joists, key=lambda j: j.reach)
        if farthest.reach <= TOUCH_IN + _SETBACK_IN:
            continue
        size = farthest.member.profile
        reach = farthest.reach + profile(_floor(plan, face).rim_size).thickness_in
        most = limit.value * (size.nominal[1] if size.nominal else size.depth_in)
        yield verdict(
            limit,
            passed=reach <= most + NEAR,
            building=building.name,
            where=f"{face}, {farthest.member.name}",
            found=f"a cantilever of {format_length(reach)}",
            limit=format_length(most),
            place=farthest.member.written,
            advice="shorten it, or have it designed",
        )


_SETBACK_IN = 3.0
"""A girder's width past a joist's end is no cantilever [in]."""


def joist_lap(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Laps over girders."""
    limit = rule("joist.lap")
    laps = [j for j in building.joints if j.kind == "laps" and building.members[j.upper].role.name == "floor-joist"]
    if laps:
        least = min(laps, key=lambda j: j.bearing_in)
        member = building.members[least.upper]
        yield verdict(
            limit,
            passed=least.bearing_in >= limit.value - NEAR,
            building=building.name,
            where=member.face,
            found=f"a lap of {format_length(least.bearing_in)}",
            limit=format_length(limit.value),
            place=member.written,
        )


def short_tails(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Tail joists too short to be nailed or hung at both ends."""
    for face in dict.fromkeys(m.face for m in building.members if m.role.name == "tail-joist"):
        tails = [m for m in building.members if m.face == face and m.role.name == "tail-joist"]
        short = [m for m in tails if m.length_in < LEAST_TAIL_IN - NEAR]
        if not short:
            continue
        least = min(short, key=lambda m: m.length_in)
        yield Finding(
            rule="floor.short-tail",
            severity=Severity.WARNING,
            message=f"the shortest of the tail joists {marks_text(dict.fromkeys(m.mark for m in short))} is"
            f" {format_length(least.length_in)} long, too short to nail or hang at both ends: widen the opening to the"
            " rim or girder beside it, or move it further in",
            place=least.written,
            building=building.name,
            where=face,
            found=format_length(least.length_in),
            limit=format_length(LEAST_TAIL_IN),
        )


def floor_headers(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Long headers are doubled, and so are the trimmers beside them."""
    limit = rule("floor.single-header")
    floors = [floor for floor in (plan.floors.main, *plan.floors.lofts) if floor]
    single = {o.size for floor in floors for o in floor.openings if o.plies == 1}
    for member in building.members:
        if member.role.name != "floor-header" or not any(abs(member.length_in - s) < NEAR for z in single for s in z):
            continue
        yield verdict(
            limit,
            passed=member.length_in <= limit.value + NEAR,
            building=building.name,
            where=f"{member.face}, {member.name}",
            found=f"a single header {format_length(member.length_in)} long",
            limit=format_length(limit.value),
            place=member.written,
            advice="double it and the trimmers",
        )


def _floor(plan: Building, face: str) -> Floor:
    if face == "main floor" and plan.floors.main:
        return plan.floors.main
    return next(loft for loft in plan.floors.lofts if loft.name == face)


def _by_floor(building: FramedBuilding) -> dict[str, list[_Carried]]:
    """Joists of each floor, in the order of the frame."""
    lowers: dict[int, list[tuple[str, int]]] = {}
    for joint in building.joints:
        if joint.kind in ("bears", "hangs") and building.members[joint.upper].role.name in JOISTS:
            lowers.setdefault(joint.upper, []).append((joint.kind, joint.lower))
    floors: dict[str, list[_Carried]] = {}
    for index, member in enumerate(building.members):
        if member.role.name in JOISTS:
            floors.setdefault(member.face, []).append(_carried(building, member, lowers.get(index, [])))
    return floors


def _carried(building: FramedBuilding, member: Member, lowers: list[tuple[str, int]]) -> _Carried:
    bears, hung = [], []
    for kind, index in lowers:
        a, b = _stretch(member, building.members[index])
        if kind == "bears":
            bears.append((max(a, 0.0), min(b, member.length_in)))
        else:
            hung.append(0.0 if b <= member.length_in / 2 else member.length_in)
    return _Carried(member=member, bears=_merged(bears), hung=tuple(sorted(set(hung))))


def _stretch(member: Member, other: Member) -> tuple[float, float]:
    """From where to where along a stick another one lies, over the width of the stick."""
    x0, y0, x1, y1 = other.side.bounds
    half = other.profile.thickness_in / 2
    at = [
        member.placement.from_world(other.placement.to_world(p))[0] for p in product((x0, x1), (y0, y1), (-half, half))
    ]
    return min(at), max(at)


def _merged(parts: list[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """Plies side by side are one support."""
    merged: list[tuple[float, float]] = []
    for a, b in sorted(parts):
        if merged and a <= merged[-1][1] + TOUCH_IN:
            merged[-1] = (merged[-1][0], max(b, merged[-1][1]))
        else:
            merged.append((a, b))
    return tuple(merged)
