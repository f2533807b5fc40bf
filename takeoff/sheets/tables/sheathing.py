"""Tables of sheathing: panels in place, and the sheets they are cut from."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.sheets import sheet_product
from takeoff.cutting.assign import assign_sheets
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.tables.table import AREA, LENGTH, Column, Row, Table


def _panels(takeoff: Takeoff) -> Iterator[Row]:
    assigned = assign_sheets(takeoff.buildings, takeoff.sheets)
    for building, sheet_ids in zip(takeoff.buildings, assigned, strict=True):
        for panel, sheet_id in zip(building.panels, sheet_ids, strict=True):
            u0, v0, u1, v1 = panel.polygon.bounds
            yield (
                building.name,
                panel.face,
                panel.mark,
                panel.product,
                sheet_product(panel.product).face,
                panel.zone,
                panel.area_sqft,
                u1 - u0,
                v1 - v0,
                sheet_id,
            )


def _sheets(takeoff: Takeoff) -> Iterator[Row]:
    for sheet in takeoff.sheets.sheets:
        grade = sheet_product(sheet.product).face
        for piece in sheet.pieces:
            yield (
                sheet.sheet_id,
                sheet.product,
                grade,
                piece.mark,
                piece.x_in,
                piece.y_in,
                piece.length_in,
                piece.width_in,
            )


PANELS = Table(
    file="panels.csv",
    columns=(
        Column("building"),
        Column("face"),
        Column("mark"),
        Column("product"),
        Column("grade"),
        Column("zone"),
        Column("area_sqft", AREA),
        Column("width_in", LENGTH),
        Column("height_in", LENGTH),
        Column("sheet"),
    ),
    rows=_panels,
)
"""One row a placed panel piece of one copy of a building. Width is across the face (along u), height up it (along v).

Sizes are joint to joint, gaps not taken off. ``sheet`` is the sheet the first copy's piece is cut from.
"""

SHEETS = Table(
    file="sheets.csv",
    columns=(
        Column("sheet"),
        Column("product"),
        Column("grade"),
        Column("mark"),
        Column("x_in", LENGTH),
        Column("y_in", LENGTH),
        Column("width_in", LENGTH),
        Column("height_in", LENGTH),
    ),
    rows=_sheets,
)
"""One row a panel piece on its sheet. x runs along the sheet's strength axis; width is along x, height along y."""
