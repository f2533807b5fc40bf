"""Heights of a loft: its ledgers, joists, beams and deck over the floor, as marks of one upright tape."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from takeoff.findings import Finding, Severity
from takeoff.framing.loft_plates import deck_top, underside_over
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.model.layout import LayoutLine, LayoutMark
from takeoff.plan.floors import Loft

if TYPE_CHECKING:
    from takeoff.framing.floor_plan import FloorPlan
    from takeoff.model.face import Face
    from takeoff.model.member import Member
    from takeoff.plan.schema import Building

ROWS = {
    "loft-ledger": "ledger",
    "loft-beam": "beam",
    "floor-joist": "joists",
    "rim-board": "rim",
}
"""Sticks of a loft that heights are told of, and what a builder calls them."""

STEP_IN = 6.0
"""Headroom is measured at places so far apart [in]."""

STANDING_IN = 60.0
"""Headroom under a slope that counts as floor [in]. Common practice, no source."""


def height_line(plan: FloorPlan, sticks: Sequence[Member]) -> Iterator[LayoutLine]:
    """One line with the heights of a loft, pulled up from the floor that the walls stand on."""
    if not isinstance(plan.floor, Loft):
        return
    marks = {
        (round(height, 6), symbol, f"{edge} of {word}")
        for role, word in ROWS.items()
        for stick in sticks
        if stick.role.name == role
        for height, symbol, edge in zip(_heights(stick), ("_", "^"), ("bottom", "top"), strict=True)
    }
    deck = (round(deck_top(plan), 6), "^", "top of deck")
    yield LayoutLine(
        name=f"{plan.name}, heights",
        start="top of the floor that the walls stand on, straight up",
        length_in=deck_top(plan),
        marks=tuple(LayoutMark(*mark) for mark in sorted({*marks, deck})),
        load=1,
    )


def _heights(stick: Member) -> tuple[float, float]:
    """Lower and upper edge of a level stick on edge [in]."""
    low = stick.placement.origin[2]
    return low, low + stick.profile.depth_in


def headroom(
    building: Building, plan: FloorPlan, sticks: Sequence[Member], standing: Sequence[Member], roof: Sequence[Face]
) -> Iterator[Finding]:
    """How high it is under a loft, and over it under the rafters and what hangs between them."""
    if not isinstance(plan.floor, Loft):
        return
    joists = min((_heights(s)[0] for s in sticks if s.role.name == "floor-joist"), default=None)
    beams = min((_heights(s)[0] for s in sticks if s.role.name == "loft-beam"), default=None)
    under = [f"{format_length(joists)} under the joists"] if joists is not None else []
    if beams is not None and joists is not None and beams < joists - TOLERANCE.length:
        under.append(f"{format_length(beams)} under the beam")
    over = tuple(_over(building, plan, standing, roof))
    message = f"headroom: {', '.join(under)}" if under else "headroom"
    if over:
        low, high = min(over), max(over)
        share = sum(height >= STANDING_IN for height in over) * STEP_IN**2 / 144
        message += (
            f"; over the deck {format_length(low)} under the rafters where they are lowest and {format_length(high)}"
            f" where it is highest, about {share:.0f} sq ft of it {format_length(STANDING_IN)} high or more"
        )
    yield Finding(
        rule="frame.loft-headroom",
        severity=Severity.NOTE,
        message=message,
        place=plan.bench.written,
        building=building.name,
        where=plan.name,
    )


def _over(building: Building, plan: FloorPlan, standing: Sequence[Member], roof: Sequence[Face]) -> Iterator[float]:
    """Clear heights over the deck, place by place [in]."""
    from shapely import Point, Polygon

    shape = Polygon([edge.a for edge in plan.deck_edges])
    u0, v0, u1, v1 = shape.bounds
    for i in range(int((u1 - u0) / STEP_IN)):
        for k in range(int((v1 - v0) / STEP_IN) + 1):
            u, v = u0 + (i + 0.5) * STEP_IN, min(v0 + k * STEP_IN, v1)
            if not shape.covers(Point(u, v)):
                continue
            x, y, _ = plan.bench.placement.to_world((u, v, 0.0))
            under = underside_over(building, (x, y), roof)
            if under is not None:
                yield max(0.0, min(under, _hanging((x, y), standing)) - deck_top(plan))


def _hanging(spot: tuple[float, float], standing: Sequence[Member]) -> float:
    """Lower edge of a level ridge beam or board over a spot [in]."""
    low = float("inf")
    for member in standing:
        if member.role.name in ("ridge-beam", "ridge-board"):
            x, _, z = member.placement.from_world((*spot, 0.0))
            if 0 <= x <= member.length_in and abs(z) <= member.profile.thickness_in / 2 + STEP_IN / 2:
                low = min(low, member.placement.origin[2])
    return low
