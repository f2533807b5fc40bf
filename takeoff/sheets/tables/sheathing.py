"""Tables of sheathing: panels in place, and the sheets they are cut from."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.sheets import sheet_product
from takeoff.cutting.assign import assign_sheets
from takeoff.model.takeoff import Takeoff
from takeoff.sheathing.edges import panel_edges
from takeoff.sheets.tables.table import AREA, LENGTH, MONEY, PERCENT, Column, Row, Table


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


def _edges(takeoff: Takeoff) -> Iterator[Row]:
    for building in takeoff.buildings:
        for face in building.faces:
            panels = [panel for panel in building.panels if panel.face == face.name]
            if panels:
                counts = panel_edges(face, panels)
                nails = counts.edge_nails, counts.field_nails
                yield (building.name, face.name, *nails, counts.clips, counts.blocking_in)


def _lay_ups(takeoff: Takeoff) -> Iterator[Row]:
    for tried in takeoff.sheets.tried:
        taken = "yes" if tried.taken else "no"
        yield (tried.building, tried.faces, tried.words, tried.sheets, tried.cost_usd, taken)


def _sheet_proofs(takeoff: Takeoff) -> Iterator[Row]:
    for proof in takeoff.sheets.proofs:
        yield (
            " + ".join(proof.products),
            " + ".join(sheet_product(product).face for product in proof.products),
            proof.sheets,
            proof.area_bound,
            proof.cost_usd,
            proof.bound_usd,
            proof.gap_pct,
            proof.sheet_bound,
            proof.over,
        )


def _leftovers(takeoff: Takeoff) -> Iterator[Row]:
    for sheet in takeoff.sheets.sheets:
        for rest in sheet.leftovers:
            yield (sheet.sheet_id, sheet.product, rest.x_in, rest.y_in, rest.length_in, rest.width_in)


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

LAY_UPS = Table(
    file="lay_ups.csv",
    columns=(
        Column("building"),
        Column("faces"),
        Column("courses"),
        Column("sheets"),
        Column("cost", MONEY),
        Column("taken"),
    ),
    rows=_lay_ups,
)
"""One row a way to lay faces that was reckoned through: its courses from the eave up, and what all sheets of the faces
that share products with them would cost, cut by best fit."""

SHEET_PROOFS = Table(
    file="sheet_proofs.csv",
    columns=(
        Column("product"),
        Column("grade"),
        Column("sheets"),
        Column("area_bound"),
        Column("cost", MONEY),
        Column("bound", MONEY),
        Column("gap_pct", PERCENT),
        Column("sheet_bound"),
        Column("sheets_over"),
    ),
    rows=_sheet_proofs,
)
"""One row a product, or several whose pieces share sheets: the sheets, how few their area would be, what no cutting of
the same pieces in rows can cost less, how few sheets of the largest size the pieces take however they are cut, and how
many more there are."""

LEFTOVERS = Table(
    file="leftovers.csv",
    columns=(
        Column("sheet"),
        Column("product"),
        Column("x_in", LENGTH),
        Column("y_in", LENGTH),
        Column("width_in", LENGTH),
        Column("height_in", LENGTH),
    ),
    rows=_leftovers,
)
"""One row a rectangle left of a sheet that is worth keeping; axes as in `SHEETS`."""

PANEL_EDGES = Table(
    file="panel_edges.csv",
    columns=(
        Column("building"),
        Column("face"),
        Column("edge_nails"),
        Column("field_nails"),
        Column("clips"),
        Column("blocking_in", LENGTH),
    ),
    rows=_edges,
)
"""One row a face of one copy of a building: nails by the schedule of edges and field, clips between the supports, and
blocks along the edges of pieces too narrow for clips."""
