"""Buying few different lengths: the cheapest choice of no more than so many."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations

from takeoff.cutting.exact.certificate import Certificate
from takeoff.cutting.exact.columns import bounded
from takeoff.cutting.exact.effort import Effort, Meter
from takeoff.cutting.exact.group import Found, ShortOfStockError, searched
from takeoff.cutting.exact.instance import Coded, Instance
from takeoff.cutting.exact.pattern import Pattern, Plan
from takeoff.cutting.exact.start import first_plans


@dataclass(frozen=True, slots=True, kw_only=True)
class _Choice:
    """Some of the stocks, and what no plan from them costs less than."""

    stocks: tuple[int, ...]
    bound: int


def searched_few_lengths(coded: Coded, most: int | None, least_rest: int, effort: Effort, meter: Meter) -> Found:
    """The cheapest plan that buys at most so many different lengths.

    Every choice of lengths has a bound of its own; they are tried from the least bound on, until the next is no less
    than the cost of the best plan. What is on hand isn't bought, and doesn't count. The certificate is one for all
    lengths: a few can't cost less. The bound may be higher.

    Args:
        coded: the instance and its sticks.
        most: how many lengths; None: any number.
        least_rest: shortest rest worth keeping, in steps.
        effort: limits of each search.
        meter: asked after each round.

    Raises:
        ShortOfStockError: no choice of so many lengths suffices.
    """
    instance = coded.instance
    lengths = sorted({stick.length_in for stick in coded.sticks if _is_chosen(coded, stick.length_in)})
    if most is None or most >= len(lengths):
        return searched(instance, least_rest, effort, meter)
    _, certificate = bounded(instance, _first_patterns(instance), effort, meter, _cost_of_first(instance))
    best: Found | None = None
    choices = sorted(_choices(coded, lengths, most, effort, meter), key=lambda choice: (choice.bound, choice.stocks))
    for choice in choices:
        if best is not None and (meter.stopped or choice.bound >= best.plan.cost(instance)):
            return _least(instance, best, choice.bound)
        try:
            found = searched(instance.of_stocks(choice.stocks), least_rest, effort, meter)
        except ShortOfStockError:
            continue
        best = _cheaper(instance, best, _renumbered(found, choice, certificate))
    if best is None:
        raise ShortOfStockError(tuple(range(len(instance.items))), shown=False)
    return best


def _is_chosen(coded: Coded, length_in: float) -> bool:
    """Whether a length is one to choose: not if it is there only on hand or to be ordered specially."""
    return any(stick.length_in == length_in and not stick.on_hand and not stick.special for stick in coded.sticks)


def _choices(coded: Coded, lengths: list[float], most: int, effort: Effort, meter: Meter) -> Iterator[_Choice]:
    """Every choice of so many lengths that holds every piece."""
    widest = max(item.width for item in coded.instance.items)
    for chosen in combinations(lengths, most):
        stocks = tuple(
            t for t, stick in enumerate(coded.sticks) if stick.on_hand or stick.special or stick.length_in in chosen
        )
        if any(coded.instance.stocks[t].capacity >= widest for t in stocks):
            part = coded.instance.of_stocks(stocks)
            _, certificate = bounded(part, _first_patterns(part), effort, meter, _cost_of_first(part))
            yield _Choice(stocks=stocks, bound=certificate.bound(part))


def _first_patterns(instance: Instance) -> tuple[Pattern, ...]:
    plan = next(first_plans(instance), None)
    return () if plan is None else tuple(pattern for pattern, _ in plan.uses)


def _cost_of_first(instance: Instance) -> int:
    plan = next(first_plans(instance), None)
    return sum(instance.demand) * max(s.cost for s in instance.stocks) if plan is None else plan.cost(instance)


def _renumbered(found: Found, choice: _Choice, certificate: Certificate) -> Found:
    uses = ((Pattern(choice.stocks[pattern.stock], pattern.content), count) for pattern, count in found.plan.uses)
    return replace(found, plan=Plan(tuple(sorted(uses))), certificate=certificate)


def _cheaper(instance: Instance, best: Found | None, found: Found) -> Found:
    """The cheaper of two, of equals the one of fewer boards; the bound is one for both."""
    if best is None:
        return found
    first = min((best, found), key=lambda one: (one.plan.cost(instance), one.plan.boards, len(one.plan.uses)))
    bound, finished = min(best.bound, found.bound), best.finished and found.finished
    return replace(first, bound=bound, finished=finished)


def _least(instance: Instance, best: Found, bound: int) -> Found:
    """The best with a bound for the choices that weren't tried, too."""
    return replace(best, bound=min(best.bound, max(bound, 0), best.plan.cost(instance)))
