"""One row of the table: a case cut in several ways."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass

from takeoff.cutting.bench.instances import Case
from takeoff.cutting.bench.textbook import textbook_cost
from takeoff.cutting.exact.effort import Effort, Meter
from takeoff.cutting.exact.group import searched
from takeoff.cutting.exact.instance import Instance
from takeoff.cutting.exact.pattern import Plan, is_whole
from takeoff.cutting.exact.start import first_plans
from takeoff.cutting.stop import MaxRounds

_LEAST_REST = 24 * 16  # two feet, in sixteenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What came of a case; costs in its own units."""

    name: str
    pieces: int
    lengths: int
    cost: int
    bound: int
    least: int | None
    fit: int
    textbook: int | None
    boards: int
    patterns: int
    rounds: int
    seconds: float

    @property
    def gap_pct(self) -> float:
        """Of the bound [%]."""
        return 100 * (self.cost - self.bound) / self.bound if self.bound else 0.0


def measured(name: str, instances: Sequence[Instance], least: int | None, textbook_seconds: float) -> Measured:
    """Cut some instances that make up one case.

    Args:
        name: of the case.
        instances: its groups.
        least: the least cost, where known.
        textbook_seconds: time of the general solver for each instance, if that is more than ours took; 0: it is left
            out.
    """
    meter, start = Meter(MaxRounds()), time.perf_counter()
    found = [searched(instance, _LEAST_REST, Effort(), meter) for instance in instances]
    seconds = time.perf_counter() - start
    for instance, one in zip(instances, found, strict=True):
        if not is_whole(instance, one.plan):
            raise ValueError(f"{name}: the plan doesn't make the pieces")
    fits = [_best_fit(instance) for instance in instances]
    limit = max(textbook_seconds, seconds) if textbook_seconds else 0.0
    return Measured(
        name=name,
        pieces=sum(sum(instance.demand) for instance in instances),
        lengths=sum(len(instance.items) for instance in instances),
        cost=sum(one.plan.cost(instance) for instance, one in zip(instances, found, strict=True)),
        bound=sum(one.bound for one in found),
        least=least,
        fit=sum(fit.cost(instance) for instance, fit in zip(instances, fits, strict=True)),
        textbook=_textbook(instances, fits, limit) if limit else None,
        boards=sum(one.plan.boards for one in found),
        patterns=sum(len(one.plan.uses) for one in found),
        rounds=meter.rounds,
        seconds=seconds,
    )


def measured_case(case: Case, textbook_seconds: float) -> Measured:
    """Cut a case of one instance."""
    return measured(case.name, [case.instance], case.least, textbook_seconds)


def _best_fit(instance: Instance) -> Plan:
    return min(first_plans(instance), key=lambda plan: plan.cost(instance))


def _textbook(instances: Sequence[Instance], fits: Sequence[Plan], seconds: float) -> int | None:
    costs = [textbook_cost(instance, fit, seconds) for instance, fit in zip(instances, fits, strict=True)]
    known = [cost for cost in costs if cost is not None]
    return sum(known) if len(known) == len(costs) else None
