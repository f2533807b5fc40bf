"""Lay-up of a wall: sheets upright, edges on studs; tall walls split on rows of blocks."""

from __future__ import annotations

from takeoff.catalog.sheets import sheet_product
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.face import Face
from takeoff.sheathing.cells import Cell, Reach, extent_of, joints_on, spans
from takeoff.sheathing.ways import LEAST_STEP_IN, Division, Way, division, plainest, runs

LEAST_WIDTH_IN = 12.0
"""Narrowest upright piece, where studs allow [in]. Common practice, no source."""

LEAST_HEIGHT_IN = 12.0
"""Lowest piece over a joint, where rows of blocks allow [in]. Common practice, no source."""


def wall_cells(face: Face) -> tuple[Cell, ...]:
    """Cells of a wall laid in the plain way, tier by tier from the bottom."""
    return plainest(wall_division(face))


def wall_division(face: Face) -> Division:
    """Every way to lay each tier of a wall."""
    if face.cover is None:
        return division((), LEAST_STEP_IN)
    sizes = sheet_product(face.cover.field).sizes
    _, low, _, high = face.outline.bounds
    reach = Reach(most=sizes[0][0], least=LEAST_WIDTH_IN)
    outline = face.outline.polygon
    bands = (
        tuple(
            Way(cells=tuple(Cell(u, v, "field") for u in spans(*extent, joints)), ends=joints)
            for joints in runs(*extent, face.supports.centres, reach, from_right=face.supports.from_right)
        )
        for v in _rows(face, low, high, max(length for _, length in sizes))
        if (extent := extent_of(outline, v)) is not None
    )
    return division(tuple(bands), LEAST_STEP_IN)


def _rows(face: Face, low: float, high: float, longest: float) -> tuple[tuple[float, float], ...]:
    """Heights of the sheets: one that covers the wall if there is one, else split on rows of blocks."""
    if high - low <= longest + TOLERANCE.length:
        return ((low, high),)
    reach = Reach(most=longest, least=LEAST_HEIGHT_IN)
    return spans(low, high, joints_on(low, high, face.supports.rows, reach))
