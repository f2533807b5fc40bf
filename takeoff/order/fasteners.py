"""Nails and clips of the sheathing, counted from the edges of the panels as they are laid."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from takeoff.catalog.sheets import sheet_product
from takeoff.cutting.sheet.cutter import sheet_load
from takeoff.findings import Finding, Severity
from takeoff.measure import format_inches, format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.face import FaceKind
from takeoff.sheathing.edges import PanelEdges, panel_edges

SHEATHING_NAIL = "8d-common"
"""Roof sheathing to 1 in and walls and decks from 19/32 in take it by IRC Table R602.3(1), recalled; a thinner wall
sheet may have 6d. One nail for all of them is common practice."""

PANEL_CLIP = "panel-clip"


@dataclass(frozen=True, slots=True, kw_only=True)
class FastenerCount:
    """So many of one fastener for one load. ``fits`` is the thickness of sheet that a clip takes; empty for nails."""

    load: int
    name: str
    fits: str
    qty: int
    faces: tuple[FaceKind, ...]
    """Kinds of the faces it goes into."""


def count_fasteners(buildings: Iterable[FramedBuilding]) -> tuple[FastenerCount, ...]:
    """Nails by the schedule of edges and field, and clips, for all copies of all buildings, by load."""
    counted: Counter[tuple[int, str, str]] = Counter()
    faces: dict[tuple[int, str, str], list[FaceKind]] = {}
    for building in buildings:
        for kind, product, edges in _edges(building):
            load = sheet_load(product)
            thickness = format_inches(sheet_product(product).thickness_in, denominator=32)
            for key, qty in (
                ((load, SHEATHING_NAIL, ""), edges.edge_nails + edges.field_nails),
                ((load, PANEL_CLIP, thickness), edges.clips),
            ):
                if qty:
                    counted[key] += qty * building.count
                    faces.setdefault(key, []).append(kind)
    return tuple(
        FastenerCount(load=load, name=name, fits=fits, qty=qty, faces=tuple(dict.fromkeys(faces[load, name, fits])))
        for (load, name, fits), qty in sorted(counted.items())
    )


def edge_block_notes(buildings: Iterable[FramedBuilding]) -> Iterator[Finding]:
    """A note for each face whose narrow pieces need blocks under their edges: those are cut from what is left over."""
    for building in buildings:
        for _, _, edges in _edges(building):
            if edges.blocking_in:
                yield Finding(
                    rule="order.edge-blocks",
                    severity=Severity.NOTE,
                    message=f"pieces too narrow for clips need {format_length(edges.blocking_in)} of blocks under their"
                    " level edges; they aren't in the order: cut them from leftovers of the rafters",
                    building=building.name,
                    where=edges.face,
                    found=format_length(edges.blocking_in),
                )


def _edges(building: FramedBuilding) -> Iterator[tuple[FaceKind, str, PanelEdges]]:
    """Each covered face's kind and product with the counts of one copy."""
    for face in building.faces:
        panels = [panel for panel in building.panels if panel.face == face.name]
        if face.cover is not None and panels:
            yield face.kind, face.cover.field, panel_edges(face, panels)
