"""A gable roof over a rectangle: two slopes that meet on a ridge, and the rakes of its gable walls."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.findings import Place
from takeoff.framing.seat import Seat, decided_seat
from takeoff.framing.slope import Slope
from takeoff.framing.stick import Bench
from takeoff.framing.wall import RakeLine
from takeoff.geometry.outline import Outline, rectangle
from takeoff.geometry.placement import Placement
from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.vec import UP, add, scale, unit

if TYPE_CHECKING:
    from takeoff.plan.footprint import Footprint, Side
    from takeoff.plan.schema import Building


def seat_for(building: Building, side: Side) -> Seat:
    """Seat of the bird's mouth on a side's plate."""
    roof = building.roof
    return decided_seat(
        depth=profile(roof.rafters.size).depth_in,
        plate_width=profile(building.walls.for_side(side.name).studs).depth_in,
        slope=roof.pitch.slope,
        stated=roof.rafters.seat,
    )


def common_rafter(building: Building, footprint: Footprint, side: Side) -> RafterGeometry:
    """Cuts of the common rafters that stand on a side's wall.

    Raises:
        ValueError: no such rafter can be cut; the message says why.
    """
    roof = building.roof
    span = footprint.left_of(side.name).length_in
    return RafterGeometry(
        slope=roof.pitch.slope,
        depth=profile(roof.rafters.size).depth_in,
        run=span / 2,
        overhang=roof.overhang.eave,
        ridge_half=profile(roof.ridge.size).thickness_in / 2,
        seat=seat_for(building, side).length,
        tail_depth=profile(roof.tail.size).depth_in if roof.tail.size else None,
    )


def gable_slopes(building: Building, footprint: Footprint, written: Callable[[str], Place]) -> tuple[Slope, Slope]:
    """The two slopes, in the order of the footprint's sides."""
    eaves = [side for side in footprint.sides if side.name not in building.roof.gables]
    first, second = (_slope(building, footprint, side, written, from_right=i == 1) for i, side in enumerate(eaves))
    return first, second


def _slope(
    building: Building, footprint: Footprint, side: Side, written: Callable[[str], Place], *, from_right: bool
) -> Slope:
    common = common_rafter(building, footprint, side)
    rake = building.roof.overhang.rake
    per_level = hypot(1, common.slope)
    outline = rectangle(
        -rake, -common.tail, side.length_in + rake, common.run * per_level, ("eave", "rake", "ridge", "rake")
    )
    inward = (-side.normal[0], -side.normal[1], 0.0)
    top_of_plate = building.walls.for_side(side.name).height_in
    placement = Placement(
        (side.start[0], side.start[1], top_of_plate + common.height_above_plate),
        (*side.direction, 0.0),
        unit(add(inward, scale(UP, common.slope))),
    )
    return Slope(
        name=f"{side.name} slope",
        side=side.name,
        bench=Bench(
            building=building.name, face=f"{side.name} slope", placement=placement, written=written("roof.rafters")
        ),
        outline=Outline(outline),
        common=common,
        walls=(0.0, side.length_in),
        from_right=from_right,
    )


def rake_line(building: Building, side: Side, common: RafterGeometry) -> RakeLine:
    """Underside of the end rafters over a gable wall, in the wall's own u and v."""
    foot = building.walls.for_side(side.name).height_in + common.underside_at(0.0)
    return RakeLine(peak=side.length_in / 2, foot=foot, slope=common.slope)
