"""What a lumber cutter is asked, and what it is to be: the nouns of the cutting of sticks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from takeoff.cutting.stop import StopRule
from takeoff.model.stock import LumberCutting, Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A stick that can be bought, as many as wanted."""

    profile: str
    grade: str
    length_in: float
    price_usd: float | None
    """For one stick [$]; None where it isn't known."""
    special: bool = False
    """Longer than anything on sale: to be asked for, for the pieces that need it and no others."""

    def __post_init__(self) -> None:
        if self.length_in <= 0 or (self.price_usd is not None and self.price_usd < 0):
            raise ValueError(f"no stick can be {self.length_in} in long for {self.price_usd} dollars")


@dataclass(frozen=True, slots=True, kw_only=True)
class LumberProblem:
    """Pieces, the sticks to cut them from, and what the saw takes away."""

    pieces: tuple[Piece, ...]
    offers: tuple[Offer, ...]
    kerf_in: float

    def __post_init__(self) -> None:
        if self.kerf_in < 0:
            raise ValueError(f"a kerf is zero or more, not {self.kerf_in}")


class LumberCutter(Protocol):
    """A way to cut a problem's pieces."""

    def __call__(self, problem: LumberProblem, *, stop: StopRule, seed: int = 0) -> LumberCutting:
        """Cut every piece exactly as often as it is wanted.

        Args:
            problem: what to cut, and from what.
            stop: when to be content with what is found.
            seed: start of any chance the cutter takes; the same seed gives the same boards.
        """
        ...
