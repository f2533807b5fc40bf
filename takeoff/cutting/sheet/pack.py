"""Given pieces, cut from sheets at least cost."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from takeoff.cutting.best_fit import best_fit
from takeoff.cutting.sheet.columns import SCALE, Columns, Job, generated
from takeoff.cutting.sheet.pricing import Pattern, Stock, Strip
from takeoff.cutting.sheet.rows import whole

MOST_STRIPS = 600
"""Rows that the integer programme may use: those that the linear one finds worth most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """Sheets, and what is known of their cost [cents]."""

    patterns: tuple[Pattern, ...]
    cost: int
    bound: int


def packed(job: Job) -> Packed:
    """The cheapest sheets found for a job without choices, and what no sheets cut in rows cost less than."""
    start = first_patterns(job)
    columns = generated(job, start)
    best = cost_of(start, job.stocks), start
    if best[0] > columns.bound:
        found = whole(job, useful(job, columns, start), ())
        if found is not None and found.cost < best[0]:
            best = found.cost, found.patterns
    return Packed(patterns=best[1], cost=best[0], bound=min(columns.bound, best[0]))


def useful(job: Job, columns: Columns, start: Sequence[Pattern]) -> tuple[Strip, ...]:
    """Rows for the integer programme: those of the start, and the others that are worth most for their size."""
    kept = dict.fromkeys(strip for pattern in start for strip in pattern.strips)

    def rank(strip: Strip) -> tuple[float, Strip]:
        worth = sum(
            n * k * columns.worths[item]
            for number, n in strip.content
            for item, k in job.stocks[strip.stock].blocks[number].content.items()
        )
        return (-worth / SCALE / strip.height, strip)

    ranked = sorted((strip for strip in columns.strips if strip not in kept), key=rank)
    return (*kept, *ranked[:MOST_STRIPS])


def cost_of(patterns: Sequence[Pattern], stocks: Sequence[Stock]) -> int:
    """What some sheets cost [cents]."""
    return sum(stocks[pattern.stock].sources[pattern.source].cost for pattern in patterns)


def first_patterns(job: Job) -> tuple[Pattern, ...]:
    """Sheets by best fit, the cheapest of a few ways: something to start from, and the mark to beat."""
    return tuple(
        pattern for t, stock in enumerate(job.stocks) for pattern in _first_of(t, stock, job.wanted, job.stocks)
    )


def _first_of(t: int, stock: Stock, wanted: Sequence[int], stocks: Sequence[Stock]) -> tuple[Pattern, ...]:
    lengths = sorted({source.length for source in stock.sources if source.qty is None})
    ways = [
        tuple(_fitted(t, stock, tuple(_taken(stock, wanted, nested=nested)), least))
        for least in lengths
        for nested in (True, False)
    ]
    return min(ways, key=lambda patterns: (cost_of(patterns, stocks), len(patterns)))


def _fitted(t: int, stock: Stock, taken: Sequence[int], least: int) -> Iterator[Pattern]:
    """Blocks into rows and rows onto sheets by best fit; sheets are at least so long, if that is long enough."""
    on_sale = [(k, source) for k, source in enumerate(stock.sources) if source.qty is None]
    rows: list[tuple[int, int, list[int]]] = []  # height, length that is left, numbers of blocks
    for number in taken:
        block = stock.blocks[number]
        fits = [k for k, (height, left, _) in enumerate(rows) if block.height <= height and block.length <= left]
        if fits:
            at = min(fits, key=lambda k: (rows[k][0], rows[k][1]))
            height, left, numbers = rows[at]
            rows[at] = (height, left - block.length, [*numbers, number])
        else:
            holding = [s for _, s in on_sale if s.length >= block.length and s.width >= block.height]
            length = min((s.length for s in holding if s.length >= least), default=max(s.length for s in holding))
            rows.append((block.height, length - block.length, [number]))
    strips = [_strip(t, stock, height, numbers) for height, _, numbers in rows]
    strips.sort(key=lambda strip: (-strip.height, -strip.length))
    widest = max(source.width for _, source in on_sale)
    for at_once in best_fit([strip.height for strip in strips], lambda _: widest):
        got = tuple(strips[n] for n in at_once)
        need, high = max(strip.length for strip in got), sum(strip.height for strip in got)
        _, _, source = min((s.cost, s.length, k) for k, s in on_sale if s.length >= need and s.width >= high)
        yield Pattern(t, source, got)


def _strip(t: int, stock: Stock, height: int, numbers: Sequence[int]) -> Strip:
    counts = {number: numbers.count(number) for number in sorted(set(numbers))}
    used = sum(stock.blocks[number].length * count for number, count in counts.items())
    return Strip(t, height, used, tuple(counts.items()))


def _taken(stock: Stock, wanted: Sequence[int], *, nested: bool) -> Iterator[int]:
    """Blocks that together make what is wanted, highest first, then longest; nested ones before single pieces."""
    left = list(wanted)
    blocks = stock.blocks
    order = sorted(range(len(blocks)), key=lambda k: (-blocks[k].height, -len(blocks[k].parts), -blocks[k].length))
    taken = list[int]()
    for number in order:
        content = blocks[number].content
        if len(blocks[number].parts) > 1 and not nested:
            continue
        times = min(left[item] // n for item, n in content.items())
        taken += [number] * times
        for item, n in content.items():
            left[item] -= times * n
    yield from sorted(taken, key=lambda k: (-blocks[k].height, -blocks[k].length, k))
