"""Proof by enumeration: all patterns that a cheaper plan could use, and an integer programme over them.

At the prices of a certificate every pattern has a loss: what its stick costs, with the surplus of its stock, less what
its pieces are worth. A plan costs at least the certificate's bound and the losses of its patterns. So a plan that costs
at most g more than the bound uses only patterns whose loss is at most g; and of these only such as have no room for
another piece, since covering the demand is enough.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from takeoff.cutting.exact.certificate import Certificate
from takeoff.cutting.exact.columns import whole_job
from takeoff.cutting.exact.effort import Effort, Meter
from takeoff.cutting.exact.instance import Instance
from takeoff.cutting.exact.integer import covered
from takeoff.cutting.exact.pattern import Pattern, Plan, content_of
from takeoff.cutting.exact.start import cheapened


@dataclass(frozen=True, slots=True)
class Proven:
    """The best plan known, and what no plan costs less than."""

    plan: Plan
    bound: int


def proven(
    instance: Instance, certificate: Certificate, plan: Plan, effort: Effort, meter: Meter, *, below: int | None = None
) -> Proven:
    """Close the gap between a plan and its bound, as far as the effort goes.

    Args:
        instance: items and stocks.
        certificate: prices of the pieces.
        plan: the cheapest known.
        effort: limits of the enumeration and of the integer programme.
        meter: asked after each try.
        below: only plans that cost less are of interest [cents]: it is enough to show that there is none.
    """
    bound, step = certificate.bound(instance), instance.step or 1
    least = plan.cost(instance) if below is None else min(below, plan.cost(instance))
    gap = least - step - bound
    while least > bound and gap >= 0:
        target = bound + gap
        patterns = cheap_patterns(instance, certificate, target, effort)
        if patterns is not None:
            start = plan if least == plan.cost(instance) else None
            used = () if start is None else (pattern for pattern, _ in start.uses)
            columns = tuple(dict.fromkeys((*patterns, *used)))
            whole = whole_job(instance)
            cut_off = None if start else least
            answer = covered(instance, columns, whole, nodes=effort.proof_nodes, start=start, below=cut_off)
            if answer.uses is not None:
                found = cheapened(instance, [pattern for pattern, count in answer.uses for _ in range(count)])
                plan = min(plan, found, key=lambda one: one.cost(instance))
                least = min(least, plan.cost(instance))
            if answer.complete:
                return Proven(plan, min(least, target + step))
        if meter.tick() or not gap:
            break
        gap = gap // (4 * step) * step
    return Proven(plan, bound)


def cheap_patterns(
    instance: Instance, certificate: Certificate, target: int, effort: Effort
) -> tuple[Pattern, ...] | None:
    """All patterns without room for another piece that a plan of cost ``target`` or less can use.

    None where they are more than the effort allows to list.
    """
    allowed = target * certificate.scale - certificate.worth(instance)
    search = _Search(instance, certificate.values, effort.proof_steps)
    patterns: list[Pattern] = []
    for t, stock in enumerate(instance.stocks):
        least = stock.cost * certificate.scale + certificate.surplus[t] - allowed
        for content in search.contents(stock.capacity, least):
            patterns.append(Pattern(t, content))
            if len(patterns) > effort.proof_columns:
                return None
        if search.steps_left < 0:
            return None
    return tuple(patterns)


class _Search:
    """Depth first over the items, the widest first; a branch ends where the rest can't be worth enough any more."""

    def __init__(self, instance: Instance, values: Sequence[int], steps: int) -> None:
        self._instance = instance
        self._values = values
        self._ahead = _worth_ahead(instance, values)
        self.steps_left = steps

    def contents(self, capacity: int, least: int) -> Iterator[tuple[tuple[int, int], ...]]:
        """Contents of a capacity worth at least ``least``, with no room for another piece."""
        yield from self._from(0, capacity, least, [], None)

    def _from(
        self, i: int, room: int, least: int, taken: list[tuple[int, int]], chain: int | None
    ) -> Iterator[tuple[tuple[int, int], ...]]:
        self.steps_left -= 1
        if self.steps_left < 0 or self._ahead[i][room] < least:
            return
        if i == len(self._instance.items):
            if taken and self._is_full(room, taken):
                yield content_of(dict(taken))
            return
        item = self._instance.items[i]
        saving = 0 if item.chain is None else self._instance.savings[item.chain]
        opened = item.chain is not None and item.chain == chain
        most = (room - (0 if opened else saving)) // (item.width - saving)
        for count in range(min(item.qty, most), 0, -1):
            needs = count * item.width - (count - 1 + opened) * saving
            taken.append((i, count))
            yield from self._from(i + 1, room - needs, least - count * self._values[i], taken, item.chain)
            taken.pop()
        yield from self._from(i + 1, room, least, taken, chain)

    def _is_full(self, room: int, taken: list[tuple[int, int]]) -> bool:
        counts = dict(taken)
        chains = {self._instance.items[i].chain for i in counts}
        for i, item in enumerate(self._instance.items):
            in_chain = item.chain is not None and item.chain in chains
            saving = self._instance.savings[item.chain] if item.chain is not None and in_chain else 0
            if item.width - saving <= room and counts.get(i, 0) < item.qty:
                return False
        return True


def _worth_ahead(instance: Instance, values: Sequence[int]) -> list[list[int]]:
    """For each item and room, no less than what the items from it on can be worth in that room.

    Items that nest are taken as narrow as they are beside a neighbour.
    """
    import numpy as np

    longest = max((stock.capacity for stock in instance.stocks), default=0)
    rows = np.zeros((len(instance.items) + 1, longest + 1), dtype=np.int64)
    for i in range(len(instance.items) - 1, -1, -1):
        item, row = instance.items[i], rows[i]
        row[:] = rows[i + 1]
        width = item.width - (0 if item.chain is None else instance.savings[item.chain])
        count = 1
        bound = min(item.qty, longest // width)
        while bound > 0:
            n = min(count, bound)
            np.maximum(row[n * width :], row[: -n * width] + n * values[i], out=row[n * width :])
            bound, count = bound - n, 2 * count
    return [row.tolist() for row in rows]
