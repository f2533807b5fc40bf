"""Diving: the linear programme rounded a few patterns at a time, and solved anew for the rest."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, floor

from takeoff.cutting.exact.columns import Generated, Open, generated, whole_job
from takeoff.cutting.exact.effort import Dive, Effort, Meter
from takeoff.cutting.exact.instance import Instance
from takeoff.cutting.exact.integer import covered
from takeoff.cutting.exact.pattern import Pattern, Plan, Pool, is_whole
from takeoff.cutting.exact.start import cheapened

_WHOLE = 1e-6
"""How near to a whole number a float of the linear programme is one."""
_SHORT = 1e-4
"""Pieces that can't be had, in a linear programme whose stock suffices: float noise."""


def dived(instance: Instance, pool: Pool, root: Generated, dive: Dive, effort: Effort, meter: Meter) -> Plan | None:
    """A plan by diving; None where the stock ran out on the way, or the search was stopped.

    Args:
        instance: items and stocks.
        pool: patterns met before; those met here are added.
        root: the linear programme of the whole instance.
        dive: how to round.
        effort: limits of the column generation.
        meter: asked after each step.
    """
    still, cut, reached = whole_job(instance), list[tuple[Pattern, int]](), root
    while any(still.rest):
        if reached is not root and sum(reached.relaxed.missing) > _SHORT:
            return None
        fixed = _finished(instance, reached, still, dive, effort) or _rounded(reached, still, dive)
        if not fixed:
            return None
        cut += fixed
        still = _after(still, fixed)
        if meter.tick():
            return None
        if any(still.rest):
            reached = generated(instance, pool.patterns, still, effort)
            pool.add(reached.patterns)
    plan = cheapened(instance, [pattern for pattern, count in cut for _ in range(count)])
    return plan if is_whole(instance, plan) else None


def ends_at_once(reached: Generated, dive: Dive) -> bool:
    """Whether so little is open that a dive solves it all as one integer programme, the same for each such dive."""
    return sum(reached.relaxed.uses) <= dive.whole_from


def _finished(
    instance: Instance, reached: Generated, still: Open, dive: Dive, effort: Effort
) -> list[tuple[Pattern, int]]:
    """The rest by an integer programme, where it is small enough."""
    if not ends_at_once(reached, dive):
        return []
    return list(covered(instance, reached.patterns, still, nodes=effort.dive_nodes).uses or ())


def _rounded(reached: Generated, still: Open, dive: Dive) -> list[tuple[Pattern, int]]:
    """Whole parts, then the largest fractions as far as they fit into the rest; at least one board."""
    fixed, open_boards = list[tuple[Pattern, int]](), sum(reached.relaxed.uses)
    for pattern, use in zip(reached.patterns, reached.relaxed.uses, strict=True):
        count = min(floor(use + _WHOLE), _most(pattern, still))
        if count:
            fixed.append((pattern, count))
            still = _after(still, [(pattern, count)])
    room = max(1, ceil(dive.share * open_boards)) if not fixed else int(dive.share * open_boards)
    for pattern in _by_fraction(reached, dive.threshold, forced=not fixed):
        if room < 1:
            break
        if _most(pattern, still):
            fixed.append((pattern, 1))
            still, room = _after(still, [(pattern, 1)]), room - 1
    return fixed


def _by_fraction(reached: Generated, threshold: float, *, forced: bool) -> Iterable[Pattern]:
    """Patterns by falling fraction; if ``forced``, the first of them whatever its fraction."""
    fractions = [use - floor(use + _WHOLE) for use in reached.relaxed.uses]
    order = sorted((at for at, f in enumerate(fractions) if f > _WHOLE), key=lambda at: (-fractions[at], at))
    over = [at for at in order if fractions[at] >= threshold]
    return [reached.patterns[at] for at in over or order[: int(forced)]]


def _most(pattern: Pattern, still: Open) -> int:
    """How often a pattern fits into what is still open."""
    times = min(still.rest[i] // count for i, count in pattern.content)
    left = still.left[pattern.stock]
    return times if left is None else min(times, left)


def _after(still: Open, fixed: Iterable[tuple[Pattern, int]]) -> Open:
    """What is open once some patterns are cut."""
    rest, left = list(still.rest), list(still.left)
    for pattern, times in fixed:
        for i, count in pattern.content:
            rest[i] = max(0, rest[i] - count * times)
        room = left[pattern.stock]
        left[pattern.stock] = None if room is None else room - times
    return Open(rest=tuple(rest), left=tuple(left))
