"""The general solver, set up to be quiet, to work alone and to give the same answer every time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import highspy

_OPTIONS = (
    ("output_flag", False),
    ("threads", 1),
    ("random_seed", 0),
    ("parallel", "off"),
    ("mip_allow_restart", False),
)
_ROUNDING = 0.999
"""Of a step: a solution this near the bound is the best, all values being whole steps."""


class SolverError(RuntimeError):
    """The general solver failed: a fault of ours or its own, never of the problem."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sparse:
    """A programme: min cost * x, lower <= A x <= upper, 0 <= x <= most. Columns hold row numbers and entries."""

    costs: tuple[float, ...]
    columns: tuple[tuple[tuple[int, int], ...], ...]
    lower: tuple[float, ...]
    upper: tuple[float, ...]
    most: tuple[float, ...]
    whole: bool = False
    loose: int = 0
    """So many of the first columns need not be whole, even so."""


def quiet_solver() -> highspy.Highs:
    """A new solver. One thread: the number holds for the whole process, and another one later would fail.

    Restarts of the integer search are off: of programmes as small as these, each costs more than it saves.
    """
    import highspy

    solver: highspy.Highs = highspy.Highs()  # type: ignore[no-untyped-call]  # its stubs leave this one out
    for option, value in _OPTIONS:
        checked(solver.setOptionValue(option, value))
    return solver


def checked(status: object) -> None:
    """Stop at the first call that fails: the solver itself would only go on without a solution.

    Raises:
        SolverError: the status is an error.
    """
    import highspy

    if status == highspy.HighsStatus.kError:
        raise SolverError("the linear programming solver refused a call")


def passed(solver: highspy.Highs, programme: Sparse) -> None:
    """Give a programme to a solver."""
    import highspy
    import numpy as np

    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(programme.costs), len(programme.lower)
    lp.col_cost_ = np.array(programme.costs, dtype=np.double)
    lp.col_lower_ = np.zeros(len(programme.costs))
    lp.col_upper_ = np.array(programme.most, dtype=np.double)
    lp.row_lower_ = np.array(programme.lower, dtype=np.double)
    lp.row_upper_ = np.array(programme.upper, dtype=np.double)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    sizes = [len(column) for column in programme.columns]
    lp.a_matrix_.start_ = np.concatenate(([0], np.cumsum(sizes))).astype(np.int32)
    lp.a_matrix_.index_ = np.array([row for column in programme.columns for row, _ in column], dtype=np.int32)
    lp.a_matrix_.value_ = np.array([entry for column in programme.columns for _, entry in column], dtype=np.double)
    if programme.whole:
        kinds = highspy.HighsVarType
        integers = len(programme.costs) - programme.loose
        lp.integrality_ = [kinds.kContinuous] * programme.loose + [kinds.kInteger] * integers
    checked(solver.passModel(lp))


@dataclass(frozen=True, slots=True)
class Whole:
    """Answer of an integer programme."""

    counts: tuple[int, ...] | None
    """Of the columns, rounded; None where nothing was found."""
    complete: bool
    """There is nothing cheaper; with ``counts`` None: nothing at all, or nothing below what was asked for."""


def solved_whole(
    programme: Sparse, *, step: float, nodes: int, start: Sequence[int] | None = None, below: float | None = None
) -> Whole:
    """Solve an integer programme.

    Args:
        programme: with ``whole`` set.
        step: all values of the objective are multiples of it.
        nodes: limit of the search.
        start: a solution known already.
        below: only solutions that cost less are of interest.
    """
    import highspy
    import numpy as np

    solver = quiet_solver()
    for option, value in (("mip_rel_gap", 0.0), ("mip_abs_gap", _ROUNDING * step), ("mip_max_nodes", nodes)):
        checked(solver.setOptionValue(option, value))
    if below is not None:
        checked(solver.setOptionValue("objective_bound", below - step / 2))
    passed(solver, programme)
    if start is not None:
        checked(solver.setSolution(len(start), np.arange(len(start)), np.array(start, dtype=np.double)))
    checked(solver.run())
    status = solver.getModelStatus()
    ended = highspy.HighsModelStatus
    complete = status in (ended.kOptimal, ended.kInfeasible, ended.kObjectiveBound)
    if solver.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return Whole(None, complete)
    return Whole(tuple(round(value) for value in solver.getSolution().col_value), complete)
