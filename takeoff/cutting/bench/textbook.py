"""The textbook programme, solved by the general solver alone: every stick there might be, and what is cut from it.

Source
    Kantorovich, Mathematical methods of organizing and planning production, Management Science 6 (1960).
"""

from __future__ import annotations

from math import inf

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
    if boards * (len(instance.items) + len(instance.stocks) + len(instance.savings)) > _LARGEST or instance.scarce:
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
        chains = {instance.items[i].chain for i in content}
        nests = [float(chain in chains) for chain in range(len(instance.savings))]
        values += (stocks + nests + [float(content.get(i, 0)) for i in range(len(instance.items))]) * count
    return values


def _programme(instance: Instance, boards: int) -> Sparse:
    """Columns: for each board its stocks, its chains, its items.

    Rows: the items, then each board's room, then its use, then for each board and chain that it is opened.
    """
    items, stocks, savings = instance.items, instance.stocks, instance.savings
    columns: list[tuple[tuple[int, int], ...]] = []
    for board in range(boards):
        room, use = len(items) + board, len(items) + boards + board
        columns += (((room, -stock.capacity), (use, 1)) for stock in stocks)
        opened = len(items) + 2 * boards + board * len(savings)
        for chain, saving in enumerate(savings):
            pieces = sum(item.qty for item in items if item.chain == chain)
            columns.append(((room, saving), (opened + chain, -pieces)))
        for i, item in enumerate(items):
            if item.chain is None:
                columns.append(((i, 1), (room, item.width)))
            else:
                columns.append(((i, 1), (room, item.width - savings[item.chain]), (opened + item.chain, 1)))
    costs = [float(stock.cost) for stock in stocks] + [0.0] * (len(savings) + len(items))
    most = [1.0] * (len(stocks) + len(savings)) + [float(item.qty) for item in items]
    wanted = tuple(float(item.qty) for item in items)
    return Sparse(
        costs=tuple(costs * boards),
        columns=tuple(columns),
        lower=(
            *wanted,
            *(-inf for _ in range(boards)),
            *(0.0,) * boards,
            *(-inf for _ in range(boards * len(savings))),
        ),
        upper=(*wanted, *(0.0,) * boards, *(1.0,) * boards, *(0.0,) * (boards * len(savings))),
        most=tuple(most * boards),
        whole=True,
    )
