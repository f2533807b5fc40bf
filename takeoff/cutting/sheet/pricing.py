"""Pricing: the best row of every height and length, and the best sheet of such rows, for given worths of pieces."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from takeoff.cutting.sheet.block import Block

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

ALIKE = 3
"""Of blocks of one length and height only so many are tried, the worthiest."""

RowContent = tuple[tuple[int, int], ...]
"""Numbers of blocks, each with how often it stands in a row."""


@dataclass(frozen=True, slots=True)
class Source:
    """What rows are cut from: a sheet on sale, or what is cut out of pieces for an opening."""

    length: int
    width: int
    cost: int
    qty: int | None = None
    """How many there are; None: as many as wanted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """One product: the blocks that are cut from it, lowest first, and what it is cut from."""

    blocks: tuple[Block, ...]
    sources: tuple[Source, ...]
    guests: frozenset[int] = frozenset()
    """Items of another product that may be cut from it as well."""


@dataclass(frozen=True, slots=True, order=True)
class Strip:
    """A row: its stock, its height, the length it takes, and its blocks."""

    stock: int
    height: int
    length: int
    content: RowContent


@dataclass(frozen=True, slots=True)
class Pattern:
    """A source of a stock and the rows cut from it."""

    stock: int
    source: int
    strips: tuple[Strip, ...]


