"""The groups of a plan: what its take-off would have the cutter cut."""

from __future__ import annotations

from pathlib import Path

from takeoff.catalog.price_reader import builtin_prices
from takeoff.cutting.exact.instance import Instance, coded
from takeoff.cutting.groups import groups_of
from takeoff.cutting.offers import offers_for
from takeoff.cutting.pieces import pieces_of
from takeoff.cutting.problem import LumberProblem
from takeoff.findings import Place
from takeoff.framing.frame import frame
from takeoff.model.marks import mark_buildings
from takeoff.plan.read import read_plan


def instances_of(path: Path) -> tuple[Instance, ...]:
    """An instance for each load, profile and grade of a plan, at the built-in prices.

    Raises:
        PlanError: the plan has errors.
    """
    written, _ = read_plan(path)
    framed = [frame(building, lambda at: Place(path=at))[0] for building in written.plan.buildings]
    pieces = pieces_of(mark_buildings(framed))
    problem = LumberProblem(
        pieces=pieces, offers=offers_for(pieces, builtin_prices()), kerf_in=written.plan.settings.kerf
    )
    return tuple(coded(group).instance for group in groups_of(problem) if group.demands)
