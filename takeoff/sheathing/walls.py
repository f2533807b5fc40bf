"""Lay-up of a wall: sheets upright, edges on studs; tall walls split on rows of blocks."""

from __future__ import annotations

from itertools import product
from math import floor

from takeoff.catalog.sheets import sheet_product
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.face import Face
from takeoff.sheathing.cells import Cell, Reach, extent_of, joints_on, spans
from takeoff.sheathing.ways import LEAST_STEP_IN, Division, Way, division, plainest, runs

LEAST_WIDTH_IN = 12.0
"""Narrowest upright piece, where studs allow [in]. Common practice, no source."""

LEAST_HEIGHT_IN = 12.0
"""Lowest piece over a joint, where rows of blocks allow [in]. Common practice, no source."""


MOST_WAYS = 16
"""Of a tier that is broken at openings so many are compared."""


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
            for joints in _runs(face, v, extent, reach)
        )
        for v in _rows(face, low, high, max(length for _, length in sizes))
        if (extent := extent_of(outline, v)) is not None
    )
    return division(tuple(bands), LEAST_STEP_IN)


def _runs(
    face: Face, v: tuple[float, float], extent: tuple[float, float], reach: Reach
) -> tuple[tuple[float, ...], ...]:
    """Joints of the ways to lay one tier: those between the openings' sides, where the sheets are broken at them."""
    breaks = _breaks(face, v, extent)
    stretches = [
        runs(u0, u1, face.supports.centres, reach, from_right=face.supports.from_right)
        if u1 - u0 > reach.most + TOLERANCE.length or not breaks
        else ((),)
        for u0, u1 in spans(*extent, breaks)
    ]
    # Many wide stretches have too many ways together: of each the first few.
    wide = sum(len(ways) > 1 for ways in stretches)
    most = max(1, floor(MOST_WAYS ** (1 / wide))) if wide > 1 else MOST_WAYS
    return tuple(
        tuple(sorted((*breaks, *(joint for joints in chosen for joint in joints))))
        for chosen in product(*(ways[:most] for ways in stretches))
    )


def _breaks(face: Face, v: tuple[float, float], extent: tuple[float, float]) -> tuple[float, ...]:
    """Sides of the openings in a tier [in] that sheets are broken at: none that would leave too narrow a piece."""
    if face.cover is None or face.cover.at_openings == "run_past":
        return ()
    left, right = extent
    sides = set[float]()
    for hole in face.outline.holes:
        corners = [edge.a for edge in hole]
        low, high = min(y for _, y in corners), max(y for _, y in corners)
        if low < v[1] - TOLERANCE.length and high > v[0] + TOLERANCE.length:
            sides |= {min(x for x, _ in corners), max(x for x, _ in corners)}
    kept: list[float] = []
    for u in sorted(sides):
        if u - (kept[-1] if kept else left) >= LEAST_WIDTH_IN and right - u >= LEAST_WIDTH_IN:
            kept.append(u)
    return tuple(kept)


def _rows(face: Face, low: float, high: float, longest: float) -> tuple[tuple[float, float], ...]:
    """Heights of the sheets: one that covers the wall if there is one, else split on rows of blocks."""
    if high - low <= longest + TOLERANCE.length:
        return ((low, high),)
    reach = Reach(most=longest, least=LEAST_HEIGHT_IN)
    return spans(low, high, joints_on(low, high, face.supports.rows, reach))
