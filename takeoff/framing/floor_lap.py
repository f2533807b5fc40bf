"""How far the sheets of outside walls reach down over the edge of a framed floor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product

if TYPE_CHECKING:
    from takeoff.plan.schema import Building


def lapped(building: Building, side: str) -> float:
    """From the deck down to the foot of a wall's sheets [in]; 0 where no floor is framed under the walls.

    Sheets that reach over the rim to the mud sill tie the wall to both (common practice, no source).

    Args:
        building: as planned.
        side: name of the wall's side.
    """
    floor = building.floors.main
    if floor is None:
        return 0.0
    down_to = building.walls.for_side(side).down_to or ("deck" if floor.outline else "sill")
    if down_to == "deck":
        return 0.0
    rim = sheet_product(floor.deck).thickness_in + profile(floor.joists.size).depth_in
    return rim if down_to == "rim" or floor.sill == "none" else rim + profile(floor.sill).thickness_in
