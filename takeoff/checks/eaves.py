"""Checks of rakes by how they are carried: ladders, pockets, dropped end rafters."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.rules import rule
from takeoff.checks.rafters import NEAR
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.schema import Building


def ladder(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """A ladder hangs on the end rafter, and so carries only a small rake; that of a gable on a hip always does."""
    limit = rule("rake.ladder-overhang")
    for name, out, advice in _ladders(plan):
        rungs = [m for m in building.members if m.role.name == "ladder-block" and ("gablet" in name) == _on_hip(m)]
        if rungs:
            yield verdict(
                limit,
                passed=out <= limit.value + NEAR,
                building=building.name,
                where=name,
                found=f"a rake overhang of {format_length(out)}",
                limit=format_length(limit.value),
                place=rungs[0].written,
                advice=advice,
            )


def _ladders(plan: Building) -> Iterator[tuple[str, float, str]]:
    """What a ladder may carry: its name, how far it stands out [in], and what to do where that is too far."""
    yield "rakes", plan.roof.overhang.rake, "carry it on outlookers, method pocket or dropped"
    for side, gablet in sorted(plan.roof.gablets.items()):
        if gablet.overhang:
            yield f"{side} gablet rake", gablet.overhang, "let it stand out less"


def _on_hip(member: Member) -> bool:
    return member.face.endswith("gablet rake")


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
