"""A plan with what its openings carry: so that each knows its header and its jacks from the published table."""

from __future__ import annotations

from math import dist

from takeoff.catalog.profiles import profile
from takeoff.plan.carried import Carried
from takeoff.plan.footprint import footprint, side_names
from takeoff.plan.partitions import Partition
from takeoff.plan.rules_outline import outline_sound
from takeoff.plan.schema import Building, Plan
from takeoff.plan.told_roof import with_told_slopes


def settled_plan(plan: Plan) -> Plan:
    """The plan, each opening of its sides told what it carries under the settings' snow load."""
    told = tuple(settled(building, plan.settings.snow) for building in plan.buildings)
    return plan.model_copy(update={"buildings": told})


def settled(building: Building, snow_psf: float) -> Building:
    """A building, the openings of the sides that carry rafters told what that is.

    Args:
        building: as read; one whose outline is unsound is given back as it is.
        snow_psf: ground snow load [psf].
    """
    told = building.under_snow(snow_psf)
    if not outline_sound(told):
        return told
    told = building = with_told_slopes(told)
    names = side_names(building)
    openings = tuple(
        opening
        if opening.side not in names or building.roof.is_gable(opening.side)
        else opening.carrying(carried_on(told, opening.side))
        for opening in building.walls.openings
    )
    partitions = tuple(_told_inside(told, partition) for partition in building.walls.partitions)
    walls = building.walls.model_copy(update={"openings": openings, "partitions": partitions})
    return told.model_copy(update={"walls": walls})


def _told_inside(building: Building, partition: Partition) -> Partition:
    """A partition, its openings told what they carry if it bears."""
    length = dist(partition.start, partition.end)
    if not partition.bearing or not length:
        return partition
    x, y = ((b - a) / length for a, b in zip(partition.start, partition.end, strict=True))
    reach = [a * y - b * x for a, b in footprint(building).points]
    carried = Carried(
        snow_psf=0.0,
        width_in=max(reach) - min(reach),
        floor=True,
        wall_in=profile(partition.studs).depth_in,
        inside=True,
    )
    openings = tuple(opening.carrying(carried) for opening in partition.openings)
    return partition.model_copy(update={"openings": openings})


def carried_on(building: Building, side: str) -> Carried:
    """What the headers of a side that carries rafters carry."""
    return Carried(
        snow_psf=building.snow_psf,
        width_in=_across(building, side),
        floor=bool(building.floors.lofts),
        wall_in=profile(building.walls.for_side(side).studs).depth_in,
    )


def _across(building: Building, side: str) -> float:
    """Width of the building square to a side [in]."""
    ground = footprint(building)
    x, y = ground.side(side).normal
    reach = [a * x + b * y for a, b in ground.points]
    return max(reach) - min(reach)
