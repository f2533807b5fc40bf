"""Checks of rafters that run over a ridge beam: what they bear on it, and how deep they are notched."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.rules import rule
from takeoff.checks.rafters import NEAR, alike
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.plan.schema import Building


def over_the_beam(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Least bearing on the ridge beam as built, and the second bird's mouth of each slope's rafters."""
    if not plan.roof.over_beam:
        return
    bearing, notch = rule("bearing.rafter"), rule("notch.end-depth")
    seats = {joint.bearing_in for joint in building.joints if building.members[joint.lower].role.name == "ridge-beam"}
    least = min(seats, default=0.0)
    yield verdict(
        bearing,
        passed=least >= bearing.value - NEAR,
        building=building.name,
        where="ridge beam",
        found=f"a bearing of {format_length(least)} on the ridge beam",
        limit=format_length(bearing.value),
        advice="take a thicker beam",
    )
    for group in alike(building):
        most, deep = notch.value * group.member.profile.depth_in, group.cut.beam_heel_square
        yield verdict(
            notch,
            passed=deep <= most + NEAR,
            building=building.name,
            where=f"{group.where}, on the ridge beam",
            found=f"a notch {format_length(deep, denominator=32)} deep",
            limit=format_length(most, denominator=32),
            place=group.member.written,
            advice="shorten the seat on the beam, or take a deeper rafter",
        )
