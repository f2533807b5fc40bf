"""The tables other programs read: one definition each, written as CSV and into the one document.

A table is its columns and a function from the take-off to rows, so that a file and the document can't differ.
To add one: write its `Table`, and put it into `TABLES`; the writers take it from there. Columns are kept stable:
add at the end, rename none.
"""

from __future__ import annotations

from takeoff.sheets.tables.lumber import CUTTING, MEMBERS, PIECES
from takeoff.sheets.tables.order import ORDER
from takeoff.sheets.tables.rafter_cuts import RAFTER_CUTS
from takeoff.sheets.tables.rafters import RAFTERS
from takeoff.sheets.tables.sheathing import LAY_UPS, LEFTOVERS, PANEL_EDGES, PANELS, SHEET_PROOFS, SHEETS
from takeoff.sheets.tables.site import CHECKS, LAYOUT
from takeoff.sheets.tables.table import Table

TABLES: tuple[Table, ...] = (
    ORDER,
    PIECES,
    MEMBERS,
    RAFTERS,
    PANELS,
    CUTTING,
    SHEETS,
    LAYOUT,
    CHECKS,
    LAY_UPS,
    SHEET_PROOFS,
    LEFTOVERS,
    PANEL_EDGES,
    RAFTER_CUTS,
)
"""All tables, in the order of the document."""
