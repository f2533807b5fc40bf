"""A group in whole numbers: items to be cut, and stocks to cut them from.

Items that nest form a chain. n pieces of a chain on one stick take the sum of their widths less n - 1 times the chain's
saving, so a chain is an item set with a set-up: each piece is narrower by the saving, and the chain once costs it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property
from math import gcd

from takeoff.cutting.groups import Group, Part, Stick
from takeoff.cutting.nests import nest_order


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """Equal pieces. ``width`` holds the kerf that parts a piece from the next."""

    width: int
    qty: int
    chain: int | None = None
    """Number of its chain; None where it doesn't nest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """A stick to be had. ``limit`` None: as many as wanted."""

    capacity: int
    cost: int
    limit: int | None = None


@dataclass(frozen=True, kw_only=True)  # no slots: what follows from it is kept on it
class Instance:
    """Items and stocks; the widest item first, those of a chain together after all others, the shortest stock first."""

    items: tuple[Item, ...]
    stocks: tuple[Stock, ...]
    savings: tuple[int, ...] = ()
    """Of each chain, for each neighbour."""

    @cached_property
    def demand(self) -> tuple[int, ...]:
        """How many of each item are wanted."""
        return tuple(item.qty for item in self.items)

    @cached_property
    def step(self) -> int:
        """All costs are multiples of it; 0 where all are 0."""
        return gcd(*(stock.cost for stock in self.stocks))

    @cached_property
    def scarce(self) -> tuple[int, ...]:
        """Numbers of the stocks that have a limit."""
        return tuple(t for t, stock in enumerate(self.stocks) if stock.limit is not None)

    def taken(self, content: Iterable[tuple[int, int]]) -> int:
        """Capacity that a content takes: item numbers and counts."""
        total, in_chain = 0, [0] * len(self.savings)
        for i, count in content:
            item = self.items[i]
            total += item.width * count
            if item.chain is not None:
                in_chain[item.chain] += count
        return total - sum(s * (n - 1) for s, n in zip(self.savings, in_chain, strict=True) if n)

    def rounded_up(self, numerator: int, denominator: int) -> int:
        """The least cost that a whole plan can have if it is at least a fraction."""
        step = self.step or 1
        return -(-numerator // (denominator * step)) * step

    def of_stocks(self, numbers: Iterable[int]) -> Instance:
        """The same items with some of the stocks."""
        return replace(self, stocks=tuple(self.stocks[t] for t in numbers))


@dataclass(frozen=True, slots=True, kw_only=True)
class Coded:
    """An instance, with the part each item and the stick each stock stands for."""

    instance: Instance
    parts: tuple[Part, ...]
    sticks: tuple[Stick, ...]


def coded(group: Group) -> Coded:
    """The instance of a group's demands. Sticks are left out that hold nothing, or that a longer one undercuts."""
    counts: dict[Part, int] = {}
    for demand in group.demands:
        part = (demand.width, demand.nest)
        counts[part] = counts.get(part, 0) + demand.qty
    parts = tuple(sorted(counts, key=lambda part: (nest_order(part[1]), -part[0])))
    nests = tuple(dict.fromkeys(nest for _, nest in parts if nest is not None))
    items = tuple(
        Item(width=width, qty=counts[width, nest], chain=None if nest is None else nests.index(nest))
        for width, nest in parts
    )
    narrowest = min((width for width, _ in parts), default=0)
    sticks = tuple(
        stick
        for number, stick in enumerate(group.sticks)
        if stick.capacity >= narrowest and not _undercut(number, stick, group.sticks)
    )
    stocks = tuple(Stock(capacity=stick.capacity, cost=stick.cost, limit=stick.limit) for stick in sticks)
    return Coded(
        instance=Instance(items=items, stocks=stocks, savings=tuple(nest.saving for nest in nests)),
        parts=parts,
        sticks=sticks,
    )


def _undercut(number: int, stick: Stick, sticks: tuple[Stick, ...]) -> bool:
    """Whether one as long or longer, to be had in any number, costs no more; of equals the first stays."""
    return stick.limit is None and any(
        other.limit is None
        and other.capacity >= stick.capacity
        and other.cost <= stick.cost
        and ((other.capacity, -other.cost) != (stick.capacity, -stick.cost) or at < number)
        for at, other in enumerate(sticks)
        if at != number
    )
