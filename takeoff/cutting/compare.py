"""What a choice costs: the same pieces cut with few lengths or with any, nested or not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from takeoff.cutting.problem import LumberCutter, LumberProblem
from takeoff.cutting.stop import StopRule
from takeoff.model.stock import LumberCutting


@dataclass(frozen=True, slots=True, kw_only=True)
class Buying:
    """A number of lengths to buy of each profile and grade for one load, and what comes of it."""

    max_lengths: int | None
    """None: any number."""
    cutting: LumberCutting

    @property
    def lengths(self) -> int:
        """Different sticks bought, over all profiles, grades and loads."""
        return len({(b.load, b.profile, b.grade, b.stock_length_in) for b in self.cutting.boards if not b.on_hand})


def buyings(
    problem: LumberProblem, cutter: LumberCutter, stop: StopRule, choices: Sequence[int | None] = (1, 2, None)
) -> tuple[Buying, ...]:
    """The cost of buying one length only, two lengths, or any.

    Args:
        problem: what to cut, and from what.
        cutter: how.
        stop: when to be content, for each choice.
        choices: numbers of lengths to compare.
    """
    return tuple(
        Buying(max_lengths=most, cutting=cutter(replace(problem, max_lengths=most), stop=stop)) for most in choices
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Nesting:
    """What it saves that pieces with parallel ends lie against each other."""

    nested: LumberCutting
    apart: LumberCutting
    """The same pieces, each end cut for itself."""

    @property
    def saving_usd(self) -> float:
        """Saved money [$]; below zero where the searches weren't finished."""
        return self.apart.cost_usd - self.nested.cost_usd

    @property
    def shared_cuts(self) -> int:
        """Saw cuts that end a piece and start the next."""
        return sum(cut.lap_in > 0 for board in self.nested.boards for cut in board.cuts)

    @property
    def overlap_in(self) -> float:
        """By how much all the pieces' long points overlap [in]."""
        return sum(cut.lap_in for board in self.nested.boards for cut in board.cuts)


def nesting(problem: LumberProblem, cutter: LumberCutter, stop: StopRule) -> Nesting:
    """The pieces cut nested, and the same without rakes.

    Args:
        problem: what to cut, and from what.
        cutter: how.
        stop: when to be content, for each.
    """
    square = tuple(replace(piece, rakes_in=(0.0, 0.0)) for piece in problem.pieces)
    return Nesting(
        nested=cutter(problem, stop=stop),
        apart=cutter(replace(problem, pieces=square), stop=stop),
    )
