"""Rules of backing: in a wall that there is, and between its ends and its plates."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.profiles import profile
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import footprint, side_names
from takeoff.plan.rules_openings import unknown_side
from takeoff.plan.runs import strip_of
from takeoff.plan.schema import Building


def backing_in_walls(building: Building) -> Iterator[Flaw]:
    """Each is in a side or a partition, has a length, and lies along that wall under its plates."""
    sides = {side.name: side.length_in for side in footprint(building).sides}
    partitions = {p.name: p for p in building.walls.partitions}
    for index, backing in enumerate(building.walls.backing):
        loc = ("walls", "backing", index)
        if backing.wall in partitions:
            own = partitions[backing.wall]
            length, high = strip_of(own).length, own.height_in(building.walls.height)
        elif backing.wall in sides:
            length, high = sides[backing.wall], building.walls.for_side(backing.wall).height_in
        else:
            yield unknown_side((*loc, "wall"), backing.wall, (*side_names(building), *partitions))
            continue
        if backing.end - backing.start < TOLERANCE.length or backing.end > length + TOLERANCE.length:
            found, limit = format_length(backing.end), f"more than {format_length(backing.start)}, at most "
            limit += format_length(length)
            message = f"found backing in {backing.wall!r} that ends at {found}, expected {limit}"
            yield Flaw(rule="plan.backing", loc=(*loc, "to"), message=message, found=found, limit=limit)
        half, plate = profile(backing.size).depth_in / 2, 1.5
        if not plate + half <= backing.height <= high - 2 * plate - half:
            found, limit = format_length(backing.height), format_length(high - 2 * plate - half)
            message = (
                f"found backing in {backing.wall!r} at {found}, expected it between the plates: from"
                f" {format_length(plate + half)} to {limit}"
            )
            yield Flaw(rule="plan.backing", loc=(*loc, "height"), message=message, found=found, limit=limit)
