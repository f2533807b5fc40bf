"""What ties the rafters of a gable roof, as the plan writes it: rafter ties, collar ties, ceiling joists."""

from __future__ import annotations

from takeoff.plan.block import Block
from takeoff.plan.fields import Grade, LumberSize, Spacing, TieHeight


class Tie(Block):
    """Sticks from rafter to rafter, lapped beside them."""

    size: LumberSize
    """Size, such as 2x6."""
    spacing: Spacing | None = None
    """At most so far apart along the ridge. Left out: at every pair of rafters."""
    grade: Grade = "no2"
    """Grade. Left out: no2."""


class RafterTies(Tie):
    """Rafter ties, in the lower third of the roof."""

    height: TieHeight = 0.0
    """Their lower edge above the plates, above the higher ones where walls differ. Left out: they lie on the plates."""


class CollarTies(Tie):
    """Collar ties, in the upper third of the roof."""

    height: TieHeight | None = None
    """Their lower edge above the plates, above the higher ones where walls differ. Left out: two thirds of the height
    of the ridge."""


class CeilingJoists(Tie):
    """Ceiling joists, on the plates beside the rafters, whose feet they tie."""
