"""Integer programmes over given patterns: the cheapest plan that uses no others."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from takeoff.cutting.exact.columns import Open
from takeoff.cutting.exact.instance import Instance
from takeoff.cutting.exact.pattern import Pattern, Plan
from takeoff.cutting.exact.solver import Sparse, solved_whole


@dataclass(frozen=True, slots=True)
class Covered:
    """What an integer programme over patterns gave. Of some items it may make more than wanted."""

    uses: tuple[tuple[Pattern, int], ...] | None
    """None: nothing was found."""
    complete: bool
    """No plan of these patterns is cheaper; with ``uses`` None: none exists, or none below what was asked for."""


def covered(
    instance: Instance,
    patterns: Sequence[Pattern],
    still: Open,
    *,
    nodes: int,
    start: Plan | None = None,
    below: int | None = None,
) -> Covered:
    """The cheapest plan of given patterns that cuts at least what is still wanted.

    Args:
        instance: items and stocks.
        patterns: each at most once.
        still: what is wanted, and how many sticks there are.
        nodes: limit of the search.
        start: a plan known already, of these patterns.
        below: only plans that cost less are of interest [cents].
    """
    step = instance.step or 1
    rows = {i: row for row, i in enumerate(i for i, n in enumerate(still.rest) if n)}
    scarce = {t: n for t, n in enumerate(still.left) if n is not None}
    stock_rows = {t: len(rows) + row for row, t in enumerate(scarce)}
    programme = Sparse(
        costs=tuple(float(instance.stocks[p.stock].cost // step) for p in patterns),
        columns=tuple(
            (
                *((rows[i], n) for i, n in p.content if i in rows),
                *(((stock_rows[p.stock], 1),) if p.stock in scarce else ()),
            )
            for p in patterns
        ),
        lower=(*(float(still.rest[i]) for i in rows), *(-inf for _ in scarce)),
        upper=(*(inf for _ in rows), *(float(n) for n in scarce.values())),
        most=tuple(float(_most(p, still)) for p in patterns),
        whole=True,
    )
    known = dict(start.uses) if start else {}
    counts = [known.get(p, 0) for p in patterns] if start else None
    cut_off = None if below is None else float(-(-below // step))
    whole = solved_whole(programme, step=1.0, nodes=nodes, start=counts, below=cut_off)
    if whole.counts is None:
        return Covered(None, whole.complete)
    return Covered(tuple((p, n) for p, n in zip(patterns, whole.counts, strict=True) if n), whole.complete)


def _most(pattern: Pattern, still: Open) -> int:
    """More boards of a pattern than this only make surplus."""
    return max(-(-still.rest[i] // count) for i, count in pattern.content)
