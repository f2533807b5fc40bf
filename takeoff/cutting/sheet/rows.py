"""The integer programme: whole rows on whole sheets, and one lay-up for each face."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf

from takeoff.cutting.exact.solver import Sparse, solved_whole
from takeoff.cutting.sheet.columns import Job
from takeoff.cutting.sheet.master import Choice, scarce_of
from takeoff.cutting.sheet.pricing import Pattern, Source, Stock, Strip

MOST_FILLINGS = 1500
"""Of ways to fill a sheet with rows only so many are listed."""

MOST_NODES = 60
"""Of the search. A count, not seconds: the same sheets on every machine."""

Filling = tuple[int, ...]
"""Heights of the rows of a sheet, highest first."""


@dataclass(frozen=True, slots=True)
class Filled:
    """A source of a stock, with room for rows."""

    stock: int
    source: int
    heights: Filling


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """Whole sheets and a choice for each face."""

    patterns: tuple[Pattern, ...]
    choices: tuple[Choice, ...]
    cost: int


def whole(job: Job, strips: Sequence[Strip], choices: Sequence[Choice]) -> Whole | None:
    """The cheapest sheets made of given rows, with the cheapest of given choices; None where none was found.

    Args:
        job: what to cut.
        strips: rows; of what isn't among them nothing is made.
        choices: for each face one or more.
    """
    heights = [
        sorted({strip.height for strip in strips if strip.stock == t}, reverse=True) for t in range(len(job.stocks))
    ]
    fillings = [
        Filled(t, k, filling)
        for t, stock in enumerate(job.stocks)
        for k, source in enumerate(stock.sources)
        for filling in _fillings(heights[t], source, MOST_FILLINGS)
    ]
    rows = _Rows(job, heights)
    columns = [rows.of_strip(strip) for strip in strips]
    columns += [rows.of_filling(filled) for filled in fillings]
    columns += [rows.of_choice(choice) for choice in choices]
    costs = [0.0] * len(strips)
    costs += [float(job.stocks[one.stock].sources[one.source].cost) for one in fillings]
    costs += [float(choice.cost) for choice in choices]
    answer = solved_whole(
        Sparse(
            costs=tuple(costs),
            columns=tuple(columns),
            lower=rows.lower,
            upper=rows.upper,
            most=(*(inf for _ in strips), *(inf for _ in fillings), *(1.0 for _ in choices)),
            whole=True,
        ),
        step=1.0,
        nodes=MOST_NODES,
    )
    if answer.counts is None:
        return None
    used = [strip for strip, n in zip(strips, answer.counts, strict=False) for _ in range(n)]
    filled = [filling for filling, n in zip(fillings, answer.counts[len(strips) :], strict=False) for _ in range(n)]
    chosen = [c for c, n in zip(choices, answer.counts[len(strips) + len(fillings) :], strict=True) if n]
    patterns = tuple(_put(used, filled, job.stocks))
    cost = sum(job.stocks[p.stock].sources[p.source].cost for p in patterns) + sum(choice.cost for choice in chosen)
    return Whole(patterns=patterns, choices=tuple(chosen), cost=cost)


class _Rows:
    """Numbers of the programme's rows: items, faces, room for rows of each height in each length, scarce sources."""

    def __init__(self, job: Job, heights: Sequence[Sequence[int]]) -> None:
        self._stocks = job.stocks
        items, self._face0 = len(job.wanted), len(job.wanted)
        self._lengths = [sorted({source.length for source in stock.sources}) for stock in job.stocks]
        start = items + job.faces
        keys = [
            (t, height, length) for t in range(len(job.stocks)) for height in heights[t] for length in self._lengths[t]
        ]
        self._room = {key: start + row for row, key in enumerate(keys)}
        limits = scarce_of(job.stocks)
        self._scarce = {key: start + len(keys) + row for row, key in enumerate(limits)}
        ones, wanted = [1.0] * job.faces, [float(n) for n in job.wanted]
        self.lower = (*wanted, *ones, *(0.0 for _ in keys), *(-inf for _ in limits))
        self.upper = (*(inf for _ in wanted), *ones, *(inf for _ in keys), *(float(n) for n in limits.values()))

    def of_strip(self, strip: Strip) -> tuple[tuple[int, int], ...]:
        """A row makes its pieces and takes room of its height, in the lengths up to the least that holds it."""
        counts = Counter[int]()
        for number, n in strip.content:
            for item, k in self._stocks[strip.stock].blocks[number].content.items():
                counts[item] += n * k
        lengths = self._lengths[strip.stock]
        needs = min(length for length in lengths if length >= strip.length)
        room = [(self._room[strip.stock, strip.height, length], -1) for length in lengths if length <= needs]
        return (*sorted(counts.items()), *room)

    def of_filling(self, filled: Filled) -> tuple[tuple[int, int], ...]:
        """A sheet gives room for rows as long as it, or shorter."""
        source = self._stocks[filled.stock].sources[filled.source]
        room = [
            (self._room[filled.stock, height, length], n)
            for height, n in sorted(Counter(filled.heights).items())
            for length in self._lengths[filled.stock]
            if length <= source.length
        ]
        key = filled.stock, filled.source
        return (*room, *(((self._scarce[key], 1),) if key in self._scarce else ()))

    def of_choice(self, choice: Choice) -> tuple[tuple[int, int], ...]:
        """A lay-up needs its pieces."""
        return (*((item, -count) for item, count in choice.needs), (self._face0 + choice.face, 1))


def _fillings(heights: Sequence[int], source: Source, most: int) -> Iterator[Filling]:
    """Ways to fill a sheet that leave no room for another row; the highest rows first."""
    least = heights[-1] if heights else 0
    stack: list[tuple[int, int, Filling]] = [(0, source.width, ())]
    given = 0
    while stack and given < most:
        first, room, filling = stack.pop()
        if room < least:
            yield filling
            given += 1
            continue
        nexts = [k for k in range(first, len(heights)) if heights[k] <= room]
        stack += [(k, room - heights[k], (*filling, heights[k])) for k in reversed(nexts)]


def _put(strips: Sequence[Strip], filled: Sequence[Filled], stocks: Sequence[Stock]) -> Iterator[Pattern]:
    """Rows put into the room there is for them: the longest rows into the longest sheets."""
    waiting: dict[tuple[int, int], list[Strip]] = {}
    for strip in sorted(strips, key=lambda s: s.length):
        waiting.setdefault((strip.stock, strip.height), []).append(strip)

    def longest_first(one: Filled) -> tuple[int, int, int]:
        return (one.stock, -stocks[one.stock].sources[one.source].length, one.source)

    for one in sorted(filled, key=longest_first):
        got = []
        for height in one.heights:
            ready = waiting.get((one.stock, height), [])
            # All that are longer have their place already, in longer sheets.
            if ready and ready[-1].length <= stocks[one.stock].sources[one.source].length:
                got.append(ready.pop())
        if got:
            yield Pattern(one.stock, one.source, tuple(got))
