"""What a lumber cutter is asked, and what it is to be: the nouns of the cutting of sticks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from takeoff.cutting.stop import EffortName, StopRule
from takeoff.model.stock import LumberCutting, Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A stick that can be had: bought, as many as wanted or up to a limit, or on the site already."""

    profile: str
    grade: str
    length_in: float
    price_usd: float | None
    """For one stick [$]; None where it isn't known."""
    special: bool = False
    """Longer than anything on sale: to be asked for, for the pieces that need it and no others."""
    limit: int | None = None
    """How many can be had; None: as many as wanted."""
    on_hand: bool = False
    """On the site already, and costs nothing."""
    trim_in: float = 0.0
    """To be cut off each end first, with the saw cut that does it [in]."""

    def __post_init__(self) -> None:
        if self.length_in <= 0 or (self.price_usd is not None and self.price_usd < 0):
            raise ValueError(f"no stick can be {self.length_in} in long for {self.price_usd} dollars")
        if self.trim_in < 0 or (self.limit is not None and self.limit < 0):
            raise ValueError(f"no stick can have {self.trim_in} in trimmed off its ends, and {self.limit} be had")


@dataclass(frozen=True, slots=True, kw_only=True)
class LumberProblem:
    """Pieces, the sticks to cut them from, and what the saw takes away."""

    pieces: tuple[Piece, ...]
    offers: tuple[Offer, ...]
    kerf_in: float
    max_lengths: int | None = None
    """How many different lengths may be bought of a profile and grade for one load; None: any number."""
    least_leftover_in: float = 24.0
    """Shortest rest worth keeping [in]. It only decides between cuttings of equal cost."""

    def __post_init__(self) -> None:
        if self.kerf_in < 0:
            raise ValueError(f"a kerf is zero or more, not {self.kerf_in}")
        if self.max_lengths is not None and self.max_lengths < 1:
            raise ValueError(f"at least one length has to be bought, not {self.max_lengths}")


class LumberCutter(Protocol):
    """A way to cut a problem's pieces."""

    def __call__(
        self, problem: LumberProblem, *, stop: StopRule, effort: EffortName = "normal", seed: int = 0
    ) -> LumberCutting:
        """Cut every piece exactly as often as it is wanted.

        Args:
            problem: what to cut, and from what.
            stop: when to be content with what is found.
            effort: how long to search within each part.
            seed: start of any chance the cutter takes; the same seed gives the same boards.

        Raises:
            ValueError: stock is limited, and there isn't enough of it for all pieces.
        """
        ...
