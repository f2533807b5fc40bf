"""Checks of walls: tall studs."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.rules import rule
from takeoff.checks.rafters import NEAR
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.plan.schema import Building

TALL_ROLES = ("stud", "king-stud", "gable-stud", "post")


def tall_studs(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """The tallest upright of each wall against the height the tables end at."""
    limit = rule("stud.bearing-height")
    for face in sorted({m.face for m in building.members if m.role.name in TALL_ROLES}):
        standing = [m for m in building.members if m.face == face and m.role.name in TALL_ROLES]
        tallest = max(standing, key=lambda m: m.length_in)
        yield verdict(
            limit,
            passed=tallest.length_in <= limit.value + NEAR,
            building=building.name,
            where=f"{face} wall, {tallest.name}",
            found=f"a {tallest.profile.name} {format_length(tallest.length_in)} long",
            limit=format_length(limit.value),
            place=tallest.written,
            advice="tall walls need a licensed design",
        )
