"""Best fit of given pieces: blocks into rows, rows onto sheets; quick enough to compare many lay-ups by.

Stocks that have guests are cut first; what is left of their sheets is offered to the guests before any sheet of theirs.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from takeoff.cutting.sheet.block import Block
from takeoff.cutting.sheet.pricing import Pattern, Source, Stock, Strip


@dataclass(frozen=True, slots=True, order=True)
class Score:
    """What a fit costs. Of equally dear ones the better is the one whose rests lie together on fewer sheets."""

    cost: int
    """Of all sheets [cents]."""
    spread: float
    """Less where the same rest lies on fewer sheets."""


@dataclass(slots=True)
class _Row:
    height: int
    rest: int
    length: int
    """Of the sheets it is for."""
    blocks: list[Block]


@dataclass(slots=True)
class _Fill:
    stock: int
    rest: int
    rows: list[_Row]
    length: int = 0
    """Of the sheet, once that is settled."""


class Fitter:
    """Fits the pieces of several stocks."""

    def __init__(self, stocks: Sequence[Stock]) -> None:
        """Put blocks and sources in order.

        Args:
            stocks: blocks and sources; the scarce ones among these are left alone.
        """
        hosts = sorted(range(len(stocks)), key=lambda t: not stocks[t].guests)
        self._stocks = [_Fitting(t, stocks[t]) for t in hosts]
        self._of_stock = {fitting.number: fitting for fitting in self._stocks}

    def score(self, wanted: Mapping[int, int]) -> Score:
        """The best of the ways to fit, without making the sheets."""
        return min(self._scored(fills) for fills in self._ways(wanted, (True,)))

    def patterns(self, wanted: Mapping[int, int]) -> tuple[Pattern, ...]:
        """Sheets by the best of the ways to fit, one of them without nesting."""
        fills = min(self._ways(wanted, (True, False)), key=self._scored)
        return tuple(self._of_stock[fill.stock].pattern(fill) for fill in fills)

    def _ways(self, wanted: Mapping[int, int], nestings: Sequence[bool]) -> Iterator[list[_Fill]]:
        turns = max(len(fitting.lengths) for fitting in self._stocks)
        for nested in nestings:
            for turn in range(turns):
                fills: list[_Fill] = []
                for fitting in self._stocks:
                    least = fitting.lengths[min(turn, len(fitting.lengths) - 1)]
                    fitting.fill(fills, wanted, least, nested=nested)
                yield fills

    def _scored(self, fills: Sequence[_Fill]) -> Score:
        cost, spread = 0, 0.0
        for fill in fills:
            source = self._of_stock[fill.stock].source(fill)[1]
            whole = source.width * source.length
            free = whole - sum(row.height * (row.length - row.rest) for row in fill.rows)
            cost += source.cost
            spread -= source.cost * (free / whole) ** 2
        return Score(cost, spread)


class _Fitting:
    """Fits the pieces of one stock, into what is left of others first."""

    def __init__(self, number: int, stock: Stock) -> None:
        self.number, self._blocks, self._sources = number, stock.blocks, stock.sources
        self._numbers = {block: k for k, block in enumerate(stock.blocks)}
        own = [b for b in stock.blocks if not any(part.item in stock.guests for part in b.parts)]
        order = sorted(own, key=lambda b: (-b.height, -len(b.parts), -b.length))
        # The first item of a block is told apart: only blocks are looked at whose first item is wanted.
        content = [(block, tuple(sorted(block.content.items()))) for block in order]
        self._content = [(block, *items[0], items[1:]) for block, items in content]
        self._with_first: dict[int, list[int]] = {}
        for place, (_, item, *_) in enumerate(self._content):
            self._with_first.setdefault(item, []).append(place)
        self._on_sale = [(k, source) for k, source in enumerate(stock.sources) if source.qty is None]
        self._widest = max(source.width for _, source in self._on_sale)
        self.lengths = tuple(sorted({source.length for _, source in self._on_sale}))
        by_size = sorted(own, key=lambda b: (-b.height, -b.length, self._numbers[b]))
        self._places = {block: place for place, block in enumerate(by_size)}
        self._cheapest: dict[tuple[int, int], int] = {}
        self._row_lengths: dict[tuple[int, int, int], int] = {}

    def fill(self, fills: list[_Fill], wanted: Mapping[int, int], least: int, *, nested: bool) -> None:
        """Put blocks that make what is wanted into what is left of some sheets, and then onto sheets of its own.

        Args:
            fills: sheets so far, of stocks that have the pieces as guests; those of its own are added.
            wanted: how many of each item.
            least: rows are for sheets at least so long, if that is long enough [steps].
            nested: slanted pieces share saw cuts.
        """
        hosts = [row for fill in fills for row in fill.rows]
        rows: list[_Row] = []
        for block in self._taken(wanted, nested=nested):
            # Highest first: of two rows the lower, then the fuller.
            row = _best(hosts, block) if hosts else None
            if row is None:
                row = _on_rest(fills, hosts, block)
            if row is None:
                row = _best(rows, block)
            if row is None:
                row = _Row(block.height, 0, self._length_for(block.length, block.height, least), [])
                row.rest = row.length
                rows.append(row)
            row.rest -= block.length
            row.blocks.append(block)
        own: list[_Fill] = []
        for row in sorted(rows, key=lambda row: (-row.height, -row.length)):
            fill = min((f for f in own if f.rest >= row.height), key=lambda f: f.rest, default=None)
            if fill is None:
                fill = _Fill(self.number, self._widest, [])
                own.append(fill)
            fill.rest -= row.height
            fill.rows.append(row)
        for fill in own:
            fill.length = self.source(fill)[1].length
        fills += own

    def _taken(self, wanted: Mapping[int, int], *, nested: bool) -> list[Block]:
        """Blocks that together make what is wanted, highest first, then longest; nested ones before single pieces."""
        left = dict(wanted)
        taken: list[Block] = []
        for place in sorted(place for item in wanted for place in self._with_first.get(item, ())):
            block, item, n, others = self._content[place]
            times = left.get(item, 0) // n
            for other, m in others:
                if times < 1:
                    break
                times = min(times, left.get(other, 0) // m)
            if times < 1 or (not nested and len(block.parts) > 1):
                continue
            taken += [block] * times
            left[item] -= times * n
            for other, m in others:
                left[other] -= times * m
        return sorted(taken, key=self._places.__getitem__)

    def _length_for(self, length: int, height: int, least: int) -> int:
        key = length, height, least
        if key not in self._row_lengths:
            holding = [s.length for _, s in self._on_sale if s.length >= length and s.width >= height]
            self._row_lengths[key] = min((one for one in holding if one >= least), default=max(holding))
        return self._row_lengths[key]

    def source(self, fill: _Fill) -> tuple[int, Source]:
        """The cheapest that holds what a sheet got."""
        need = max(row.length - row.rest for row in fill.rows)
        high = sum(row.height for row in fill.rows)
        if (need, high) not in self._cheapest:
            holding = ((s.cost, s.length, k) for k, s in self._on_sale if s.length >= need and s.width >= high)
            self._cheapest[need, high] = min(holding)[2]
        k = self._cheapest[need, high]
        return k, self._sources[k]

    def pattern(self, fill: _Fill) -> Pattern:
        """A sheet as a pattern."""
        return Pattern(self.number, self.source(fill)[0], tuple(self._strips(fill)))

    def _strips(self, fill: _Fill) -> Iterator[Strip]:
        for row in fill.rows:
            numbers = Counter(self._numbers[block] for block in row.blocks)
            yield Strip(self.number, row.height, row.length - row.rest, tuple(sorted(numbers.items())))


def _best(rows: Sequence[_Row], block: Block) -> _Row | None:
    """The lowest row that a block fits into, of equally low ones the fullest."""
    best: _Row | None = None
    length, height = block.length, block.height
    for row in rows:  # a plain loop: this is where the search spends its time
        if (
            row.rest >= length
            and row.height >= height
            and (best is None or (row.height, row.rest) < (best.height, best.rest))
        ):
            best = row
    return best


def _on_rest(fills: Sequence[_Fill], hosts: list[_Row], block: Block) -> _Row | None:
    """A new row for a block, on what is left beside the rows of a sheet; None where it has no room."""
    holding = (f for f in fills if f.rest >= block.height and f.length >= block.length)
    fill = min(holding, key=lambda f: f.rest, default=None)
    if fill is None:
        return None
    row = _Row(block.height, fill.length, fill.length, [])
    fill.rest -= row.height
    fill.rows.append(row)
    hosts.append(row)
    return row
