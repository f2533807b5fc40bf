"""What a choice costs: the same pieces cut with few lengths or with any, nested or not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from takeoff.cutting.exact.effort import ESTIMATE
from takeoff.cutting.exact.solve import solve_with
from takeoff.cutting.problem import LumberProblem
from takeoff.cutting.stop import MaxRounds
from takeoff.model.comparison import Buying, Comparison, Nesting
from takeoff.model.stock import LumberCutting

_CHOICES = (1, 2, None)


def compared(problem: LumberProblem, cutting: LumberCutting) -> Comparison:
    """The cutting of a problem beside others: bought in one length only, in two, in any; and with no ends nested.

    The others are searched less long than the cutting itself, so that what they cost may be a little too much.

    Args:
        problem: what was cut, and from what.
        cutting: what came of it.
    """
    return Comparison(buyings=buyings(problem, cutting), nesting=nesting(problem, cutting))


def buyings(
    problem: LumberProblem, cutting: LumberCutting, choices: Sequence[int | None] = _CHOICES
) -> tuple[Buying, ...]:
    """The cost of buying one length only, two lengths, or any, and as many as the problem says.

    Nothing is compared where no price is known, or where stock is too scarce for a choice.
    """
    if not cutting.cost_usd:
        return ()
    numbers = sorted({*choices, problem.max_lengths}, key=lambda most: (most is None, most))
    found = ((most, _bought(problem, cutting, most)) for most in numbers)
    return tuple(_buying(most, one, chosen=one is cutting) for most, one in found if one is not None)


def _bought(problem: LumberProblem, cutting: LumberCutting, most: int | None) -> LumberCutting | None:
    return cutting if most == problem.max_lengths else _estimated(replace(problem, max_lengths=most))


def _estimated(problem: LumberProblem) -> LumberCutting | None:
    """A cutting found soon; None where stock is limited, and there isn't enough of it."""
    try:
        return solve_with(problem, stop=MaxRounds(), effort=ESTIMATE)
    except ValueError:
        return None


def _buying(most: int | None, cutting: LumberCutting, *, chosen: bool) -> Buying:
    bought = [board for board in cutting.boards if not board.on_hand]
    return Buying(
        max_lengths=most,
        cost_usd=cutting.cost_usd,
        bound_usd=cutting.bound_usd,
        boards=len(bought),
        lengths=len({(b.load, b.profile, b.grade, b.stock_length_in) for b in bought}),
        chosen=chosen,
    )


def nesting(problem: LumberProblem, cutting: LumberCutting) -> Nesting | None:
    """The pieces as cut beside the same with each end cut for itself; None where none lie against each other."""
    laps = [cut.lap_in for board in cutting.boards for cut in board.cuts if cut.lap_in]
    square = tuple(replace(piece, rakes_in=(0.0, 0.0)) for piece in problem.pieces)
    apart = _estimated(replace(problem, pieces=square)) if laps else None
    if apart is None:
        return None
    return Nesting(
        apart_usd=apart.cost_usd,
        saving_usd=apart.cost_usd - cutting.cost_usd,
        shared_cuts=len(laps),
        overlap_in=sum(laps),
    )
