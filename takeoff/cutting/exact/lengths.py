"""Buying few different lengths: the cheapest choice of no more than so many."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from takeoff.cutting.exact.columns import bounded
from takeoff.cutting.exact.effort import Effort, Meter
from takeoff.cutting.exact.group import Found, ShortOfStockError, Sought, any_cost, made_tidy, searched, sought
from takeoff.cutting.exact.instance import Coded, Instance
from takeoff.cutting.exact.pattern import Pattern, Plan
from takeoff.cutting.exact.start import first_plans


@dataclass(frozen=True, slots=True, kw_only=True)
class _Choice:
    """Some of the stocks, and what no plan from them costs less than."""

    stocks: tuple[int, ...]
    bound: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Best:
    """The cheapest choice so far, with its plan."""

    choice: _Choice
    found: Sought
    plan: Plan
    cost: int


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
    first = next(first_plans(instance), None)
    enough = any_cost(instance) if first is None else first.cost(instance)
    root, certificate = bounded(instance, _patterns(first), effort, meter, enough)
    least = certificate.bound(instance)
    choices = _bounded_choices(instance, _choices(coded, lengths, most), root.patterns, least, effort, meter)
    best, bound = _cheapest(instance, choices, root.patterns, effort, meter)
    if best is None:
        raise ShortOfStockError(tuple(range(len(instance.items))), shown=False)
    part = instance.of_stocks(best.choice.stocks)
    plan = _renumbered(made_tidy(part, best.plan, best.found, least_rest, effort, meter), best.choice)
    return Found(plan=plan, certificate=certificate, bound=bound, finished=not meter.stopped)


def _cheapest(
    instance: Instance, choices: Sequence[_Choice], known: Sequence[Pattern], effort: Effort, meter: Meter
) -> tuple[_Best | None, int]:
    """The best of the choices, and what none of them costs less than."""
    best: _Best | None = None
    bounds: list[int] = []
    for at, choice in enumerate(choices):
        if best is not None and (meter.stopped or choice.bound >= best.cost):
            bounds += [left.bound for left in choices[at:]]
            break
        part = instance.of_stocks(choice.stocks)
        start = tuple(_moved(instance, known, choice.stocks))
        try:
            found = sought(part, effort, meter, start=start, below=best.cost if best else None)
        except ShortOfStockError:
            continue
        bounds.append(max(found.bound, choice.bound))
        if found.plan is not None:
            best = _Best(choice=choice, found=found, plan=found.plan, cost=found.plan.cost(part))
    return best, min((*bounds, best.cost)) if best else 0


def _is_chosen(coded: Coded, length_in: float) -> bool:
    """Whether a length is one to choose: not if it is there only on hand or to be ordered specially."""
    return any(stick.length_in == length_in and not stick.on_hand and not stick.special for stick in coded.sticks)


def _choices(coded: Coded, lengths: Sequence[float], most: int) -> Iterator[tuple[int, ...]]:
    """The stocks of every choice of so many lengths that holds every piece."""
    widest = max(item.width for item in coded.instance.items)
    for chosen in combinations(lengths, most):
        stocks = tuple(
            t for t, stick in enumerate(coded.sticks) if stick.on_hand or stick.special or stick.length_in in chosen
        )
        if any(coded.instance.stocks[t].capacity >= widest for t in stocks):
            yield stocks


def _bounded_choices(
    instance: Instance,
    choices: Iterable[tuple[int, ...]],
    known: Sequence[Pattern],
    least: int,
    effort: Effort,
    meter: Meter,
) -> list[_Choice]:
    """The choices with their bounds, least first. A bound is sought no further than what a plan costs already.

    Where a plan costs no more than ``least``, the bound with all lengths, its choice is the only one worth trying.
    """
    plans: dict[tuple[int, ...], Plan | None] = {}
    enough = any_cost(instance)
    for stocks in choices:
        part = instance.of_stocks(stocks)
        plan = plans[stocks] = next(first_plans(part), None)
        if plan is not None:
            enough = min(enough, plan.cost(part))
            if enough <= least:
                return [_Choice(stocks=stocks, bound=least)]
    bounds = []
    for stocks, plan in plans.items():
        part = instance.of_stocks(stocks)
        start = (*_patterns(plan), *_moved(instance, known, stocks))
        _, certificate = bounded(part, start, effort, meter, enough)
        bounds.append(_Choice(stocks=stocks, bound=certificate.bound(part)))
    return sorted(bounds, key=lambda choice: (choice.bound, choice.stocks))


def _patterns(plan: Plan | None) -> tuple[Pattern, ...]:
    return () if plan is None else tuple(pattern for pattern, _ in plan.uses)


def _moved(instance: Instance, patterns: Iterable[Pattern], stocks: Sequence[int]) -> Iterator[Pattern]:
    """Patterns with the cheapest of some stocks that holds them, numbered among those; without what none holds."""
    for pattern in patterns:
        taken = instance.taken(pattern.content)
        able = [at for at, t in enumerate(stocks) if instance.stocks[t].capacity >= taken]
        if able:
            yield Pattern(min(able, key=lambda at: (instance.stocks[stocks[at]].cost, at)), pattern.content)


def _renumbered(plan: Plan, choice: _Choice) -> Plan:
    """The same plan with the numbers that the stocks have among all."""
    return Plan(tuple(sorted((Pattern(choice.stocks[p.stock], p.content), count) for p, count in plan.uses)))
