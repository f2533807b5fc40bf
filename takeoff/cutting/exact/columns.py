"""Column generation: the linear programme of all patterns, solved with those few that matter."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from takeoff.cutting.exact.certificate import Certificate, certified, scale_for
from takeoff.cutting.exact.effort import Effort, Meter
from takeoff.cutting.exact.instance import Instance
from takeoff.cutting.exact.knapsack import filled_table
from takeoff.cutting.exact.master import Master, Relaxed
from takeoff.cutting.exact.pattern import Pattern, Pool, fitting

_NEW_PRICES = 0.2
"""Share of the last prices in those that patterns are sought for; the rest is of the best so far."""
_NEGATIVE = 1e-7
"""Cents by which a pattern has to be worth more than it costs, to be more than float noise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Open:
    """What is still to be cut, and how many sticks are left of each stock; None: as many as wanted."""

    rest: tuple[int, ...]
    left: tuple[int | None, ...]


def whole_job(instance: Instance) -> Open:
    """Nothing cut yet."""
    return Open(rest=instance.demand, left=tuple(stock.limit for stock in instance.stocks))


@dataclass(frozen=True, slots=True, kw_only=True)
class Generated:
    """Patterns, and the optimum of the linear programme over them."""

    patterns: tuple[Pattern, ...]
    relaxed: Relaxed


def bounded(
    instance: Instance, start: Iterable[Pattern], effort: Effort, meter: Meter, enough: int
) -> tuple[Generated, Certificate]:
    """The linear programme of a whole instance, and the best certificate met.

    Args:
        instance: items and stocks.
        start: patterns to begin with.
        effort: its ``rounds`` and ``extra_columns`` hold.
        meter: asked after each round; but the search goes on until it is known whether the stock suffices.
        enough: cost of a plan at hand; a certificate that reaches it is not to be bettered.

    Source:
        Smoothing of prices: Wentges, Weighted Dantzig-Wolfe decomposition, Int. Trans. Opl. Res. 4 (1997).
    """
    scale = scale_for(instance)
    best = certified(instance, [0] * len(instance.items), scale)
    whole, pool = whole_job(instance), Pool()
    master = Master(instance, whole.rest, _scarce(whole))
    master.add(_added(pool, (*_uniform(instance, whole), *fitting(start, whole.rest, whole.left))))
    relaxed, mixed = master.solve(), False
    for _ in range(effort.rounds):
        prices = _mixed(relaxed.prices, best, scale) if mixed else relaxed.prices
        values = [int(price * scale) for price in prices]
        table = filled_table(instance, values, whole.rest)
        found = certified(instance, values, scale, table)
        best = max(best, found, key=lambda certificate: certificate.worth(instance))
        if best.bound(instance) >= min(enough, _whole_cost(instance, relaxed)):
            break
        costs = _costs(instance, whole, relaxed, scale)
        added = _added(pool, _worthwhile(instance, relaxed, table.cheapest(instance, costs, effort.extra_columns)))
        if added:
            master.add(added)
            relaxed, mixed = master.solve(), True
        elif not mixed:
            break
        else:  # the mixed prices missed: seek with the true ones
            mixed = False
        if meter.tick() and not any(relaxed.missing):
            break
    return Generated(patterns=tuple(pool.patterns), relaxed=relaxed), best


def generated(instance: Instance, start: Iterable[Pattern], still: Open, effort: Effort) -> Generated:
    """The linear programme of what is still open, with no pattern that would cut more than that."""
    scale = scale_for(instance)
    pool, master = Pool(), Master(instance, still.rest, _scarce(still))
    master.add(_added(pool, (*_uniform(instance, still), *fitting(start, still.rest, still.left))))
    relaxed = master.solve()
    for _ in range(effort.dive_rounds):
        table = filled_table(instance, [int(price * scale) for price in relaxed.prices], still.rest)
        costs = _costs(instance, still, relaxed, scale)
        added = _added(pool, _worthwhile(instance, relaxed, table.cheapest(instance, costs, effort.extra_columns)))
        if not added:
            break
        master.add(added)
        relaxed = master.solve()
    return Generated(patterns=tuple(pool.patterns), relaxed=relaxed)


def _added(pool: Pool, patterns: Iterable[Pattern]) -> list[Pattern]:
    before = len(pool.patterns)
    pool.add(patterns)
    return pool.patterns[before:]


def _scarce(still: Open) -> dict[int, int]:
    return {t: n for t, n in enumerate(still.left) if n is not None}


def _mixed(prices: Sequence[float], best: Certificate, scale: int) -> list[float]:
    return [
        _NEW_PRICES * price + (1 - _NEW_PRICES) * value / scale
        for price, value in zip(prices, best.values, strict=True)
    ]


def _whole_cost(instance: Instance, relaxed: Relaxed) -> int:
    """No certificate shows more than this, give or take float noise."""
    return instance.rounded_up(*Fraction(relaxed.cost - _NEGATIVE * max(1.0, relaxed.cost)).as_integer_ratio())


def _costs(instance: Instance, still: Open, relaxed: Relaxed, scale: int) -> list[int]:
    """Of the stocks, with what one more stick is worth, in the measure of values; of those used up -1."""
    return [
        -1 if left == 0 else stock.cost * scale + int(premium * scale)
        for stock, left, premium in zip(instance.stocks, still.left, relaxed.premiums, strict=True)
    ]


def _worthwhile(instance: Instance, relaxed: Relaxed, patterns: Iterable[Pattern]) -> Iterator[Pattern]:
    """Those that are worth more than they cost at the true prices."""
    for pattern in patterns:
        worth = sum(relaxed.prices[i] * count for i, count in pattern.content)
        if worth > instance.stocks[pattern.stock].cost + relaxed.premiums[pattern.stock] + _NEGATIVE:
            yield pattern


def _uniform(instance: Instance, still: Open) -> Iterator[Pattern]:
    """For each item the pattern of it alone that is cheapest a piece, of each stock that isn't scarce and of any."""
    for i, wanted in enumerate(still.rest):
        single = [p for p in (_filled(instance, t, i, wanted, still) for t in range(len(instance.stocks))) if p]
        for plentiful in (True, False):
            able = [p for p in single if not plentiful or still.left[p.stock] is None]
            if able:
                yield min(able, key=lambda p: (Fraction(instance.stocks[p.stock].cost, p.content[0][1]), p.stock))


def _filled(instance: Instance, t: int, i: int, wanted: int, still: Open) -> Pattern | None:
    """As many pieces of an item as a stick of a stock holds."""
    item, capacity = instance.items[i], instance.stocks[t].capacity
    if not wanted or still.left[t] == 0 or item.width > capacity:
        return None
    saving = 0 if item.chain is None else instance.savings[item.chain]
    return Pattern(t, ((i, min(wanted, (capacity - saving) // (item.width - saving))),))
