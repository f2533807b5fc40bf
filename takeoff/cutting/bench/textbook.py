"""The textbook programme, solved by the general solver alone: every stick there might be, and what is cut from it.

Source
    Kantorovich, Mathematical methods of organizing and planning production, Management Science 6 (1960).
"""

from __future__ import annotations

from takeoff.cutting.exact.instance import Instance
from takeoff.cutting.exact.pattern import Plan
from takeoff.cutting.exact.solver import Sparse, checked, passed, quiet_solver

_LARGEST = 20_000
"""Columns: above that the solver reads longer than it may search."""


def textbook_cost(instance: Instance, start: Plan, seconds: float) -> int | None:
    """Cost of the best plan found; None where the programme is too large to try.

    Args:
        instance: items and stocks.
        start: a plan to begin with; it may use as many sticks as that.
        seconds: limit of the search.
    """
    import highspy
    import numpy as np

    boards = start.boards
    if boards * (len(instance.items) + len(instance.stocks)) > _LARGEST or instance.savings or instance.scarce:
        return None
    solver = quiet_solver()
    checked(solver.setOptionValue("time_limit", seconds))
    passed(solver, _programme(instance, boards))
    known = np.array(_values(instance, start))
    checked(solver.setSolution(len(known), np.arange(len(known)), known))
    checked(solver.run())
    if solver.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    return round(solver.getObjectiveValue())


def _values(instance: Instance, plan: Plan) -> list[float]:
    """The columns' values of a plan."""
    values: list[float] = []
    for pattern, count in plan.uses:
        content = dict(pattern.content)
        stocks = [float(t == pattern.stock) for t in range(len(instance.stocks))]
        values += (stocks + [float(content.get(i, 0)) for i in range(len(instance.items))]) * count
    return values


def _programme(instance: Instance, boards: int) -> Sparse:
    """Columns: for each board its stocks, then its items. Rows: the items, then each board's room, then its use."""
    items, stocks = instance.items, instance.stocks
    columns: list[tuple[tuple[int, int], ...]] = []
    for board in range(boards):
        room, use = len(items) + board, len(items) + boards + board
        columns += (((room, -stock.capacity), (use, 1)) for stock in stocks)
        columns += (((i, 1), (room, item.width)) for i, item in enumerate(items))
    costs = [float(stock.cost) for stock in stocks] + [0.0] * len(items)
    most = [1.0] * len(stocks) + [float(item.qty) for item in items]
    wanted = tuple(float(item.qty) for item in items)
    return Sparse(
        costs=tuple(costs * boards),
        columns=tuple(columns),
        lower=(*wanted, *(-float(max(s.capacity for s in stocks)) for _ in range(boards)), *(0.0,) * boards),
        upper=(*wanted, *(0.0,) * boards, *(1.0,) * boards),
        most=tuple(most * boards),
        whole=True,
    )