class Pricer:
    """Finds the worthiest patterns of one stock."""

    def __init__(self, number: int, stock: Stock, most: Sequence[int]) -> None:
        """Set up the tables.

        Args:
            number: of the stock.
            stock: blocks and sources.
            most: how many pieces of each item are of use at most.
        """
        import numpy as np

        self._number = number
        self.blocks, self.sources = blocks, sources = stock.blocks, stock.sources
        self._counts = [block.content for block in blocks]
        self._most = [min(most[item] // n for item, n in content.items()) for content in self._counts]
        width = max(len(block.parts) for block in blocks)
        spare = len(most)
        self._parts = np.array(
            [[p.item for p in block.parts] + [spare] * (width - len(block.parts)) for block in blocks], dtype=np.int64
        )
        self._longest = max(source.length for source in sources)
        self.heights = tuple(sorted({block.height for block in blocks}))
        self._rows: list[NDArray[np.int64]] = []
        self._row_blocks: list[int] = []
        self._upto: dict[int, int] = {}

    def price(self, worths: Sequence[int]) -> None:
        """Fill the tables for worths of the items, whole numbers."""
        import numpy as np

        of_blocks = np.append(np.array(worths, dtype=np.int64), 0)[self._parts].sum(axis=1)
        best = np.zeros(self._longest + 1, dtype=np.int64)
        self._rows, self._row_blocks = [best], [-1]
        for height, numbers in groupby(range(len(self.blocks)), key=lambda k: self.blocks[k].height):
            for number in self._worthiest(numbers, of_blocks):
                best = self._with(best, number, int(of_blocks[number]))
                self._rows.append(best)
                self._row_blocks.append(number)
            self._upto[height] = len(self._rows) - 1
        self._worth = of_blocks

    def _worthiest(self, numbers: Iterator[int], worth: NDArray[np.int64]) -> Iterator[int]:
        for _, alike in groupby(numbers, key=lambda k: self.blocks[k].length):
            useful = [k for k in alike if worth[k] > 0 and self._most[k] > 0]
            yield from sorted(useful, key=lambda k: -int(worth[k]))[:ALIKE]

    def _with(self, best: NDArray[np.int64], number: int, worth: int) -> NDArray[np.int64]:
        """The table with up to as many of one block as are of use."""
        import numpy as np

        length = self.blocks[number].length
        left = min(self._most[number], self._longest // length)
        new, group = best.copy(), 1
        while left > 0:
            take = min(group, left)
            span = take * length
            if span > self._longest:
                break
            np.maximum(new[span:], new[:-span] + take * worth, out=new[span:])
            left -= take
            group *= 2
        return new

    def strip(self, height: int, length: int) -> tuple[int, Strip]:
        """The worthiest row of a height within a length, and its worth."""
        row = self._upto[height]
        worth = int(self._rows[row][length])
        return worth, self._traced(row, length)

    def _traced(self, row: int, length: int) -> Strip:
        """The row behind a worth in a table: from the last block back, as few of each as explain it."""
        content, at, height = list[tuple[int, int]](), length, 0
        while self._rows[row][at] > 0:
            worth = int(self._rows[row][at])
            # Tables never fall from one to the next: the first that has this worth ends with a block that stands here.
            row = bisect_left(range(row), worth, key=lambda k: int(self._rows[k][at]))
            number, count = self._row_blocks[row], 1
            long, each = self.blocks[number].length, int(self._worth[number])
            row -= 1
            while int(self._rows[row][at - count * long]) + count * each != worth:
                count += 1
            content.append((number, count))
            at -= count * long
            height = max(height, self.blocks[number].height)
        used = sum(self.blocks[number].length * count for number, count in content)
        return Strip(self._number, height, used, tuple(sorted(content)))

    def holding(self, number: int, length: int) -> Strip | None:
        """The worthiest row that holds a block and nothing higher; None where the block is too long."""
        block = self.blocks[number]
        if block.length > length or self._most[number] < 1:
            return None
        rest = self._traced(self._upto[block.height], length - block.length)
        counts = dict(rest.content)
        counts[number] = counts.get(number, 0) + 1
        return Strip(self._number, block.height, rest.length + block.length, tuple(sorted(counts.items())))

    def patterns(self) -> Iterator[tuple[int, Pattern]]:
        """For each source its worthiest pattern, with its worth; then the worthiest that have a row of each height."""
        for k, source in enumerate(self.sources):
            kept, fillings = self._filled(source)
            held = [
                (worth + int(fillings[-1][source.width - height]), height, source.width - height)
                for height, worth in kept
            ]
            best = int(fillings[-1][-1])
            yield best, self._pattern(k, self._heights(kept, fillings, source.width))
            for worth, height, rest in sorted(held, reverse=True):
                if worth < best:
                    yield worth, self._pattern(k, [height, *self._heights(kept, fillings, rest)])

    def _pattern(self, source: int, heights: Sequence[int]) -> Pattern:
        rows = (self.strip(height, self.sources[source].length)[1] for height in heights)
        return Pattern(self._number, source, tuple(sorted((row for row in rows if row.content), reverse=True)))

    def _filled(self, source: Source) -> tuple[list[tuple[int, int]], list[NDArray[np.int64]]]:
        """Heights of rows that are of use in a source, with their worths, and the tables of filling it with them."""
        import numpy as np

        best = np.zeros(source.width + 1, dtype=np.int64)
        tables, kept, before = [best], list[tuple[int, int]](), 0
        for height in self.heights:
            worth = int(self._rows[self._upto[height]][source.length])
            if worth <= before or height > source.width:
                continue  # a lower row is worth as much
            before = worth
            best, group, left = best.copy(), 1, source.width // height
            while left > 0:
                take = min(group, left)
                span = take * height
                np.maximum(best[span:], best[:-span] + take * worth, out=best[span:])
                left -= take
                group *= 2
            tables.append(best)
            kept.append((height, worth))
        return kept, tables

    @staticmethod
    def _heights(kept: list[tuple[int, int]], tables: list[NDArray[np.int64]], room: int) -> list[int]:
        """Heights of the rows behind the last table's worth for some room."""
        heights, at = list[int](), room
        for k in range(len(kept), 0, -1):
            height, worth = kept[k - 1]
            start, count = int(tables[k][at]), 0
            while int(tables[k - 1][at - count * height]) + count * worth != start:
                count += 1
            heights += [height] * count
            at -= count * height
        return heights
