"""What the edges of placed panels ask for: nails by the schedule, clips and blocks between the supports."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import floor
from typing import TYPE_CHECKING

from takeoff.catalog.rules import rule
from takeoff.catalog.sheets import sheet_product
from takeoff.catalog.spans import max_roof_span
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.face import Face
from takeoff.model.panel import Panel

if TYPE_CHECKING:
    from shapely import Polygon

_CLOSE_IN = 16.0
"""Supports no further apart take one clip under a narrow piece, others two [in]."""

_FAR_IN = 48.0
"""Supports so far apart take two clips under any piece that needs them [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelEdges:
    """Counts for one face."""

    face: str
    edge_nails: int
    field_nails: int
    clips: int
    """Midway between supports, where two panels meet along their strength axis."""
    blocking_in: float
    """Along edges of pieces too narrow for clips [in]."""


def panel_edges(face: Face, panels: Sequence[Panel]) -> PanelEdges:
    """Count what the edges of a face's panels ask for.

    Args:
        face: with its supports.
        panels: laid on it.
    """
    edge = field = 0
    for panel in panels:
        of_edge, of_field = _nails(face, panel)
        edge, field = edge + of_edge, field + of_field
    clips, blocking = _between(face, panels) if face.kind == "slope" else (0, 0.0)
    return PanelEdges(face=face.name, edge_nails=edge, field_nails=field, clips=clips, blocking_in=blocking)


def _nails(face: Face, panel: Panel) -> tuple[int, int]:
    """Nails along the supports a panel's edges lie on, and along those it covers."""
    edge_apart, field_apart = rule("sheathing.nails-edge").value, rule("sheathing.nails-field").value
    u0, v0, u1, v1 = panel.polygon.bounds
    half = face.supports.thickness / 2
    edge = field = 0
    under = [u for u in face.supports.centres if u0 - half <= u <= u1 + half]
    inside = [min(max(u, u0 + TOLERANCE.length), u1 - TOLERANCE.length) for u in under]
    for u, lengths in zip(under, _lengths(panel.polygon, inside, v0, v1), strict=True):
        at_edge = min(abs(u - u0), abs(u - u1)) <= half
        for length in lengths:
            if at_edge:
                edge += floor(length / edge_apart + TOLERANCE.length) + 1
            else:
                field += max(0, floor(length / field_apart + TOLERANCE.length) - 1)
                edge += 2  # at each end of the support, on the panel's lower and upper edge
    if face.kind == "wall":
        edge += 2 * max(0, floor((u1 - u0) / edge_apart) - 1)  # along plates and rows of blocks
    return edge, field


def _lengths(polygon: Polygon, at: Sequence[float], v0: float, v1: float) -> Iterator[list[float]]:
    """For each u the lengths that a panel covers of the line up the face there."""
    from shapely import get_parts, intersection, length, linestrings

    if not at:
        return
    lines = linestrings([[(u, v0 - 1.0), (u, v1 + 1.0)] for u in at])
    for covered in intersection(polygon, lines):
        yield [found for found in length(get_parts(covered)).tolist() if found > 1.0]


def _between(face: Face, panels: Sequence[Panel]) -> tuple[int, float]:
    """Clips, and length of blocks, in the bays along the level joints of a slope."""
    clips, blocking = 0, 0.0
    bays = tuple(pairwise(face.supports.centres))
    clip_under, block_under = rule("sheathing.clips-narrow").value, rule("sheathing.block-narrow").value
    for panel in panels:
        u0, _, u1, v1 = panel.polygon.bounds
        above = [p for p in panels if abs(p.polygon.bounds[1] - v1) < TOLERANCE.length * 10]
        for left, right in bays:
            a, b = max(left, u0), min(right, u1)
            beside = [p for p in above if p.polygon.bounds[0] < (a + b) / 2 < p.polygon.bounds[2]]
            if b - a < (right - left) / 2 or not beside:
                continue
            narrow = min(panel.width_in, *(p.width_in for p in beside))
            apart = right - left
            if narrow < block_under - TOLERANCE.length:
                blocking += apart - face.supports.thickness
            elif narrow < clip_under - TOLERANCE.length:
                clips += 1 if apart <= _CLOSE_IN + TOLERANCE.length else 2
            elif apart > max_roof_span(sheet_product(panel.product).span_rating, edge_support=False):
                clips += 2 if apart >= _FAR_IN else 1
    return clips, blocking
