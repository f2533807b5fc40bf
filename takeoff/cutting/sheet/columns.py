"""Column generation: the linear programme, fed until no sheet and no lay-up would make it cheaper."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor

from takeoff.cutting.sheet.master import Choice, Master, Relaxed
from takeoff.cutting.sheet.pricing import Pattern, Pricer, Source, Stock, Strip

SCALE = 1 << 16
"""Worths are whole numbers of such parts of a cent, so that rounding never makes a pattern look too good."""

MOST_ROUNDS = 80
"""Of the linear programme. A count, not seconds: the same sheets on every machine."""

NEAR = 1e-6
"""Of a cost: nothing that saves less is worth another round."""

Chooser = Callable[[Sequence[int]], Sequence[tuple[Choice, int]]]
"""For the worths of items [cents / SCALE], for each face the cheapest choices, each with what its pieces are worth."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What is to be cut."""

    stocks: tuple[Stock, ...]
    wanted: tuple[int, ...]
    """Pieces of each item."""
    most: tuple[int, ...]
    """Pieces of each item that are of use, lay-ups considered."""
    faces: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """What the linear programme ended with."""

    strips: tuple[Strip, ...]
    choices: tuple[Choice, ...]
    bound: int
    """Cents that no sheets cut in rows cost less than."""
    cost: float
    """Of the linear programme [cents]."""
    faces: tuple[float, ...]
    """What covering each face costs [cents]."""
    worths: tuple[int, ...]
    """Of a piece of each item [cents / SCALE]."""


def generated(
    job: Job, start: Sequence[Pattern], choose: Chooser | None = None, *, rounds: int = MOST_ROUNDS
) -> Columns:
    """Solve the linear programme over all patterns and choices.

    Args:
        job: what to cut.
        start: patterns that make every item.
        choose: gives the choices for worths; None where nothing is to be chosen.
        rounds: after so many it is enough.
    """
    pricers = [Pricer(t, stock, job.most) for t, stock in enumerate(job.stocks)]
    master = Master(job.wanted, job.faces, job.stocks)
    patterns, choices = dict.fromkeys(start), dict[Choice, None]()
    master.add_patterns(patterns)
    if choose:
        choices |= dict.fromkeys(choice for choice, _ in choose([0] * len(job.wanted)))
        master.add_choices(choices)
    best = 0
    for _ in range(rounds):
        relaxed = master.solve()
        worths = tuple(floor(worth * SCALE) for worth in relaxed.worths)
        for pricer in pricers:
            pricer.price(worths)
        priced = [one for pricer in pricers for one in pricer.patterns()]
        found = choose(worths) if choose else ()
        best = max(best, _bound(job, worths, priced, found))
        if best >= ceil(relaxed.cost - relaxed.cost * NEAR):
            break
        new = [
            pattern
            for worth, pattern in priced
            if worth > SCALE * (_source(job, pattern).cost + _premium(relaxed, pattern)) * (1 + NEAR)
            and pattern not in patterns
        ]
        chosen = [
            choice
            for choice, cost in found
            if choice not in choices and choice.cost * SCALE + cost < SCALE * (relaxed.faces[choice.face] - NEAR)
        ]
        if not new and not chosen:
            break
        patterns |= dict.fromkeys(new)
        choices |= dict.fromkeys(chosen)
        master.add_patterns(new)
        master.add_choices(chosen)
    held = (
        pricer.holding(k, max(s.length for s in pricer.sources))
        for pricer in pricers
        for k in range(len(pricer.blocks))
    )
    strips = dict.fromkeys(strip for pattern in patterns for strip in pattern.strips)
    strips |= dict.fromkeys(strip for strip in held if strip is not None)
    return Columns(
        strips=tuple(strips),
        choices=tuple(choices),
        bound=best,
        cost=relaxed.cost,
        faces=relaxed.faces,
        worths=worths,
    )


def _source(job: Job, pattern: Pattern) -> Source:
    return job.stocks[pattern.stock].sources[pattern.source]


def _premium(relaxed: Relaxed, pattern: Pattern) -> float:
    return relaxed.premiums.get((pattern.stock, pattern.source), 0.0)


def _bound(
    job: Job,
    worths: Sequence[int],
    priced: Sequence[tuple[int, Pattern]],
    found: Sequence[tuple[Choice, int]],
) -> int:
    """Cents that no solution costs less than, whatever the worths: scaled until no pattern is worth more than it costs.

    Source:
        Farley, A note on bounding a class of linear programming problems, including cutting stock problems, 1990.
    """
    scale = 1.0
    for source, worth in _best_of_sources(job, priced):
        if source.qty is None and worth > 0:
            scale = min(scale, source.cost * SCALE / worth)
    total = sum(n * worth for n, worth in zip(job.wanted, worths, strict=True)) * scale
    least: dict[int, float] = {}
    for choice, cost in found:
        value = (choice.cost * SCALE + cost) * scale
        least[choice.face] = min(value, least.get(choice.face, value))
    total += sum(least.values())
    for source, worth in _best_of_sources(job, priced):
        if source.qty is not None:
            total -= source.qty * max(0.0, worth * scale - source.cost * SCALE)
    return ceil(total / SCALE - NEAR)


def _best_of_sources(job: Job, priced: Sequence[tuple[int, Pattern]]) -> Iterator[tuple[Source, int]]:
    """Each source with what its worthiest pattern is worth."""
    best: dict[tuple[int, int], int] = {}
    for worth, pattern in priced:
        key = pattern.stock, pattern.source
        best[key] = max(worth, best.get(key, 0))
    for (stock, source), worth in best.items():
        yield job.stocks[stock].sources[source], worth
