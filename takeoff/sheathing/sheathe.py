"""Panels of a building's faces: cells clipped to the outlines."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

from takeoff.catalog.sheets import sheet_product
from takeoff.geometry.polygon import cleaned
from takeoff.model.building import FramedBuilding
from takeoff.model.face import Face, FaceKind
from takeoff.model.panel import Panel
from takeoff.sheathing.cells import Cell
from takeoff.sheathing.slopes import slope_cells
from takeoff.sheathing.walls import wall_cells

if TYPE_CHECKING:
    from shapely import Polygon

_Rectangle = tuple[tuple[float, float], tuple[float, float]]
"""Of a cell: u and v."""

LayUp = tuple[Cell, ...]
"""How a face is laid."""

AXES: Mapping[FaceKind, Literal["u", "v"]] = {"slope": "u", "wall": "v", "floor": "u"}
"""Which way the strength axis of the sheets of a face runs."""


def sheathe(building: FramedBuilding, lay_ups: Mapping[str, LayUp] | None = None) -> FramedBuilding:
    """The building with all its panels, face by face.

    Args:
        building: framed.
        lay_ups: of faces, by name; those left out are laid in the plain way.
    """
    chosen = lay_ups or {}
    panels = (
        panel
        for face in building.faces
        for panel in face_panels(building.name, face, chosen.get(face.name) or plain_lay_up(face))
    )
    return replace(building, panels=tuple(panels))


def plain_lay_up(face: Face) -> LayUp:
    """How a face is laid where nobody counts the cost; empty where nothing covers it."""
    return wall_cells(face) if face.kind == "wall" else slope_cells(face)


def face_panels(building: str, face: Face, lay_up: LayUp) -> tuple[Panel, ...]:
    """Panels of one face; together they cover its outline exactly once."""
    if face.cover is None:
        return ()
    clipped = Clipper(face)
    return tuple(
        Panel(
            building=building,
            face=face.name,
            product=product_of(face, cell),
            zone=cell.zone,
            polygon=polygon,
            strength_axis=AXES[face.kind],
            flips=flips(face, cell),
        )
        for cell in lay_up
        for polygon in clipped.polygons(cell)
    )


def product_of(face: Face, cell: Cell) -> str:
    """What a cell of a covered face is laid with.

    Raises:
        ValueError: nothing covers the face.
    """
    if face.cover is None:
        raise ValueError(f"{face.name} isn't covered")
    return face.cover.exposed if cell.zone == "exposed" else face.cover.field


def flips(face: Face, cell: Cell) -> bool:
    """Whether the piece may be cut with either side up.

    Not where it shows, and not strand board on a roof, whose rough side is the one to walk on (common practice, no
    source), nor a sheet with a tongue.
    """
    product = sheet_product(product_of(face, cell))
    if product.for_floors or product.face == "premium" or cell.zone == "exposed":
        return False
    return face.kind == "wall" or product.material != "osb"


class Clipper:
    """Clips cells to the outline of one face; a cell met before costs nothing, with whatever the face was covered."""

    def __init__(self, face: Face) -> None:
        """Make the outline ready."""
        from shapely import prepare

        self._outline = face.outline.polygon
        prepare(self._outline)
        self._known = _known_on(self._outline)

    def polygons(self, cell: Cell) -> tuple[Polygon, ...]:
        """What of a cell lies on the face."""
        from shapely import box

        key = (cell.u, cell.v)
        if key not in self._known:
            whole = box(cell.u[0], cell.v[0], cell.u[1], cell.v[1])
            inside = self._outline.covers(whole)
            self._known[key] = (whole,) if inside else cleaned(self._outline.intersection(whole))
        return self._known[key]


@lru_cache(maxsize=64)
def _known_on(outline: Polygon) -> dict[_Rectangle, tuple[Polygon, ...]]:
    # A face is searched again in every other way that is told of it, and its cells are the same ones mostly.
    return {}
