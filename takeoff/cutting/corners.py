"""Which walls run through at corners: of two alike, those with which the boards of the plates cost less.

At a corner of an eave wall and a gable the eave wall runs through always, since the end rafter stands on its plates. A
corner of two walls that both carry rafters, as of a hip roof, may be built either way.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.cutting.exact.effort import ESTIMATE
from takeoff.cutting.exact.solve import solve_with
from takeoff.cutting.offers import offers_for
from takeoff.cutting.pieces import pieces_of
from takeoff.cutting.problem import LumberProblem
from takeoff.cutting.stop import MaxRounds
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.frame import frame
from takeoff.model.marks import mark_buildings
from takeoff.plan.footprint import footprint

if TYPE_CHECKING:
    from takeoff.catalog.prices import PriceList
    from takeoff.model.building import FramedBuilding
    from takeoff.plan.schema import Building

Framed = tuple["FramedBuilding", tuple[Finding, ...]]

PLATES = ("bottom-plate", "top-plate", "cap-plate")

LEAST_SAVING_USD = 0.50
"""Less is no reason to build otherwise than usual [$]. Our own limit, no source."""


def framed_at_corners(
    building: Building, written: Callable[[str], Place], prices: PriceList, kerf_in: float
) -> tuple[Building, Framed]:
    """The building with the corners that save plates, framed.

    Where the plan says which walls run through, or no corner may be built either way, it is as the plan has it.

    Args:
        building: as the plan writes it, already verified.
        written: gives the place in the plan of a path within the building.
        prices: of the boards.
        kerf_in: what a saw cut takes [in].

    Raises:
        PlanError: it can't be framed as the plan has it.
    """
    usual = frame(building, written)
    others = _others(building)
    if not others:
        return building, usual
    walls = building.walls.model_copy(update={"through": others})
    turned = building.model_copy(update={"walls": walls})
    try:
        other = frame(turned, written)
    except PlanError:
        return building, usual
    costs = [_cost(framed, prices, kerf_in) for framed, _ in (usual, other)]
    if costs[1] > costs[0] - LEAST_SAVING_USD:
        return building, usual
    names = " and ".join(others)
    message = (
        f"{names} run through at the corners, which saves about ${costs[0] - costs[1]:,.2f} of plates beside the usual"
        " way; walls: through says otherwise"
    )
    told = Finding(
        rule="frame.through", severity=Severity.NOTE, message=message, place=written("walls"), building=building.name
    )
    return turned, (other[0], (*other[1], told))


def _others(building: Building) -> tuple[str, ...]:
    """The sides that butt otherwise at corners that may be built either way; none where there is no such corner."""
    sides, roof = footprint(building).sides, building.roof
    alike = [k for k, side in enumerate(sides) if not roof.is_gable(side.name)]
    either = any((k + 1) % len(sides) in alike for k in alike)
    if building.walls.through or not either:
        return ()
    return tuple(sides[k].name for k in alike if k % 2)


def _cost(framed: FramedBuilding, prices: PriceList, kerf_in: float) -> float:
    """About what the boards of a frame's plates cost [$], joined by rule."""
    plates = tuple(member for member in framed.members if member.role.name in PLATES)
    pieces = pieces_of(mark_buildings([replace(framed, members=plates, joints=(), runs=())]))
    problem = LumberProblem(pieces=pieces, offers=offers_for(pieces, prices, 0.0), kerf_in=kerf_in)
    return solve_with(problem, stop=MaxRounds(), effort=ESTIMATE).cost_usd
