"""Given pieces, cut from sheets at least cost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from takeoff.cutting.sheet.columns import SCALE, Columns, Job, generated
from takeoff.cutting.sheet.fit import Fitter
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


def packed(job: Job, below: int | None = None) -> Packed:
    """The cheapest sheets found for a job without choices, and what no sheets cut in rows cost less than.

    Args:
        job: what to cut.
        below: only what costs less [cents] is worth a search.
    """
    start = first_patterns(job)
    best = cost_of(start, job.stocks), start
    columns = generated(job, start)
    bound = next_sum([source.cost for stock in job.stocks for source in stock.sources], columns.bound, best[0])
    if best[0] > bound and (below is None or bound < below):
        found = whole(job, useful(job, columns, start), ())
        if found is not None and found.cost < best[0]:
            best = found.cost, found.patterns
    return Packed(patterns=best[1], cost=best[0], bound=bound)


def next_sum(costs: Sequence[int], least: int, most: int) -> int:
    """The least sum of so many of some costs as one likes that isn't under a bound: nobody buys half a sheet.

    Args:
        costs: of single sheets [cents].
        least: the bound [cents].
        most: a sum that is known [cents].
    """
    sums, whole = 1, (1 << (most + 1)) - 1  # bit n: n cents can be spent
    for cost in sorted(set(costs)):
        span = cost
        while 0 < span <= most:
            sums |= (sums << span) & whole
            span *= 2
    beyond = (sums | 1 << most) >> min(least, most)
    return min(least, most) + (beyond & -beyond).bit_length() - 1


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
    """Sheets by best fit: something to start from, and the mark to beat."""
    return Fitter(job.stocks).patterns(dict(enumerate(job.wanted)))
