"""Checks of rakes by how they are carried: ladders, pockets, dropped end rafters."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.rules import rule
from takeoff.checks.rafters import NEAR
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.plan.schema import Building


def ladder(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """A ladder hangs on the end rafter, and so carries only a small rake."""
    rungs = [m for m in building.members if m.role.name == "ladder-block"]
    if not rungs:
        return
    limit, rake = rule("rake.ladder-overhang"), plan.roof.overhang.rake
    yield verdict(
        limit,
        passed=rake <= limit.value + NEAR,
        building=building.name,
        where="rakes",
        found=f"a rake overhang of {format_length(rake)}",
        limit=format_length(limit.value),
        place=rungs[0].written,
        advice="carry it on outlookers, method pocket or dropped",
    )


def outlooker_pockets(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """How deep outlookers are let into the end rafters, or what they leave of dropped ones."""
    ends = {m.mark: m for m in building.members if m.role.name == "end-rafter" and m.rafter is not None}
    pocket, left = rule("outlooker.pocket-depth"), rule("end-rafter.depth-left")
    for member in ends.values():
        assert member.rafter is not None  # see ends
        for depth in sorted({p.depth for p in member.rafter.pockets}):
            yield verdict(
                pocket,
                passed=depth <= pocket.value + NEAR,
                building=building.name,
                where=member.name,
                found=f"pockets {format_length(depth)} deep",
                limit=format_length(pocket.value),
                place=member.written,
                advice="take thinner outlookers, or drop the end rafter",
            )
        if plan.roof.outlookers and plan.roof.outlookers.method == "dropped":
            depth = member.rafter.depth - member.rafter.heel_square
            yield verdict(
                left,
                passed=depth >= left.value - NEAR,
                building=building.name,
                where=member.name,
                found=f"{format_length(depth)} left over the seat of a dropped end rafter",
                limit=format_length(left.value),
                place=member.written,
                advice="take shallower outlookers, deeper rafters, or pockets",
            )
