"""Answers side by side: the cheapest yard for all of it, and the cheapest split, each delivery's charge counted."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain, combinations

from takeoff.order.quotes.asked import AskedItem
from takeoff.order.quotes.reader import Quote

MOST_YARDS = 8
"""Every set of yards is tried for every load."""


@dataclass(frozen=True, slots=True, kw_only=True)
class YardTotal:
    """What all of the order costs from one yard."""

    quote: Quote
    goods: float
    """What it offers [$]."""
    deliveries: float
    """Its charge for the loads it has something on [$]."""
    lacking: tuple[AskedItem, ...]
    """What it doesn't offer."""

    @property
    def total(self) -> float:
        """Goods and deliveries [$]."""
        return self.goods + self.deliveries


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadSplit:
    """Who brings what on one load at least cost."""

    load: int
    buys: tuple[tuple[AskedItem, Quote], ...]
    total: float
    """Goods and deliveries [$]."""

    @property
    def yards(self) -> tuple[str, ...]:
        """Each yard that delivers, in the order of the answers."""
        return tuple(dict.fromkeys(quote.yard for _, quote in self.buys))


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """All answers to one request."""

    asked: tuple[AskedItem, ...]
    quotes: tuple[Quote, ...]
    totals: tuple[YardTotal, ...]
    """In the order of the answers."""
    split: tuple[LoadSplit, ...]
    offered_by_none: tuple[AskedItem, ...]

    @property
    def single(self) -> YardTotal | None:
        """The cheapest of the yards that offer all that any yard does; None where there is no such yard."""
        none = len(self.offered_by_none)
        whole = [total for total in self.totals if len(total.lacking) == none]
        return min(whole, key=lambda total: total.total, default=None)

    @property
    def split_total(self) -> float:
        """Cost of the split [$]."""
        return sum(load.total for load in self.split)


def compare(asked: Sequence[AskedItem], quotes: Sequence[Quote]) -> Comparison:
    """Put answers side by side.

    Raises:
        ValueError: no answers, or more than can be tried out.
    """
    if not quotes or len(quotes) > MOST_YARDS:
        raise ValueError(f"{len(quotes)} answers to compare; from 1 to {MOST_YARDS} can be")
    loads = sorted({load for item in asked for load, _ in item.by_load})
    return Comparison(
        asked=tuple(asked),
        quotes=tuple(quotes),
        totals=tuple(_total(quote, asked) for quote in quotes),
        split=tuple(split for load in loads if (split := _split(load, asked, quotes))),
        offered_by_none=tuple(item for item in asked if not any(item.code in quote.prices for quote in quotes)),
    )


def _total(quote: Quote, asked: Sequence[AskedItem]) -> YardTotal:
    offered = [item for item in asked if item.code in quote.prices]
    loads = {load for item in offered for load, _ in item.by_load}
    return YardTotal(
        quote=quote,
        goods=sum(_cost(item.quantity, quote.prices[item.code]) for item in offered),
        deliveries=quote.delivery * len(loads),
        lacking=tuple(item for item in asked if item.code not in quote.prices),
    )


def _split(load: int, asked: Sequence[AskedItem], quotes: Sequence[Quote]) -> LoadSplit | None:
    """The set of yards that brings a load at least cost: fewest yards where two sets cost the same.

    Exact, since loads don't depend on each other: every set is tried, each item bought where it is cheapest in the set.
    """
    wanted = [(item, number) for item in asked for on, number in item.by_load if on == load]
    wanted = [(item, number) for item, number in wanted if any(item.code in quote.prices for quote in quotes)]
    best: LoadSplit | None = None
    for yards in _sets(quotes) if wanted else ():
        buys = []
        total = sum(quote.delivery for quote in yards)
        for item, number in wanted:
            offers = [quote for quote in yards if item.code in quote.prices]
            if not offers:
                break
            quote = min(offers, key=lambda one: one.prices[item.code])
            buys.append((item, quote))
            total += _cost(number, quote.prices[item.code])
        else:
            if best is None or total < best.total - 0.005:
                best = LoadSplit(load=load, buys=tuple(buys), total=total)
    return best


def _sets(quotes: Sequence[Quote]) -> Iterable[tuple[Quote, ...]]:
    return chain.from_iterable(combinations(quotes, size) for size in range(1, len(quotes) + 1))


def _cost(number: int, price: float) -> float:
    return round(number * price, 2)
