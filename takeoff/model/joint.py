"""A joint: two members that meet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

JointKind = Literal["bears", "hangs", "butts", "laps"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """How member ``upper`` meets member ``lower``: rests on it, hangs on its face, butts it, or lies beside it.

    Members are named by their place in the building's tuple of members.
    """

    kind: JointKind
    upper: int
    lower: int
    bearing_in: float = 0.0
    """Length of the contact along the upper member [in]; level for a seat, plumb for a hung end."""
