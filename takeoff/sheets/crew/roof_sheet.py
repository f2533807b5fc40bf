"""The sheet of a roof's framing plan."""

from __future__ import annotations

from dataclasses import dataclass

from takeoff.model.building import FramedBuilding
from takeoff.sheets.drawing import Drawing
from takeoff.sheets.roof_drawing import not_lettered


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofSheet:
    """A plan of the roof of one building."""

    building: str
    drawing: str
    unlettered: tuple[str, ...]
    """Marks that it had no room for."""


def roof_sheet(building: FramedBuilding, drawing: Drawing) -> RoofSheet:
    """The sheet of one building."""
    return RoofSheet(building=building.name, drawing=f"{drawing.name}.svg", unlettered=not_lettered(building, drawing))
