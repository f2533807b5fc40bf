"""The best patterns for given values of the items: one table serves all stocks.

Row r of the table holds, for every capacity, the best value that the first r steps reach. A step is an item, cut any
number of times up to a bound, or the opening or the closing of a chain of items that nest.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeoff.cutting.exact.instance import Instance
from takeoff.cutting.exact.pattern import Content, Pattern, content_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Values = NDArray[np.int64]

_SAFE = 2**29  # twice this still fits into 32 bits, so that a sum of two entries never overflows


@dataclass(frozen=True, slots=True)
class _Take:
    item: int
    width: int
    value: int
    bound: int


@dataclass(frozen=True, slots=True)
class _Open:
    saving: int


@dataclass(frozen=True, slots=True)
class _Close:
    base: int
    """Row before the chain was opened."""


_Step = _Take | _Open | _Close


@dataclass(frozen=True, slots=True)
class Table:
    """Best values by steps and capacity. ``steps[r - 1]`` made row r; ``plain`` rows are of items that don't nest."""

    steps: tuple[_Step, ...]
    plain: int
    rows: Values

    def best(self, capacity: int) -> int:
        """The most that the content of a capacity can be worth."""
        return int(self.rows[-1, capacity])

    def best_content(self, capacity: int) -> Content:
        """A content of that worth."""
        return content_of(self._trace(len(self.steps), capacity, {}))

    def _trace(self, r: int, c: int, counts: dict[int, int]) -> dict[int, int]:
        """Walk back to the pieces that make the value of row r at capacity c, adding them to counts."""
        import numpy as np

        while r > 0 and (value := int(self.rows[r, c])) > 0:
            if r <= self.plain:  # the values of a column never fall: the first row that has this one holds a piece
                r = int(np.searchsorted(self.rows[: r + 1, c], value))
            step = self.steps[r - 1]
            if isinstance(step, _Close):
                r = step.base if self.rows[step.base, c] == value else r - 1
            elif isinstance(step, _Open):
                r, c = r - 1, c - step.saving
            elif self.rows[r - 1, c] == value:
                r -= 1
            else:
                n = next(n for n in range(1, step.bound + 1) if self._holds(r, c, step, n, value))
                counts[step.item] = counts.get(step.item, 0) + n
                r, c = r - 1, c - n * step.width
        return counts

    def _holds(self, r: int, c: int, step: _Take, n: int, value: int) -> bool:
        return n * step.width <= c and int(self.rows[r - 1, c - n * step.width]) + n * step.value == value

    def cheapest(self, instance: Instance, costs: Sequence[int], most: int) -> Iterator[Pattern]:
        """The best pattern of each stock, then for each item those that are best with one of it, cheapest first.

        Args:
            instance: what the table was made for.
            costs: of the stocks, in the measure of the values; a stock that may not be used has a negative one.
            most: how many of the second kind.
        """
        import numpy as np

        usable = [t for t, cost in enumerate(costs) if cost >= 0]
        for t in usable:
            content = self.best_content(instance.stocks[t].capacity)
            if self.best(instance.stocks[t].capacity) > costs[t]:
                yield Pattern(t, content)
        takes = [(r, step) for r, step in enumerate(self.steps, start=1) if isinstance(step, _Take)]
        if not takes or not usable:
            return
        rows = np.array([r - 1 for r, _ in takes])[:, None]
        rests = np.array([[instance.stocks[t].capacity - step.width for t in usable] for _, step in takes])
        worth = self.rows[rows, np.maximum(rests, 0)].astype(np.int64) + np.array([[step.value] for _, step in takes])
        reduced = np.where((rests >= 0) & (worth > 0), np.array([costs[t] for t in usable]) - worth, 0).ravel()
        for at in np.argsort(reduced, kind="stable")[:most]:
            if reduced[at] >= 0:
                return
            (r, step), t = takes[at // len(usable)], usable[at % len(usable)]
            rest = instance.stocks[t].capacity - step.width
            yield Pattern(t, content_of(self._trace(r - 1, rest, {step.item: 1})))


def filled_table(instance: Instance, values: Sequence[int], bounds: Sequence[int]) -> Table:
    """The table for whole-number values of the items.

    Args:
        instance: items and stocks.
        values: of each item; those of 0 or less are left out.
        bounds: the most of each item in one pattern.

    Source:
        Bounded knapsack by doubling: Kellerer, Pferschy and Pisinger, Knapsack Problems (2004), section 7.1.1.
    """
    import numpy as np

    longest = max((stock.capacity for stock in instance.stocks), default=0)
    steps = tuple(_steps(instance, values, bounds, longest))
    plain = next((r for r, step in enumerate(steps) if isinstance(step, _Open)), len(steps))
    rows = np.zeros((len(steps) + 1, longest + 1), dtype=np.int32 if _most(steps, longest) < _SAFE else np.int64)
    for r, step in enumerate(steps, start=1):
        _fill(rows, r, step)
    return Table(steps, plain, rows)


def _most(steps: Sequence[_Step], longest: int) -> int:
    """No content is worth more: that of the items alone, or of the densest of them over the whole length."""
    takes = [step for step in steps if isinstance(step, _Take)]
    alone = sum(step.value * step.bound for step in takes)
    return min(alone, max((step.value * longest // step.width + 1 for step in takes), default=0))


def _steps(instance: Instance, values: Sequence[int], bounds: Sequence[int], longest: int) -> Iterator[_Step]:
    """Items that don't nest first: an instance has them first."""
    chain, made, base = None, 0, 0
    for i, item in enumerate(instance.items):
        if values[i] <= 0 or bounds[i] <= 0 or item.width > longest:
            continue
        if item.chain != chain:
            if chain is not None:
                yield _Close(base)
                made += 1
            chain, base = item.chain, made
            if chain is not None:
                yield _Open(instance.savings[chain])
                made += 1
        saving = 0 if item.chain is None else instance.savings[item.chain]
        width = item.width - saving
        yield _Take(i, width, values[i], min(bounds[i], (longest - saving) // width))
        made += 1
    if chain is not None:
        yield _Close(base)


def _fill(rows: Values, r: int, step: _Step) -> None:
    import numpy as np

    row, before = rows[r], rows[r - 1]
    if isinstance(step, _Open):
        row[: step.saving] = np.iinfo(rows.dtype).min // 2  # no room to open the chain
        row[step.saving :] = before[: len(row) - step.saving]
    elif isinstance(step, _Close):
        np.maximum(before, rows[step.base], out=row)
    else:
        row[:] = before
        for n in _doubled(step.bound):
            shift = n * step.width
            if shift < len(row):
                np.maximum(row[shift:], row[:-shift] + n * step.value, out=row[shift:])


def _doubled(bound: int) -> Iterator[int]:
    """1, 2, 4 and so on, and a rest: their sums are all numbers up to the bound."""
    n = 1
    while bound > 0:
        yield min(n, bound)
        bound -= n
        n *= 2
