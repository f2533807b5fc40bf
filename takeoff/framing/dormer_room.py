"""Whether a dormer has room on its slope: its roof ends on it, clear of hips, valleys, ridge, rakes and openings."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.findings import PlanError
from takeoff.framing.dormer import Spot, dormer_openings, spots_on
from takeoff.framing.laid_ends import LAID
from takeoff.framing.roof_members import refused
from takeoff.framing.slope_openings import DORMER_VALLEY
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.framing.minor import Host
    from takeoff.framing.roof_plan import RoofPlan

WHAT = {
    "ridge": ("the main ridge", "make it narrower or lower, of less pitch, or bring its front further out"),
    "high": ("the main roof's high end", "make it narrower or lower, of less pitch, or bring its front further out"),
    "ledger": ("the main roof's ledger", "make it narrower or lower, of less pitch, or bring its front further out"),
    "hip": ("the hip", "move it along the eave away from the hip, or make it smaller"),
    "valley": ("the valley", "move it along the eave away from the valley, or make it smaller"),
    "rake": ("the rake", "move it along the eave away from the rake, or make it narrower"),
    "eave": ("the eave", "set its front further in"),
}


def refuse_roof_beyond(spot: Spot, laid: RoofPlan, host: Host) -> None:
    """Refuse a dormer whose roof reaches past the slope that it is laid on, or over an opening in it.

    Raises:
        PlanError: it does; says past what, by how much, and how to mend it.
    """
    from shapely import box

    faults = sorted(_beyond(spot, laid), reverse=True)
    if faults:
        by, role = faults[0]
        what, mend = WHAT.get(role, (f"the {role}", "make it smaller"))
        message = f"the roof of the {spot.label} runs {format_length(by)} past {what} of the {spot.slope.name}; {mend}"
        raise _refused(spot, host, message)
    covered = _covered(spot, laid)
    of_dormers = dormer_openings(spot.slope, host.building, host.written)
    for opening in (each for each in spot.slope.openings if each not in of_dormers):
        if box(opening.framed_u[0], opening.v[0], opening.framed_u[1], opening.v[1]).intersects(covered):
            message = f"the {spot.label} stands over the {opening.what}; move the one or the other along the eave"
            raise _refused(spot, host, message)
    for other in spots_on(spot.slope, host.building):
        if other.path != spot.path and _footing(other).intersects(covered):
            raise _refused(spot, host, f"the {spot.label} runs into the {other.label}; move them apart along the eave")


def _refused(spot: Spot, host: Host, message: str) -> PlanError:
    return refused("frame.dormer", host.written(spot.path), message)


def _corners(spot: Spot, laid: RoofPlan) -> Iterator[tuple[float, float]]:
    """Corners of its roof's laid edges on the main slope, u and v."""
    for slope in laid.slopes:
        for edge in (*slope.outline.edges_with(LAID), *slope.outline.edges_with(DORMER_VALLEY)):
            for corner in (edge.a, edge.b):
                u, v, _ = spot.slope.bench.placement.from_world(slope.bench.placement.to_world((*corner, 0.0)))
                yield u, v


def _beyond(spot: Spot, laid: RoofPlan) -> Iterator[tuple[float, str]]:
    """How far any of them lies past an edge of the slope [in], and the edge's role."""
    for u, v in _corners(spot, laid):
        for edge in spot.slope.outline.edges:
            (ax, ay), (bx, by) = edge.a, edge.b
            length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
            away = ((u - ax) * (by - ay) - (v - ay) * (bx - ax)) / length
            along = ((u - ax) * (bx - ax) + (v - ay) * (by - ay)) / length
            if away > TOLERANCE.length and -away <= along <= length + away:
                yield away, edge.role


def _covered(spot: Spot, laid: RoofPlan) -> Polygon:
    """What its walls and its roof cover of the main slope, u and v."""
    from shapely import MultiPoint

    return MultiPoint([*_footing(spot).exterior.coords, *_corners(spot, laid)]).convex_hull.buffer(0.0)


def _footing(spot: Spot) -> Polygon:
    """What its opening and its walls take of the slope."""
    from shapely import box

    (u0, u1), (low, _) = spot.dormer.across_in, spot.sole_v
    return box(u0, low, u1, spot.v_of(spot.front + spot.reach, 0.0))
