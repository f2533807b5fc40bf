"""The cutting of sticks: one question, answered by the cutter that is in use."""

from __future__ import annotations

from takeoff.cutting.exact.solve import solve
from takeoff.cutting.problem import LumberCutter, LumberProblem, Offer
from takeoff.cutting.stop import JOB_ROUNDS, EffortName, MaxRounds, StopRule
from takeoff.model.stock import LumberCutting

__all__ = ["LumberCutter", "LumberProblem", "Offer", "cut"]

_CUTTER: LumberCutter = solve


def cut(
    problem: LumberProblem, *, stop: StopRule | None = None, effort: EffortName = "normal", seed: int = 0
) -> LumberCutting:
    """Boards for all pieces of a problem, with a bound on how cheap they can be.

    Pieces share a stick only within a load, profile and grade. In a board the longest piece stands first and equal
    pieces stand together. A piece longer than every stick on sale gets a special one, a whole number of feet long.

    Args:
        problem: what to cut, and from what.
        stop: when to be content with what is found; without it, after the rounds of the effort.
        effort: how long to search. At its end the best found is given, with what is proven of it.
        seed: start of any chance the cutter takes.
    """
    return _CUTTER(problem, stop=stop or MaxRounds(JOB_ROUNDS[effort]), effort=effort, seed=seed)
