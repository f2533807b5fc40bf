"""Which sheet each placed panel comes from."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.model.building import FramedBuilding
from takeoff.model.stock import SheetCutting


def assign_sheets(buildings: tuple[FramedBuilding, ...], cutting: SheetCutting) -> tuple[tuple[str, ...], ...]:
    """Sheet ids, for each building in the order of its panels.

    Equal panels take the sheets that hold their mark one after the other. Of a building built several times it is
    the first copy; the other copies take the sheets that follow.

    Args:
        buildings: marked, the same that were cut.
        cutting: the sheets for all their panels.
    """
    return tuple(_sheets_of_one(building, cutting) for building in buildings)


def _sheets_of_one(building: FramedBuilding, cutting: SheetCutting) -> tuple[str, ...]:
    waiting = {panel.mark: _sheets_with(building.name, panel.mark, cutting) for panel in building.panels}
    return tuple(next(waiting[panel.mark]) for panel in building.panels)


def _sheets_with(building: str, mark: str, cutting: SheetCutting) -> Iterator[str]:
    for sheet in cutting.sheets:
        for piece in sheet.pieces:
            if (piece.building, piece.mark) == (building, mark):
                yield sheet.sheet_id
