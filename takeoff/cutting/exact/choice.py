"""Which of several ways to make up each run of pieces lets the sticks be cheapest.

The linear programme of the patterns gets a column for each way, which asks for the way's pieces, and a row for each
run: exactly one way. Its prices sort out the ways; an integer programme then chooses among those few that are nearly
worth it, with any fraction of a stick allowed. What the sticks really cost is left to the search that follows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from takeoff.cutting.exact.certificate import scale_for
from takeoff.cutting.exact.instance import Instance
from takeoff.cutting.exact.knapsack import filled_table
from takeoff.cutting.exact.pattern import Content, Pattern, Pool
from takeoff.cutting.exact.solver import Sparse, checked, passed, quiet_solver, solved_whole

_ROUNDS = 60
_EXTRA = 30
_KEPT = 8
"""Ways of a run that the integer programme may choose from."""
_NODES = 20
_NOISE = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """An instance whose items are partly wanted anyway, and partly as the ways ask for them."""

    instance: Instance
    """Its demand is the most there can be of each item."""
    wanted: tuple[int, ...]
    """Of each item, whatever is chosen."""
    ways: tuple[tuple[Content, ...], ...]
    """For each run, what each of its ways asks for."""
    clashes: tuple[tuple[tuple[int, int], tuple[int, int]], ...] = ()
    """Pairs of run and way that don't go together."""


def chosen_ways(choice: Choice, first: Sequence[int]) -> tuple[int, ...]:
    """A way for each run, such that the sticks are cheap.

    Args:
        choice: what there is to choose.
        first: ways that go together.
    """
    patterns, worth = _generated(choice)
    kept = []
    for run, ways in enumerate(choice.ways):
        dear = [sum(worth[i] * n for i, n in way) for way in ways]
        order = sorted(range(len(ways)), key=lambda at: (dear[at], at))[:_KEPT]
        kept += [(run, way) for way in sorted({*order, first[run]})]
    programme = _programme(choice, patterns, kept, whole=True)
    start = [0] * len(patterns) + [int(first[run] == way) for run, way in kept]
    answer = solved_whole(programme, step=1.0, nodes=_NODES)
    counts = (answer.counts or start)[len(patterns) :]
    found = {run: way for (run, way), count in zip(kept, counts, strict=True) if count}
    return tuple(found.get(run, way) for run, way in enumerate(first))


def _generated(choice: Choice) -> tuple[list[Pattern], list[float]]:
    """Patterns, and what a piece of each item is worth with them."""
    instance, pool = choice.instance, Pool()
    scale = scale_for(instance)
    pool.add(_alone(instance))
    kept = [(run, way) for run, ways in enumerate(choice.ways) for way in range(len(ways))]
    prices: list[float] = []
    for _ in range(_ROUNDS):
        prices, premiums = _prices(choice, pool.patterns, kept)
        table = filled_table(instance, [int(price * scale) for price in prices], instance.demand)
        costs = [stock.cost * scale + int(premiums[t] * scale) for t, stock in enumerate(instance.stocks)]
        better = (
            p
            for p in table.cheapest(instance, costs, _EXTRA)
            if sum(prices[i] * n for i, n in p.content) > instance.stocks[p.stock].cost + premiums[p.stock] + _NOISE
        )
        if not pool.add(better):
            break
    return pool.patterns, prices


def _alone(instance: Instance) -> list[Pattern]:
    """One piece of each item on each stock that holds it."""
    return [
        Pattern(t, ((i, 1),))
        for i, item in enumerate(instance.items)
        for t, stock in enumerate(instance.stocks)
        if item.width <= stock.capacity
    ]


def _prices(
    choice: Choice, patterns: Sequence[Pattern], kept: Sequence[tuple[int, int]]
) -> tuple[list[float], list[float]]:
    """What a piece of each item is worth, and one more stick of each scarce stock."""
    solver = quiet_solver()
    passed(solver, _programme(choice, patterns, kept, whole=False))
    checked(solver.run())
    duals = list(solver.getSolution().row_dual)
    items = len(choice.instance.items)
    premiums = [0.0] * len(choice.instance.stocks)
    for row, t in enumerate(choice.instance.scarce, start=items):
        premiums[t] = max(0.0, -duals[row])
    return [max(0.0, dual) for dual in duals[:items]], premiums


def _programme(choice: Choice, patterns: Sequence[Pattern], kept: Sequence[tuple[int, int]], *, whole: bool) -> Sparse:
    """Columns: patterns, then ways. Rows: items, scarce stocks, runs, and the ways that clash with each."""
    instance = choice.instance
    stock_rows = {t: len(instance.items) + row for row, t in enumerate(instance.scarce)}
    first_run = len(instance.items) + len(stock_rows)
    apart = _apart(choice, kept) if whole else []
    clash_rows: dict[tuple[int, int], list[int]] = {}
    for row, group in enumerate(apart, start=first_run + len(choice.ways)):
        for one in group:
            clash_rows.setdefault(one, []).append(row)
    columns = [(*p.content, *(((stock_rows[p.stock], 1),) if p.stock in stock_rows else ())) for p in patterns]
    columns += [
        (
            *((i, -n) for i, n in choice.ways[run][way]),
            (first_run + run, 1),
            *((row, 1) for row in clash_rows.get((run, way), ())),
        )
        for run, way in kept
    ]
    limits = [float(instance.stocks[t].limit or 0) for t in instance.scarce]
    ones = [1.0] * len(choice.ways)
    return Sparse(
        costs=(*(float(instance.stocks[p.stock].cost) for p in patterns), *(0.0 for _ in kept)),
        columns=tuple(columns),
        lower=(*map(float, choice.wanted), *(-inf for _ in limits), *ones, *(-inf for _ in apart)),
        upper=(*(inf for _ in choice.wanted), *limits, *ones, *(1.0 for _ in apart)),
        most=(*(inf for _ in patterns), *(1.0 for _ in kept)),
        whole=whole,
        loose=len(patterns),
    )


def _apart(choice: Choice, kept: Sequence[tuple[int, int]]) -> list[tuple[tuple[int, int], ...]]:
    """Each way that is kept, with those of another run that clash with it: one of them at most."""
    there = set(kept)
    rows: dict[tuple[tuple[int, int], int], list[tuple[int, int]]] = {}
    for one, other in choice.clashes:
        if one in there and other in there:
            rows.setdefault((one, other[0]), []).append(other)
    return [(one, *others) for (one, _), others in rows.items()]
