"""Checks of purlins under rafters and of the struts that carry them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import asin, degrees

from takeoff.catalog.profiles import profile
from takeoff.catalog.rules import rule
from takeoff.checks.rafters import NEAR
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import dot
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.schema import Building


def purlins(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """A purlin as deep as the rafters; struts close enough, short enough, steep enough."""
    faces = dict.fromkeys(m.face for m in building.members if m.role.name == "purlin")
    for face in faces:
        purlin = next(m for m in building.members if m.face == face and m.role.name == "purlin")
        struts = [m for m in building.members if m.face == face and m.role.name == "strut"]
        rafter, deep = profile(plan.roof.rafters.size), rule("purlin.depth")
        yield verdict(
            deep,
            passed=purlin.profile.depth_in >= deep.value * rafter.depth_in - NEAR,
            building=building.name,
            where=face,
            found=f"a {purlin.profile.name} under {rafter.name} rafters",
            limit=f"a {rafter.name}",
            place=purlin.written,
            advice="take a deeper purlin",
        )
        yield from _struts(building, face, purlin, struts)


def _struts(building: FramedBuilding, face: str, purlin: Member, struts: Sequence[Member]) -> Iterator[Finding]:
    spots = sorted(dot(strut.placement.origin, purlin.placement.x) for strut in struts)
    apart = max((b - a for a, b in pairwise(spots)), default=0.0)
    longest = max((strut.length_in for strut in struts), default=0.0)
    steep = min((degrees(asin(strut.placement.x[2])) for strut in struts), default=90.0)
    close, short, least = (rule(f"purlin.strut-{what}") for what in ("spacing", "length", "angle"))
    cases = (
        (close, apart <= close.value + TOLERANCE.mark, f"struts {format_length(apart)} apart", "put them closer"),
        (short, longest <= short.value + NEAR, f"struts {format_length(longest)} long", "brace them at mid-length"),
    )
    for limit, passed, found, advice in cases:
        yield verdict(
            limit,
            passed=passed,
            building=building.name,
            where=face,
            found=found,
            limit=format_length(limit.value),
            place=purlin.written,
            advice=advice,
        )
    yield verdict(
        least,
        passed=steep >= least.value - NEAR,
        building=building.name,
        where=face,
        found=f"struts at {steep:.1f} degrees",
        limit=f"{least.value:g} degrees",
        place=purlin.written,
        advice="stand them on a wall nearer to the purlin",
    )
