"""The sheets of sheathing maps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from takeoff.cutting.sheet.cutter import sheet_load
from takeoff.sheets.crew.ripped import ripped_words

if TYPE_CHECKING:
    from takeoff.model.building import FramedBuilding
    from takeoff.model.panel import Panel
    from takeoff.sheets.crew.figures import Figures
    from takeoff.sheets.sheet_drawings import FaceDrawing


@dataclass(frozen=True, slots=True, kw_only=True)
class MapRow:
    """The map of one face, and what is ripped for it."""

    drawing: str
    ripped: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MapSheet:
    """The maps of one building that belong to one delivery."""

    building: str
    load: int
    maps: tuple[MapRow, ...]
    hatched: str
    """Products whose pieces are hatched; empty where none are."""


def map_sheets(maps: Sequence[FaceDrawing], figures: Figures) -> tuple[MapSheet, ...]:
    """For each building that is sheathed one a delivery, its faces in the order they were framed in."""
    sheets = []
    for _, group in groupby(maps, key=lambda each: id(each.building)):
        faces = list(group)
        building = faces[0].building
        loads = [min(sheet_load(panel.product) for panel in _on(building, each)) for each in faces]
        for load in sorted(set(loads)):
            of_load = [each for each, rides in zip(faces, loads, strict=True) if rides == load]
            sheets.append(_sheet(building, load, of_load, figures))
    return tuple(sheets)


def _sheet(building: FramedBuilding, load: int, faces: Sequence[FaceDrawing], figures: Figures) -> MapSheet:
    panels = [panel for each in faces for panel in _on(building, each)]
    exposed = dict.fromkeys(panel.product for panel in panels if panel.zone == "exposed")
    return MapSheet(
        building=building.name,
        load=load,
        maps=tuple(
            MapRow(
                drawing=f"{each.drawing.name}.svg",
                ripped=ripped_words(each.face, _on(building, each), figures),
            )
            for each in faces
        ),
        hatched=", ".join(exposed),
    )


def _on(building: FramedBuilding, drawn: FaceDrawing) -> list[Panel]:
    return [panel for panel in building.panels if panel.face == drawn.face.name]
