"""Lofts that lie on the plates of walls, under the rafters that stand there: beside them, clipped along the roof."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil, hypot
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.findings import Finding, PlanError, Severity
from takeoff.framing.floor_joints import JOISTS
from takeoff.framing.joints import PLATES
from takeoff.geometry.plumb import plumb_onto
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import Vec, dot
from takeoff.measure import format_length

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

    from takeoff.framing.floor_plan import FloorPlan
    from takeoff.geometry.outline import Edge
    from takeoff.model.face import Face
    from takeoff.model.member import Member
    from takeoff.plan.schema import Building

LEAST_END_IN = 1.5
"""A joist clipped lower than this at its end over the plate is split by its nails [in]. Common practice, no source."""

NEAR_EDGE_IN = 36.0
"""A rafter that starts so near the edge of a loft stands on its plates [in]: overhangs reckoned in."""

ROUND_IN = 0.5
"""The edge of a deck under rafters is set back by halves of an inch [in]."""

FAR_IN = 1e4


@dataclass(frozen=True, slots=True, kw_only=True)
class _Over:
    """The roof over an edge of a loft, across it."""

    rise: float
    """Rise of the rafters' undersides for an inch inward."""
    underside: float
    """Their height at the edge, over the deck of the loft [in]."""


def on_plates(building: Building, plan: FloorPlan, standing: Sequence[Member], roof: Sequence[Face]) -> FloorPlan:
    """A loft with what stands on the plates that its joists lie on; one that lies on none is given back as it is.

    Args:
        building: as the plan writes it.
        plan: of the loft.
        standing: the building's sticks without those of its floors.
        roof: faces of its main slopes.

    Raises:
        PlanError: walls whose plates are elsewhere, or on which a gable stands.
    """
    edges = [(edge, side) for edge, side in zip(plan.edges, plan.sides, strict=True) if edge.role == "plate"]
    if not edges:
        return plan
    found = [finding for _, side in edges for finding in _plates_elsewhere(building, plan, side, standing)]
    if found:
        raise PlanError(found)
    return replace(
        plan,
        rafters=tuple(sorted(set(_rafters(plan, [edge for edge, _ in edges], standing)))),
        deck_back=tuple(_back(building, plan, edge, roof) if edge.role == "plate" else 0.0 for edge in plan.edges),
    )


def _plates_elsewhere(building: Building, plan: FloorPlan, side: str, standing: Sequence[Member]) -> Iterator[Finding]:
    level = plan.bench.placement.origin[2] - plan.joist.depth_in
    plates = [m for m in standing if m.face == side and m.role.name in PLATES and abs(m.placement.x[2]) < 0.01]
    top = max((m.placement.origin[2] + m.profile.thickness_in / 2 for m in plates), default=0.0)
    said = f"joists of {plan.name!r} can't lie on the {side} wall"
    message = ""
    if building.roof.is_gable(side):
        message = f"{said}: its gable stands on its plates, or its studs run on; span the other way, or let them hang"
    elif abs(top - level) > TOLERANCE.mark:
        message = (
            f"{said}: their undersides are at {format_length(level)}, its plates at {format_length(top)}, "
            f"{format_length(abs(top - level))} {'over' if top > level else 'under'} them;"
            f" write height: {format_length(deck_top(plan) + top - level)}"
        )
    if message:
        yield _error(building, plan, message)


def _rafters(plan: FloorPlan, edges: Sequence[Edge], standing: Sequence[Member]) -> Iterator[tuple[float, float]]:
    """Rafters along the joists whose feet are near one of some edges: middles and half thicknesses."""
    axes = plan.bench.placement
    for member in standing:
        if member.rafter is None or abs(dot(member.placement.z, axes.x)) < 1 - TOLERANCE.length:
            continue
        u, _, _ = axes.from_world(member.placement.origin)
        feet = [axes.from_world(spot)[1] for spot in member.centre_line]
        for edge in edges:
            low, high = sorted((edge.a[0], edge.b[0]))
            if low <= u <= high and min(abs(v - edge.v_at(u)) for v in feet) < NEAR_EDGE_IN:
                yield round(u, 6), member.profile.thickness_in / 2


def _back(building: Building, plan: FloorPlan, edge: Edge, roof: Sequence[Face]) -> float:
    """How far behind an edge the undersides of the rafters are over the deck [in]."""
    over = _over(building, plan, edge, roof)
    if over is None or over.rise < TOLERANCE.length:
        return 0.0
    return max(0.0, ceil((-over.underside / over.rise - TOLERANCE.length) / ROUND_IN) * ROUND_IN)


def _over(building: Building, plan: FloorPlan, edge: Edge, roof: Sequence[Face]) -> _Over | None:
    middle = ((edge.a[0] + edge.b[0]) / 2, (edge.a[1] + edge.b[1]) / 2)
    way = 1.0 if edge.b[0] > edge.a[0] else -1.0
    heights = []
    for step in (0.0, 12.0):
        x, y, _ = plan.bench.placement.to_world((middle[0], middle[1] + way * step, 0.0))
        heights.append(underside_over(building, (x, y), roof))
    first, second = heights
    if first is None or second is None:
        return None
    return _Over(rise=(second - first) / 12.0, underside=first - deck_top(plan))


def deck_top(plan: FloorPlan) -> float:
    """Top of a floor's deck over the main floor's [in]."""
    return plan.bench.placement.origin[2] + sheet_product(plan.floor.deck).thickness_in


