"""The linear programme: sheets that make what is wanted, and a lay-up for each face, at least cost."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import inf

from takeoff.cutting.exact.solver import Sparse, checked, passed, quiet_solver
from takeoff.cutting.sheet.pricing import Pattern, Stock

_PRIMAL_SIMPLEX = 4
"""Columns are added to an optimal basis, which stays feasible."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to lay a whole face: the pieces it needs, and what it costs beside them."""

    face: int
    needs: tuple[tuple[int, int], ...]
    """Items and how many of each."""
    cost: int


@dataclass(frozen=True, slots=True)
class Relaxed:
    """Optimum of the linear programme."""

    cost: float
    worths: tuple[float, ...]
    """Of a piece of each item."""
    faces: tuple[float, ...]
    """What covering each face costs."""
    premiums: Mapping[tuple[int, int], float]
    """What one more of a scarce source would save, by stock and source."""


class Master:
    """Rows for items, faces and scarce sources; columns for patterns and choices as they come."""

    def __init__(self, wanted: Sequence[int], faces: int, stocks: Sequence[Stock]) -> None:
        """Set up without columns.

        Args:
            wanted: how many pieces of each item beside those that choices need.
            faces: how many faces there are to choose for.
            stocks: what is cut from.
        """
        self._items, self._faces = len(wanted), faces
        limits = scarce_of(stocks)
        self._scarce = {key: len(wanted) + faces + row for row, key in enumerate(limits)}
        scarce = [float(n) for n in limits.values()]
        self._stocks = stocks
        self._solver = quiet_solver()
        for option, value in (("presolve", "off"), ("simplex_strategy", _PRIMAL_SIMPLEX), ("solver", "simplex")):
            checked(self._solver.setOptionValue(option, value))
        passed(
            self._solver,
            Sparse(
                costs=(),
                columns=(),
                lower=(*(float(n) for n in wanted), *(1.0 for _ in range(faces)), *(-inf for _ in scarce)),
                upper=(*(inf for _ in wanted), *(1.0 for _ in range(faces)), *scarce),
                most=(),
            ),
        )

    def add_patterns(self, patterns: Iterable[Pattern]) -> None:
        """Add sheets."""
        for pattern in patterns:
            entries: dict[int, int] = dict(made(pattern, self._stocks))
            key = pattern.stock, pattern.source
            if key in self._scarce:
                entries[self._scarce[key]] = 1
            self._add(float(self._stocks[pattern.stock].sources[pattern.source].cost), entries)

    def add_choices(self, choices: Iterable[Choice]) -> None:
        """Add lay-ups."""
        for choice in choices:
            entries = {item: -count for item, count in choice.needs}
            entries[self._items + choice.face] = 1
            self._add(float(choice.cost), entries)

    def _add(self, cost: float, entries: Mapping[int, int]) -> None:
        import numpy as np

        rows = sorted(entries)
        index, values = np.array(rows, dtype=np.int32), np.array([float(entries[row]) for row in rows])
        checked(self._solver.addCol(cost, 0.0, inf, len(rows), index, values))

    def solve(self) -> Relaxed:
        """The optimum over the columns added so far."""
        checked(self._solver.run())
        duals = list(self._solver.getSolution().row_dual)
        return Relaxed(
            cost=self._solver.getObjectiveValue(),
            worths=tuple(max(0.0, dual) for dual in duals[: self._items]),
            faces=tuple(duals[self._items : self._items + self._faces]),
            premiums={key: max(0.0, -duals[row]) for key, row in self._scarce.items()},
        )


def scarce_of(stocks: Sequence[Stock]) -> Mapping[tuple[int, int], int]:
    """How many there are of the sources that aren't to be had at will, by stock and source."""
    return {
        (t, k): source.qty
        for t, stock in enumerate(stocks)
        for k, source in enumerate(stock.sources)
        if source.qty is not None
    }


def made(pattern: Pattern, stocks: Sequence[Stock]) -> Mapping[int, int]:
    """How many pieces of each item a pattern makes."""
    blocks = stocks[pattern.stock].blocks
    counts: dict[int, int] = {}
    for strip in pattern.strips:
        for number, n in strip.content:
            for item, k in blocks[number].content.items():
                counts[item] = counts.get(item, 0) + n * k
    return counts
