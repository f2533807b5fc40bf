"""A framed building taken apart for the checks: the main frame, and each minor roof with its own plan."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from takeoff.findings import Finding
from takeoff.framing.dormers import dormer_plans
from takeoff.framing.porches import porch_plans
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.schema import Building


def parts(building: FramedBuilding, plan: Building) -> Iterator[tuple[str, FramedBuilding, Building]]:
    """The main frame under an empty label, then each minor roof under its own, with the plan that holds for it."""
    minors = (*porch_plans(plan), *dormer_plans(plan))
    labels = [label for label, _ in minors]
    yield "", _only(building, lambda member: not any(_of(member, label) for label in labels)), plan
    for label, minor in minors:
        own = _only(building, lambda member, label=label: _of(member, label))  # type: ignore[misc]
        yield label, replace(own, vent_area_sqin=0.0), minor


def told_under(label: str, finding: Finding) -> Finding:
    """A finding with the label of the minor roof it is about, unless what it is about is named after that already."""
    named = not label or finding.where.startswith(f"{label} ")
    return finding if named else replace(finding, where=f"{label} {finding.where}")


def _of(member: Member, label: str) -> bool:
    return member.face.startswith(f"{label} ")


def _only(building: FramedBuilding, wanted: Callable[[Member], bool]) -> FramedBuilding:
    """Some of the sticks, with the joints between them."""
    kept = [index for index, member in enumerate(building.members) if wanted(member)]
    if len(kept) == len(building.members):
        return building
    place = {index: k for k, index in enumerate(kept)}
    return replace(
        building,
        members=tuple(building.members[index] for index in kept),
        joints=tuple(
            replace(joint, upper=place[joint.upper], lower=place[joint.lower])
            for joint in building.joints
            if joint.upper in place and joint.lower in place
        ),
    )
