"""Among cuttings of equal cost, the one that is pleasant to saw: fewest boards, fewest patterns, longest rests.

Source
    Fewest patterns: Vanderbeck, Exact algorithm for minimising the number of setups in the one-dimensional cutting
    stock problem, Operations Research 48 (2000); here over listed patterns only, and within a few nodes of search.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from math import inf, prod

from takeoff.cutting.exact.effort import Effort, Meter
from takeoff.cutting.exact.instance import Instance
from takeoff.cutting.exact.pattern import Pattern, Plan, content_of, is_whole, plan_of
from takeoff.cutting.exact.solver import Sparse, solved_whole

_WAYS = 32
"""In so many ways at most a pattern is cut short."""

_Measure = Callable[[Instance, Plan], tuple[int, ...]]
"""By which plans are compared; less is better."""


@dataclass(frozen=True, slots=True)
class _Least:
    """What a programme is to minimise: a weight for each board of a pattern, and one for using it at all."""

    board: tuple[int, ...]
    use: int
    any_patterns: bool = False
    """It may take more patterns than the plan at hand."""


def tidied(
    instance: Instance, plan: Plan, candidates: Sequence[Pattern], least_rest: int, effort: Effort, meter: Meter
) -> Plan:
    """The tidiest plan found that costs no more.

    Args:
        instance: items and stocks.
        plan: the cheapest known.
        candidates: patterns that a plan of that cost may use, the likeliest first.
        least_rest: shortest rest worth keeping, in steps.
        effort: limits of the integer programmes.
        meter: asked after each of them.
    """
    columns = _columns(plan, candidates, effort.tidy_columns)
    if _could_take_fewer(instance):
        plan = _better(instance, plan, columns, _Least((1,) * len(columns), 0, any_patterns=True), effort, _boards)
        if meter.tick():
            return plan
    if len(plan.uses) > 1:
        plan = _better(instance, plan, columns, _Least((0,) * len(columns), 1), effort, _boards_and_patterns)
        if meter.tick():
            return plan
    if sum(_rest(instance, pattern) * count for pattern, count in plan.uses) < least_rest:
        return plan  # all rests laid end to end are too short to keep
    columns = _columns(plan, (*columns, *_shortened(columns)), 2 * effort.tidy_columns)
    weights = tuple(-_kept(instance, pattern, least_rest) for pattern in columns)

    def short_rests(instance: Instance, plan: Plan) -> tuple[int, ...]:
        kept = sum(_kept(instance, pattern, least_rest) * count for pattern, count in plan.uses)
        return (*_boards_and_patterns(instance, plan), -kept)

    return _better(instance, plan, columns, _Least(weights, 0), effort, short_rests)


def _boards(instance: Instance, plan: Plan) -> tuple[int, ...]:
    return plan.cost(instance), plan.boards


def _boards_and_patterns(instance: Instance, plan: Plan) -> tuple[int, ...]:
    return plan.cost(instance), plan.boards, len(plan.uses)


def _columns(plan: Plan, candidates: Iterable[Pattern], most: int) -> tuple[Pattern, ...]:
    used = tuple(pattern for pattern, _ in plan.uses)
    return tuple(dict.fromkeys((*used, *candidates)))[: max(most, len(used))]


def _could_take_fewer(instance: Instance) -> bool:
    """Whether fewer boards of equal cost are thinkable: not where all boards cost the same."""
    return len({stock.cost for stock in instance.stocks}) > 1 or not instance.step


def _rest(instance: Instance, pattern: Pattern) -> int:
    return instance.stocks[pattern.stock].capacity - instance.taken(pattern.content)


def _kept(instance: Instance, pattern: Pattern, least_rest: int) -> int:
    """Square of the rest where it is worth keeping: one long rest is better than two short ones."""
    rest = _rest(instance, pattern)
    return rest * rest if rest >= least_rest else 0


def _shortened(patterns: Iterable[Pattern]) -> Iterable[Pattern]:
    """Each pattern with fewer pieces: in every way where these are few, else with one piece less."""
    for pattern in patterns:
        counts = [range(n + 1) for _, n in pattern.content]
        if prod(len(count) for count in counts) <= _WAYS:
            fewer: Iterable[tuple[int, ...]] = product(*counts)
        else:
            fewer = (tuple(n - (at == i) for i, (_, n) in enumerate(pattern.content)) for at in range(len(counts)))
        for less in fewer:
            content = content_of({i: n for (i, _), n in zip(pattern.content, less, strict=True)})
            if content:
                yield Pattern(pattern.stock, content)


def _better(
    instance: Instance, plan: Plan, columns: Sequence[Pattern], least: _Least, effort: Effort, measure: _Measure
) -> Plan:
    """The plan an integer programme finds, where it measures less; else the one at hand."""
    known = dict(plan.uses)
    counts = [known.get(pattern, 0) for pattern in columns]
    switches = [int(count > 0) for count in counts]
    programme = _programme(instance, plan, columns, least)
    whole = solved_whole(programme, step=1.0, nodes=effort.tidy_nodes, start=counts + switches)
    if whole.counts is None:
        return plan
    found = plan_of(zip(columns, whole.counts[: len(columns)], strict=True))
    return found if is_whole(instance, found) and measure(instance, found) < measure(instance, plan) else plan


def _programme(instance: Instance, plan: Plan, columns: Sequence[Pattern], least: _Least) -> Sparse:
    """Counts of the patterns and switches for their use; cost, boards and patterns may not grow.

    Rows: items, scarce stocks, cost, boards, patterns, and for each pattern: no board of it unless it is switched on.
    """
    step, items = instance.step or 1, len(instance.items)
    stock_rows = {t: items + row for row, t in enumerate(instance.scarce)}
    cost_row = items + len(stock_rows)
    most = [min(instance.demand[i] // n for i, n in pattern.content) for pattern in columns]
    counts = tuple(
        (
            *pattern.content,
            *(((stock_rows[pattern.stock], 1),) if pattern.stock in stock_rows else ()),
            (cost_row, instance.stocks[pattern.stock].cost // step),
            (cost_row + 1, 1),
            (cost_row + 3 + at, 1),
        )
        for at, pattern in enumerate(columns)
    )
    switches = tuple(((cost_row + 2, 1), (cost_row + 3 + at, -most[at])) for at in range(len(columns)))
    limits = tuple(float(instance.stocks[t].limit or 0) for t in instance.scarce)
    wanted = tuple(float(n) for n in instance.demand)
    patterns = inf if least.any_patterns else float(len(plan.uses))
    totals = (float(plan.cost(instance) // step), float(plan.boards), patterns)
    return Sparse(
        costs=(*(float(weight) for weight in least.board), *(float(least.use) for _ in columns)),
        columns=(*counts, *switches),
        lower=(*wanted, *(-inf for _ in limits), -inf, -inf, -inf, *(-inf for _ in columns)),
        upper=(*wanted, *limits, *totals, *(0.0 for _ in columns)),
        most=(*(float(n) for n in most), *(1.0 for _ in columns)),
        whole=True,
    )
