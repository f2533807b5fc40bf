"""A gable on a hip, as the plan writes it."""

from __future__ import annotations

from takeoff.plan.block import Block
from takeoff.plan.fields import Distance, LumberSize, Overhang


class Gablet(Block):
    """A small gable over the end of a hip roof: the end's slope stops at it, and the ridge runs on to it."""

    run: Distance
    """Level, from the outside of the wall framing to the outer face of the small gable."""
    overhang: Overhang = 0.0
    """Level, from that face to the outside of its barge rafters, which the roof's `barge` gives. Left out: none."""
    studs: LumberSize = "2x4"
    """Size of its studs. Left out: 2x4."""
