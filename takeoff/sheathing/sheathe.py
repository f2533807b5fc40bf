"""Panels of a building's faces: cells clipped to the outlines."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Literal

from takeoff.geometry.polygon import cleaned
from takeoff.model.building import FramedBuilding
from takeoff.model.face import Face, FaceKind
from takeoff.model.panel import Panel
from takeoff.sheathing.cells import Cell
from takeoff.sheathing.slopes import slope_cells
from takeoff.sheathing.walls import wall_cells

LayUp = tuple[Callable[[Face], tuple[Cell, ...]], Literal["u", "v"]]

LAY_UPS: Mapping[FaceKind, LayUp] = {
    "slope": (slope_cells, "u"),
    "wall": (wall_cells, "v"),
    "floor": (slope_cells, "u"),
}
"""How each kind of face is divided, and which way the strength axis of its sheets runs."""


def sheathe(building: FramedBuilding) -> FramedBuilding:
    """The building with all its panels, face by face."""
    panels = tuple(panel for face in building.faces for panel in face_panels(building.name, face))
    return replace(building, panels=panels)


def face_panels(building: str, face: Face) -> tuple[Panel, ...]:
    """Panels of one face; together they cover its outline exactly once."""
    from shapely import box

    if face.cover is None:
        return ()
    cells, axis = LAY_UPS[face.kind]
    outline = face.outline.polygon
    return tuple(
        Panel(
            building=building,
            face=face.name,
            product=face.cover.exposed if cell.zone == "exposed" else face.cover.field,
            zone=cell.zone,
            polygon=polygon,
            strength_axis=axis,
        )
        for cell in cells(face)
        for polygon in cleaned(outline.intersection(box(cell.u[0], cell.v[0], cell.u[1], cell.v[1])))
    )
