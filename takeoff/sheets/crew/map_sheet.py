"""The sheets of sheathing maps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from takeoff.cutting.sheet.cutter import SHEATHING_LOAD

if TYPE_CHECKING:
    from takeoff.sheets.sheet_drawings import FaceDrawing


@dataclass(frozen=True, slots=True, kw_only=True)
class MapSheet:
    """The maps of one building."""

    building: str
    load: int
    drawings: tuple[str, ...]
    hatched: str
    """Products whose pieces are hatched; empty where none are."""


def map_sheets(maps: Sequence[FaceDrawing]) -> tuple[MapSheet, ...]:
    """One for each building that is sheathed, its faces in the order they were framed in."""
    sheets = []
    for _, group in groupby(maps, key=lambda each: id(each.building)):
        faces = list(group)
        building = faces[0].building
        exposed = dict.fromkeys(panel.product for panel in building.panels if panel.zone == "exposed")
        drawings = tuple(f"{each.drawing.name}.svg" for each in faces)
        sheets.append(
            MapSheet(building=building.name, load=SHEATHING_LOAD, drawings=drawings, hatched=", ".join(exposed))
        )
    return tuple(sheets)
