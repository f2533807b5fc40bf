"""Best fit of given pieces: blocks into rows, rows onto sheets; quick enough to compare many lay-ups by."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from takeoff.cutting.sheet.pricing import Pattern, Stock, Strip


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
    numbers: list[int]


@dataclass(slots=True)
class _Fill:
    rest: int
    rows: list[_Row]


class Fitter:
    """Fits the pieces of one stock."""

    def __init__(self, number: int, stock: Stock) -> None:
        """Put blocks and sources in order.

        Args:
            number: of the stock.
            stock: blocks and sources; the scarce ones among these are left alone.
        """
        self._number, self._blocks, self._sources = number, stock.blocks, stock.sources
        blocks = stock.blocks
        order = sorted(range(len(blocks)), key=lambda k: (-blocks[k].height, -len(blocks[k].parts), -blocks[k].length))
        # The first item of a block is told apart: where there is none left of it, as mostly, the rest isn't looked at.
        content = [(k, tuple(sorted(blocks[k].content.items()))) for k in order]
        self._content = [(k, *items[0], items[1:]) for k, items in content]
        self._on_sale = [(k, source) for k, source in enumerate(stock.sources) if source.qty is None]
        self._widest = max(source.width for _, source in self._on_sale)
        self.lengths = tuple(sorted({source.length for _, source in self._on_sale}))
        self._places = {number: place for place, number in enumerate(self._by_size())}
        self._cheapest: dict[tuple[int, int], int] = {}
        self._row_lengths: dict[tuple[int, int, int], int] = {}

    def _by_size(self) -> list[int]:
        """Blocks as they are put into rows: highest first, then longest."""
        blocks = self._blocks
        return sorted(range(len(blocks)), key=lambda k: (-blocks[k].height, -blocks[k].length, k))

    def score(self, wanted: Mapping[int, int]) -> Score:
        """The best of the ways to fit, without making the sheets."""
        taken = self._taken(wanted, nested=True)
        return min(self._scored(self._filled(taken, least)) for least in self.lengths)

    def patterns(self, wanted: Mapping[int, int]) -> tuple[Pattern, ...]:
        """Sheets by the best of the ways to fit, one of them without nesting."""
        taken = [self._taken(wanted, nested=nested) for nested in (True, False)]
        fills = min((self._filled(one, least) for least in self.lengths for one in taken), key=self._scored)
        return tuple(self._pattern(fill) for fill in fills)

    def _taken(self, wanted: Mapping[int, int], *, nested: bool) -> list[int]:
        """Blocks that together make what is wanted, highest first, then longest; nested ones before single pieces."""
        left = dict(wanted)
        taken: list[int] = []
        for number, item, n, others in self._content:
            times = left.get(item, 0) // n
            for other, m in others:
                if times < 1:
                    break
                times = min(times, left.get(other, 0) // m)
            if times < 1 or (not nested and len(self._blocks[number].parts) > 1):
                continue
            taken += [number] * times
            left[item] -= times * n
            for other, m in others:
                left[other] -= times * m
        return sorted(taken, key=self._places.__getitem__)

    def _filled(self, taken: Sequence[int], least: int) -> list[_Fill]:
        """Sheets with rows of these blocks; rows are for sheets at least so long, if that is long enough."""
        rows: list[_Row] = []
        for number in taken:
            block = self._blocks[number]
            row: _Row | None = None
            for one in rows:  # a plain loop: this is where the search spends its time
                if (
                    one.rest >= block.length
                    and one.height >= block.height
                    and (row is None or (one.height, one.rest) < (row.height, row.rest))
                ):
                    row = one
            if row is None:
                row = _Row(block.height, 0, self._length_for(block.length, block.height, least), [])
                row.rest = row.length
                rows.append(row)
            row.rest -= block.length
            row.numbers.append(number)
        fills: list[_Fill] = []
        for row in sorted(rows, key=lambda row: (-row.height, -row.length)):
            fill = min((f for f in fills if f.rest >= row.height), key=lambda f: f.rest, default=None)
            if fill is None:
                fill = _Fill(self._widest, [])
                fills.append(fill)
            fill.rest -= row.height
            fill.rows.append(row)
        return fills

    def _length_for(self, length: int, height: int, least: int) -> int:
        key = length, height, least
        if key not in self._row_lengths:
            holding = [s.length for _, s in self._on_sale if s.length >= length and s.width >= height]
            self._row_lengths[key] = min((one for one in holding if one >= least), default=max(holding))
        return self._row_lengths[key]

    def _source(self, fill: _Fill) -> int:
        """The cheapest that holds what a sheet got."""
        need = max(row.length - row.rest for row in fill.rows)
        high = sum(row.height for row in fill.rows)
        if (need, high) not in self._cheapest:
            holding = ((s.cost, s.length, k) for k, s in self._on_sale if s.length >= need and s.width >= high)
            self._cheapest[need, high] = min(holding)[2]
        return self._cheapest[need, high]

    def _scored(self, fills: Sequence[_Fill]) -> Score:
        cost, spread = 0, 0.0
        for fill in fills:
            source = self._sources[self._source(fill)]
            free = source.width * source.length - sum(row.height * (row.length - row.rest) for row in fill.rows)
            cost += source.cost
            spread -= source.cost * (free / (source.width * source.length)) ** 2
        return Score(cost, spread)

    def _pattern(self, fill: _Fill) -> Pattern:
        return Pattern(self._number, self._source(fill), tuple(self._strips(fill)))

    def _strips(self, fill: _Fill) -> Iterator[Strip]:
        for row in fill.rows:
            counts = {number: row.numbers.count(number) for number in sorted(set(row.numbers))}
            yield Strip(self._number, row.height, row.length - row.rest, tuple(counts.items()))
