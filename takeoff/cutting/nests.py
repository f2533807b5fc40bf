r"""Nesting: one slanted saw cut makes the end of a piece and the start of the next.

    ______________________        The long points of neighbours overlap by their rake, less what the blade takes more
    \         \\         \       on the slant than square: n pieces need n lengths along the top edge and one rake.
     \_________\\_________\

Only pieces nest whose two ends are parallel, and only with pieces of the same slant; each may be turned side to side,
but its top edge stays the top edge, so that all crowns of a board are at the same edge.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians

from takeoff.cutting.steps import steps_down
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.stock import Piece

_PLACES = 3  # slants alike to a thousandth of a degree are parallel: a saw is set to a quarter of one


@dataclass(frozen=True, slots=True, kw_only=True)
class Nest:
    """A slant, and what two pieces that have it at both ends save by lying against each other."""

    miter_deg: float
    bevel_deg: float
    saving: int
    """Steps saved for each neighbour."""


def nest_of(piece: Piece, kerf_in: float) -> Nest | None:
    """How a piece nests with its like; None where its ends aren't parallel, or nothing is saved by it.

    Args:
        piece: with the rakes of its ends.
        kerf_in: what the blade takes, square to the cut [in].
    """
    (miter, other_miter), (bevel, other_bevel) = piece.miters_deg, piece.bevels_deg
    if round(miter + other_miter, _PLACES) or round(bevel + other_bevel, _PLACES):
        return None
    along_in = kerf_in / (cos(radians(miter)) * cos(radians(bevel)))
    saving = steps_down(min(piece.rakes_in) - (along_in - kerf_in) - 2 * TOLERANCE.length)
    if saving <= 0:
        return None
    return Nest(miter_deg=round(abs(miter), _PLACES), bevel_deg=round(bevel, _PLACES) + 0.0, saving=saving)


def nest_order(nest: Nest | None) -> tuple[float, ...]:
    """Key to sort nests by; what doesn't nest comes first."""
    return () if nest is None else (nest.miter_deg, nest.bevel_deg, nest.saving)
