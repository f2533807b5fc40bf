"""The search for one group: a plan, its certificate, and the bound that is proven."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice

from takeoff.cutting.exact.certificate import Certificate
from takeoff.cutting.exact.columns import Generated, bounded, whole_job
from takeoff.cutting.exact.dive import dived, ends_at_once
from takeoff.cutting.exact.effort import Effort, Meter, patient
from takeoff.cutting.exact.instance import Instance
from takeoff.cutting.exact.integer import covered
from takeoff.cutting.exact.pattern import Pattern, Plan, Pool
from takeoff.cutting.exact.proof import cheap_patterns, proven
from takeoff.cutting.exact.start import cheapened, first_plans
from takeoff.cutting.exact.tidy import tidied


class ShortOfStockError(ValueError):
    """Stock is limited, and not enough for all items; ``items``: numbers of those that it lacks for.

    ``shown``: that has been shown; else there may be a way, which wasn't found.
    """

    def __init__(self, items: tuple[int, ...], *, shown: bool) -> None:
        self.items = items
        self.shown = shown
        super().__init__(f"not enough stock for items {items}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What a search found."""

    plan: Plan
    certificate: Certificate
    bound: int
    """No plan costs less [cents]: the certificate's bound, or more where an enumeration proved it."""
    finished: bool
    """The search wasn't told to stop."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sought:
    """The cheapest plan found, not tidied yet, with the patterns met; no plan where none below a cost was found."""

    plan: Plan | None
    certificate: Certificate
    bound: int
    pool: Pool


_SHORT = 1e-2  # of a piece: far above float noise, and no real want is less


def searched(instance: Instance, least_rest: int, effort: Effort, meter: Meter) -> Found:
    """The cheapest plan found for an instance, tidied, with what is proven of it.

    Args:
        instance: items and stocks; every item fits into some stock.
        least_rest: shortest rest worth keeping, in steps.
        effort: limits of the search.
        meter: asked after each round.

    Raises:
        ShortOfStockError: stock is limited, and there isn't enough of it.
    """
    found = sought(instance, effort, meter)
    if found.plan is None:
        raise ShortOfStockError(_widest_scarce(instance), shown=False)
    plan = made_tidy(instance, found.plan, found, least_rest, effort, meter)
    return Found(plan=plan, certificate=found.certificate, bound=found.bound, finished=not meter.stopped)


def sought(
    instance: Instance, effort: Effort, meter: Meter, *, start: tuple[Pattern, ...] = (), below: int | None = None
) -> Sought:
    """The cheapest plan found for an instance, and what no plan costs less than.

    Args:
        instance: items and stocks; every item fits into some stock.
        effort: limits of the search.
        meter: asked after each round.
        start: patterns to begin with, beside those of best fit.
        below: only plans that cost less are of interest [cents]; once there is none, the search ends.

    Raises:
        ShortOfStockError: stock is limited, and there isn't enough of it.
    """
    fits = effort.big_fits if sum(instance.demand) >= effort.big_pieces else None
    plan = min(islice(first_plans(instance), fits), key=lambda one: _rank(instance, one), default=None)
    first = () if plan is None else tuple(pattern for pattern, _ in plan.uses)
    known = any_cost(instance) if plan is None else plan.cost(instance)
    enough = known if below is None else min(known, below)
    root, certificate = bounded(instance, (*first, *start), effort, meter, enough)
    missing = tuple(i for i, pieces in enumerate(root.relaxed.missing) if pieces > _SHORT)
    if missing:
        raise ShortOfStockError(missing, shown=True)
    pool = Pool()
    pool.add(root.patterns)
    bound = certificate.bound(instance)
    if below is None or bound < below:
        plan = _dives(instance, pool, root, certificate, plan, effort, meter)
        plan = _over_pool(instance, pool, certificate, plan, effort, meter)
        if plan is not None and not meter.stopped and len(instance.items) < effort.big_items:
            shown = proven(instance, certificate, plan, effort, meter, below=below)
            plan, bound = shown.plan, shown.bound
    dear = plan is not None and below is not None and plan.cost(instance) >= below
    return Sought(plan=None if dear else plan, certificate=certificate, bound=bound, pool=pool)


def made_tidy(instance: Instance, plan: Plan, found: Sought, least_rest: int, effort: Effort, meter: Meter) -> Plan:
    """The plan, or one of no more cost that is pleasanter to saw."""
    if meter.stopped or not effort.tidy_columns:
        return plan
    likely = _likely(instance, found.certificate, found.pool, plan, effort)
    return tidied(instance, plan, likely, least_rest, effort, meter)


def _rank(instance: Instance, plan: Plan) -> tuple[int, ...]:
    return plan.cost(instance), plan.boards, len(plan.uses)


def any_cost(instance: Instance) -> int:
    """More than any plan costs."""
    return 1 + sum(instance.demand) * max(stock.cost for stock in instance.stocks)


def _widest_scarce(instance: Instance) -> tuple[int, ...]:
    """Items that only scarce stocks hold: one of them it is that there is no stick for."""
    plentiful = max((stock.capacity for stock in instance.stocks if stock.limit is None), default=0)
    return tuple(i for i, item in enumerate(instance.items) if item.width > plentiful)


def _dives(
    instance: Instance,
    pool: Pool,
    root: Generated,
    certificate: Certificate,
    plan: Plan | None,
    effort: Effort,
    meter: Meter,
) -> Plan | None:
    dives = effort.dives[: effort.big_dives] if len(instance.items) >= effort.big_items else effort.dives
    for at, dive in enumerate(dives):
        if plan is not None and (meter.stopped or _is_least(instance, plan, certificate)):
            break
        if any(ends_at_once(root, dive) and ends_at_once(root, earlier) for earlier in dives[:at]):
            continue  # the same programme again
        found = dived(instance, pool, root, dive, effort, meter if plan else patient())
        plan = min((p for p in (plan, found) if p), key=lambda one: _rank(instance, one), default=None)
    return plan


def _is_least(instance: Instance, plan: Plan | None, certificate: Certificate) -> bool:
    return plan is not None and plan.cost(instance) <= certificate.bound(instance)


def _over_pool(
    instance: Instance, pool: Pool, certificate: Certificate, plan: Plan | None, effort: Effort, meter: Meter
) -> Plan | None:
    """The cheapest plan of the patterns met that could make it cheaper."""
    if plan is not None and (not effort.whole_nodes or meter.stopped or _is_least(instance, plan, certificate)):
        return plan
    target = any_cost(instance) if plan is None else plan.cost(instance) - (instance.step or 1)
    most = min(effort.whole_columns, effort.whole_cells // len(instance.items))
    chosen = _of_small_loss(instance, certificate, pool.patterns, target)[:most]
    used = [] if plan is None else [pattern for pattern, _ in plan.uses]
    columns = tuple(dict.fromkeys((*chosen, *used)))
    answer = covered(instance, columns, whole_job(instance), nodes=effort.whole_nodes, start=plan)
    meter.tick()
    if answer.uses is None:
        return plan
    found = cheapened(instance, [pattern for pattern, count in answer.uses for _ in range(count)])
    return min((p for p in (plan, found) if p), key=lambda one: _rank(instance, one))


def _of_small_loss(instance: Instance, certificate: Certificate, patterns: list[Pattern], target: int) -> list[Pattern]:
    """Those of the patterns that a plan of a cost or less can use, by their loss at the certificate's prices."""
    allowed = target * certificate.scale - certificate.worth(instance)
    losses = [_loss(instance, certificate, pattern) for pattern in patterns]
    order = sorted(range(len(patterns)), key=lambda at: (losses[at], at))
    return [patterns[at] for at in order if losses[at] <= allowed]


def _loss(instance: Instance, certificate: Certificate, pattern: Pattern) -> int:
    cost = instance.stocks[pattern.stock].cost * certificate.scale + certificate.surplus[pattern.stock]
    return cost - sum(certificate.values[i] * count for i, count in pattern.content)


def _likely(instance: Instance, certificate: Certificate, pool: Pool, plan: Plan, effort: Effort) -> list[Pattern]:
    """Patterns that a plan of the same cost may use: all full ones where they can be listed, and those met."""
    cost = plan.cost(instance)
    listable = len(instance.items) < effort.big_items
    listed = (cheap_patterns(instance, certificate, cost, effort) if listable else None) or ()
    return _of_small_loss(instance, certificate, list(dict.fromkeys((*listed, *pool.patterns))), cost)
