"""What is heavier than the truck or the lift takes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from math import ceil

from takeoff.catalog.roles import load_words
from takeoff.findings import Finding, Severity
from takeoff.model.building import FramedBuilding
from takeoff.model.order import OrderLine
from takeoff.order.weights import member_weight_lb


def trips(weight_lb: float, truck_lb: float) -> int:
    """Trips that a truck makes for a load at the least."""
    return max(1, ceil(weight_lb / truck_lb))


def weight_findings(
    lines: Iterable[OrderLine],
    buildings: Iterable[FramedBuilding],
    *,
    species: str,
    truck_lb: float | None,
    lift_lb: float | None,
) -> tuple[Finding, ...]:
    """Loads heavier than the truck takes at once, and sticks heavier than the lift does."""
    return (*_loads(lines, truck_lb), *_sticks(buildings, species, lift_lb))


def _loads(lines: Iterable[OrderLine], truck_lb: float | None) -> Iterator[Finding]:
    if truck_lb is None:
        return
    for load, of_load in groupby(lines, key=lambda line: line.load):
        weight = sum(line.weight_lb for line in of_load)
        if weight > truck_lb:
            yield Finding(
                rule="order.truck",
                severity=Severity.WARNING,
                message=f"{load_words(load)}: {weight:,.0f} lb in all, the truck takes {truck_lb:,.0f} lb:"
                f" {trips(weight, truck_lb)} trips at the least",
                where=f"load {load}",
                found=f"{weight:,.0f} lb",
                limit=f"{truck_lb:,.0f} lb",
            )


def _sticks(buildings: Iterable[FramedBuilding], species: str, lift_lb: float | None) -> Iterator[Finding]:
    if lift_lb is None:
        return
    for building in buildings:
        for mark, member in {member.mark: member for member in building.members}.items():
            weight = member_weight_lb(member, species)
            if weight > lift_lb:
                yield Finding(
                    rule="order.lift",
                    severity=Severity.WARNING,
                    message=f"{member.profile.name} {member.grade} weighs {weight:,.0f} lb, the lift takes"
                    f" {lift_lb:,.0f} lb: a larger machine, or more than one",
                    building=building.name,
                    where=member.name if mark else member.role.words,
                    found=f"{weight:,.0f} lb",
                    limit=f"{lift_lb:,.0f} lb",
                    place=member.written,
                )
