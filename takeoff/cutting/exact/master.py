"""The linear programme over the patterns at hand: how often to cut each, and what a piece of each item is worth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import inf

from takeoff.cutting.exact.instance import Instance
from takeoff.cutting.exact.pattern import Pattern
from takeoff.cutting.exact.solver import Sparse, checked, passed, quiet_solver

_PRIMAL_SIMPLEX = 4
"""Columns are added to an optimal basis, which stays feasible."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Relaxed:
    """Optimum of the linear programme."""

    cost: float
    uses: tuple[float, ...]
    """Of the patterns, in the order in which they were added."""
    prices: tuple[float, ...]
    """Of a piece of each item."""
    premiums: tuple[float, ...]
    """What one more stick of each stock would save; 0 where it isn't scarce."""
    missing: tuple[float, ...]
    """Pieces of each item that the stock doesn't suffice for."""


class Master:
    """Starts with rows for the items and the scarce stocks, and takes patterns as they come.

    Items that no plentiful stock holds have a costly column of their own for pieces that can't be had.
    """

    def __init__(self, instance: Instance, rest: Sequence[int], left: Mapping[int, int]) -> None:
        """Set up without patterns.

        Args:
            instance: items and stocks.
            rest: how many pieces of each item are still wanted.
            left: how many sticks there are of each scarce stock.
        """
        self._instance = instance
        self._rows = {i: row for row, i in enumerate(i for i, n in enumerate(rest) if n)}
        self._stock_rows = {t: len(self._rows) + row for row, t in enumerate(left)}
        plentiful = max((stock.capacity for t, stock in enumerate(instance.stocks) if t not in left), default=0)
        self._short = tuple(i for i in self._rows if instance.items[i].width > plentiful)
        self._solver = quiet_solver()
        for option, value in (("presolve", "off"), ("simplex_strategy", _PRIMAL_SIMPLEX), ("solver", "simplex")):
            checked(self._solver.setOptionValue(option, value))
        passed(
            self._solver,
            Sparse(
                costs=tuple(float(self._dear(left)) for _ in self._short),
                columns=tuple(((self._rows[i], 1),) for i in self._short),
                lower=(*(float(rest[i]) for i in self._rows), *(-inf for _ in left)),
                upper=(*(inf for _ in self._rows), *(float(n) for n in left.values())),
                most=tuple(inf for _ in self._short),
            ),
        )

    def _dear(self, left: Mapping[int, int]) -> int:
        """Dearer than all scarce sticks together, so that a piece is given up only where there is no stick for it."""
        return 100 * (1 + sum(self._instance.stocks[t].cost * n for t, n in left.items()))

    def add(self, patterns: Iterable[Pattern]) -> None:
        """Add patterns as columns."""
        import numpy as np

        costs, entries = list[float](), list[float]()
        starts, index = list[int](), list[int]()
        for pattern in patterns:
            starts.append(len(index))
            costs.append(float(self._instance.stocks[pattern.stock].cost))
            for i, count in pattern.content:
                index.append(self._rows[i])
                entries.append(float(count))
            if pattern.stock in self._stock_rows:
                index.append(self._stock_rows[pattern.stock])
                entries.append(1.0)
        number = len(costs)
        checked(
            self._solver.addCols(
                number,
                np.array(costs),
                np.zeros(number),
                np.full(number, inf),
                len(index),
                np.array(starts, dtype=np.int32),
                np.array(index, dtype=np.int32),
                np.array(entries),
            )
        )

    def solve(self) -> Relaxed:
        """The optimum over the patterns added so far."""
        checked(self._solver.run())
        solution = self._solver.getSolution()
        values, duals = list(solution.col_value), list(solution.row_dual)
        prices, missing = [0.0] * len(self._instance.items), [0.0] * len(self._instance.items)
        premiums = [0.0] * len(self._instance.stocks)
        for i, row in self._rows.items():
            prices[i] = max(0.0, duals[row])
        for t, row in self._stock_rows.items():
            premiums[t] = max(0.0, -duals[row])
        for i, value in zip(self._short, values, strict=False):
            missing[i] = value
        return Relaxed(
            cost=self._solver.getObjectiveValue(),
            uses=tuple(values[len(self._short) :]),
            prices=tuple(prices),
            premiums=tuple(premiums),
            missing=tuple(missing),
        )
