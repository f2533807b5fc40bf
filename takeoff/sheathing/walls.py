"""Lay-up of a wall: sheets upright, edges on studs; tall walls split on rows of blocks."""

from __future__ import annotations

from takeoff.catalog.sheets import sheet_product
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.face import Face
from takeoff.sheathing.cells import Cell, Reach, joints_on, spans

LEAST_WIDTH_IN = 12.0
"""Narrowest upright piece, where studs allow [in]. Common practice, no source."""

LEAST_HEIGHT_IN = 12.0
"""Lowest piece over a joint, where rows of blocks allow [in]. Common practice, no source."""


def wall_cells(face: Face) -> tuple[Cell, ...]:
    """Cells of a wall, column by column from the left."""
    if face.cover is None:
        return ()
    sizes = sheet_product(face.cover.field).sizes
    left, low, right, high = face.outline.bounds
    reach = Reach(most=sizes[0][0], least=LEAST_WIDTH_IN)
    supports = face.supports.centres
    if face.supports.from_right:
        mirrored = joints_on(-right, -left, tuple(-s for s in supports), reach)
        joints = tuple(-j for j in reversed(mirrored))
    else:
        joints = joints_on(left, right, supports, reach)
    rows = _rows(face, low, high, max(length for _, length in sizes))
    return tuple(Cell(u, v, "field") for u in spans(left, right, joints) for v in rows)


def _rows(face: Face, low: float, high: float, longest: float) -> tuple[tuple[float, float], ...]:
    """Heights of the sheets: one that covers the wall if there is one, else split on rows of blocks."""
    if high - low <= longest + TOLERANCE.length:
        return ((low, high),)
    reach = Reach(most=longest, least=LEAST_HEIGHT_IN)
    return spans(low, high, joints_on(low, high, face.supports.rows, reach))
