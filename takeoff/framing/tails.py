"""Tail cuts of a roof: plumb, square to the rafter's edges, or plumb with a level cut for a soffit.

      plumb            square           level
       __ ,-'           _,-'            __ ,-'
      |,-'            ,'  ,'           |  '
      |  ,-'           ',-'            |__,-'     <- level with the lower edge of the fascia
      |-'

The overhang is measured to the top of the cut in each case: that is where the back of the fascia's top edge lies.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.framing.eaves import fascia_drop

if TYPE_CHECKING:
    from takeoff.plan.roof import Roof


def tail_lean(roof: Roof, slope: float) -> float:
    """How far the tail cut of a common rafter runs back for one inch down: its slope for a square cut, else 0."""
    return slope if roof.tail.cut == "square" else 0.0


def fold_lean(roof: Roof, slope: float, fold_slope: float) -> float:
    """The same for a hip or valley between two slopes alike, so that it ends in the planes of their square cuts.

    Source: geometry; up the fold the slope's rise is ``fold_slope / slope`` of what it is straight up.
    """
    return tail_lean(roof, slope) * slope / fold_slope


def tail_level_drop(roof: Roof, slope: float) -> float | None:
    """Plumb distance from the top of the tail cut to its level cut [in]; None without one.

    The level cut is at the lower edge of the fascia, unless the plan says how far down it is.
    """
    if roof.tail.cut != "level":
        return None
    if roof.tail.soffit_drop is not None:
        return roof.tail.soffit_drop
    return fascia_drop(slope, profile(roof.fascia.size)) if roof.fascia else None