def underside_over(building: Building, spot: tuple[float, float], roof: Sequence[Face]) -> float | None:
    """Height of the lowest rafters' underside over a spot of the plan [in]; None where no slope is over it."""
    depth = profile(building.roof.rafters.size).depth_in
    found = [_top(face, spot) - depth / face.placement.z[2] for face in roof if _covers(face, spot)]
    return min(found, default=None)


def _top(face: Face, spot: tuple[float, float]) -> float:
    """Height of a slope's plane over a spot [in]."""
    ((u, v),) = plumb_onto(face.placement, [spot])
    return face.placement.to_world((u, v, 0.0))[2]


def _covers(face: Face, spot: tuple[float, float]) -> bool:
    from shapely import Point, Polygon

    ((u, v),) = plumb_onto(face.placement, [spot])
    return bool(Polygon([edge.a for edge in face.outline.edges]).distance(Point(u, v)) < TOLERANCE.mark)


def clipped(
    building: Building, plan: FloorPlan, sticks: Sequence[Member], roof: Sequence[Face]
) -> tuple[tuple[Member, ...], tuple[Finding, ...]]:
    """A loft's sticks, the joists that lie on plates clipped along the roof over them; and how.

    Raises:
        PlanError: the roof leaves too little of their ends, or a joist stands in a rafter.
    """
    from shapely import Polygon

    if not any(plan.reaches):
        return tuple(sticks), ()
    made: list[Member] = []
    clips: list[tuple[float, float]] = []
    for stick in sticks:
        if stick.role.name not in JOISTS:
            made.append(stick)
            continue
        _refuse_in_a_rafter(building, plan, stick)
        side = _under(stick, roof)
        if not isinstance(side, Polygon) or side.is_empty or side.bounds[0] > TOLERANCE.mark:
            raise PlanError([_error(building, plan, f"{stick.name} of {plan.name!r} has no room under the roof")])
        made.append(replace(stick, side=side))
        clips += _clips(side, stick.profile.depth_in)
    if not clips:
        return tuple(made), ()
    low, back = min(height for height, _ in clips), max(back for _, back in clips)
    if low < LEAST_END_IN:
        message = (
            f"the roof leaves {format_length(low)} of the ends of the joists of {plan.name!r} over the plates,"
            f" expected {format_length(LEAST_END_IN)} at least; take deeper rafters, or let the joists hang"
        )
        raise PlanError([_error(building, plan, message)])
    message = (
        f"the joists' ends over the plates are clipped along the roof: {format_length(low)} high at the end, the clip"
        f" running {format_length(back)} back along the top"
    )
    return tuple(made), (_say(building, plan, Severity.NOTE, message),)


def _under(stick: Member, roof: Sequence[Face]) -> BaseGeometry:
    """What is left of a level stick's side under the slopes over its ends."""
    x0, _, x1, _ = stick.side.bounds
    side: BaseGeometry = stick.side
    for end in (x0, x1):
        x, y, _ = stick.placement.to_world((end, 0.0, 0.0))
        for face in roof:
            if _covers(face, (x, y)):
                side = side.intersection(_below(stick, face))
    return side


def _below(stick: Member, face: Face) -> Polygon:
    """The part under a slope of the plane that a stick's side lies in."""
    from shapely import Polygon

    normal, at = face.placement.z, stick.placement
    away: Vec = tuple(a - b for a, b in zip(face.placement.origin, at.origin, strict=True))  # type: ignore[assignment]
    half = stick.profile.thickness_in / 2
    a, b, c = dot(normal, at.x), dot(normal, at.y), dot(normal, away) - half * abs(dot(normal, at.z))
    right, left = (c - a * FAR_IN) / b, (c + a * FAR_IN) / b
    return Polygon([(-FAR_IN, -FAR_IN), (FAR_IN, -FAR_IN), (FAR_IN, right), (-FAR_IN, left)])


def _clips(side: Polygon, depth: float) -> Iterator[tuple[float, float]]:
    """Height left at each clipped end, and how far back along the top the clip runs [in]."""
    x0, _, x1, _ = side.bounds
    corners = list(side.exterior.coords)
    tops = [x for x, y in corners if y > depth - TOLERANCE.length]
    for end, top in ((x0, min(tops, default=x1)), (x1, max(tops, default=x0))):
        if abs(top - end) > TOLERANCE.mark:
            yield max(y for x, y in corners if abs(x - end) < TOLERANCE.length), abs(top - end)


def _refuse_in_a_rafter(building: Building, plan: FloorPlan, stick: Member) -> None:
    u, _, _ = plan.bench.placement.from_world(stick.placement.origin)
    for at, half in plan.rafters:
        into = half + stick.profile.thickness_in / 2 - abs(at - u)
        if into > TOLERANCE.mark:
            x, y, _ = plan.bench.placement.to_world((at, 0.0, 0.0))
            across = abs(plan.bench.placement.x[1]) > hypot(0.5, 0.5)
            where = f"y {format_length(y)}" if across else f"x {format_length(x)}"
            message = (
                f"{stick.name} of {plan.name!r} stands {format_length(into)} in the rafter at {where}, which stands on"
                " the same plates; move the opening or the line that it is doubled on by as much"
            )
            raise PlanError([_error(building, plan, message)])


def _error(building: Building, plan: FloorPlan, message: str) -> Finding:
    return _say(building, plan, Severity.ERROR, message)


def _say(building: Building, plan: FloorPlan, severity: Severity, message: str) -> Finding:
    place = plan.bench.written
    return Finding(
        rule="frame.loft", severity=severity, message=message, place=place, building=building.name, where=plan.name
    )
