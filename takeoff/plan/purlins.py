"""Purlins under the rafters of a gable roof and the struts that carry them, as the plan writes them."""

from __future__ import annotations

from takeoff.plan.block import Block
from takeoff.plan.fields import Distance, Grade, LumberSize, Spacing


class Struts(Block):
    """Struts from a bearing wall up to a purlin."""

    size: LumberSize = "2x4"
    """Size. Left out: 2x4."""
    grade: Grade = "no2"
    """Grade. Left out: no2."""
    spacing: Spacing = 48.0
    """At most so far apart along the purlin. Left out: 4 ft."""
    wall: Distance
    """Level, from the outside of the eave wall's framing to the middle of the bearing wall that they stand on."""
    height: Distance | None = None
    """Height of that wall's plate above the deck. Left out: as the eave wall's."""


class Purlins(Block):
    """Purlins on edge, square to the rafters, under both slopes."""

    at: Distance | None = None
    """Level, from the outside of the wall framing to the purlin's upper edge. Left out: half way to the ridge."""
    size: LumberSize | None = None
    """Size. Left out: the rafters'."""
    grade: Grade = "no2"
    """Grade. Left out: no2."""
    struts: Struts
    """Struts that carry them."""
