"""Rules of lofts against what is in the walls they lie at: windows and doors."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.floors import Loft
from takeoff.plan.footprint import Side, footprint, side_names
from takeoff.plan.loft_shape import wanted_of
from takeoff.plan.schema import Building

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from takeoff.plan.openings import Opening

INTO_IN = 1.0
"""What reaches so far in from the studs' inside faces lies at the wall [in]."""


def lofts_clear_of_openings(building: Building) -> Iterator[Flaw]:
    """No ledger or joist of a loft runs across a window or a door."""
    from shapely import Polygon

    ground = footprint(building)
    for index, loft in enumerate(building.floors.lofts):
        if loft.side is not None and loft.side not in side_names(building):
            continue
        shape = Polygon(wanted_of(ground, loft))
        if not shape.is_valid:
            continue
        low, high = _heights(loft)
        for opening in building.walls.openings:
            if opening.side not in side_names(building):
                continue
            side = ground.side(opening.side)
            along = _shared(shape, side, profile(building.walls.for_side(side.name).studs).depth_in, opening)
            sill, head = _unit(opening)
            up = min(high, head) - max(low, sill)
            if along > TOLERANCE.mark and up > TOLERANCE.mark:
                message = (
                    f"{loft.name!r} runs {format_length(along)} across the {opening.kind} {opening.call} of the"
                    f" {side.name} wall: its joists and ledgers there reach from {format_length(low)} to"
                    f" {format_length(high)}, the unit from {format_length(sill)} to"
                    f" {format_length(head)}, {format_length(up)} of height in common"
                )
                yield Flaw(rule="plan.floor", loc=("floors", "lofts", index), message=message)


def _heights(loft: Loft) -> tuple[float, float]:
    """From where to where a loft stands at a wall [in]: rim or joists, and a ledger under them where they bear."""
    top = loft.height - sheet_product(loft.deck).thickness_in
    deep = max(profile(loft.rim_size).depth_in, profile(loft.joists.size).depth_in)
    return top - deep, top


def _unit(opening: Opening) -> tuple[float, float]:
    """From where to where a window or door stands in its rough opening, whose allowance is above it [in]."""
    return opening.sill_in, opening.head_in - (opening.rough_height_in - opening.size.height)


def _shared(shape: BaseGeometry, side: Side, depth: float, opening: Opening) -> float:
    """How much of an opening's width a loft lies at [in]."""
    from shapely import Polygon

    (x, y), (ux, uy), (nx, ny) = side.start, side.direction, side.normal

    def on(along: float, inward: float) -> tuple[float, float]:
        return (x + ux * along - nx * inward, y + uy * along - ny * inward)

    ends, reach = (opening.left_in, opening.right_in), (depth, depth + INTO_IN)
    strip = Polygon([on(ends[0], reach[0]), on(ends[1], reach[0]), on(ends[1], reach[1]), on(ends[0], reach[1])])
    return float(strip.intersection(shape).area / INTO_IN)
