"""The underside of the eaves, as the plan writes it."""

from __future__ import annotations

from typing import Literal

from takeoff.plan.block import Block
from takeoff.plan.fields import Grade, LumberSize


class Soffit(Block):
    """The underside of the eaves."""

    kind: Literal["open", "boxed"] = "open"
    """open shows the rafters' tails and the sheathing; boxed has level lookouts from a ledger on the wall to the end of
    each tail, for a level soffit. Left out: open."""
    lookouts: LumberSize = "2x4"
    """Size of the lookouts of a boxed eave, on edge. Left out: 2x4."""
    ledger: LumberSize = "2x4"
    """Size of their ledger on the wall sheathing, on edge. Left out: 2x4."""
    grade: Grade = "no2"
    """Grade of both. Left out: no2."""
