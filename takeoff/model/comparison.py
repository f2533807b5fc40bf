"""What other ways to buy or to cut would cost."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Buying:
    """All boards of the job, bought in no more than so many lengths of one profile and grade for one load."""

    max_lengths: int | None
    """None: any number."""
    cost_usd: float
    bound_usd: float
    """It can't cost less [$]."""
    boards: int
    """To be bought; what is on hand isn't."""
    lengths: int
    """Different sticks bought, over all profiles, grades and loads."""
    chosen: bool
    """It is how the boards of this job are cut."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Nesting:
    """What it saves that pieces with parallel slanted ends lie against each other, one saw cut making both ends."""

    apart_usd: float
    """Cost with each end cut for itself [$]."""
    saving_usd: float
    """What is saved of it [$]."""
    shared_cuts: int
    """Saw cuts that end a piece and start the next."""
    overlap_in: float
    """By how much the long points of all pieces overlap [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """The cutting of a job beside others of the same pieces."""

    buyings: tuple[Buying, ...] = ()
    """Fewest lengths first."""
    nesting: Nesting | None = None
    """None where nothing nests."""


NOTHING_COMPARED = Comparison()
"""No prices, or nobody asked."""
