"""Patterns, the plans made of them, and the pool of all patterns met."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from takeoff.cutting.exact.instance import Instance

Content = tuple[tuple[int, int], ...]
"""Item numbers and how many of each, by item number."""


@dataclass(frozen=True, slots=True, order=True)
class Pattern:
    """What is cut from one stick of a stock."""

    stock: int
    content: Content


@dataclass(frozen=True, slots=True)
class Plan:
    """How often each pattern is cut, by pattern."""

    uses: tuple[tuple[Pattern, int], ...]

    def cost(self, instance: Instance) -> int:
        """Of all its sticks."""
        return sum(instance.stocks[pattern.stock].cost * count for pattern, count in self.uses)

    @property
    def boards(self) -> int:
        """How many sticks it takes."""
        return sum(count for _, count in self.uses)


def plan_of(uses: Iterable[tuple[Pattern, int]]) -> Plan:
    """A plan; equal patterns are put together, empty ones and those not used left out."""
    counts: dict[Pattern, int] = {}
    for pattern, count in uses:
        if count and pattern.content:
            counts[pattern] = counts.get(pattern, 0) + count
    return Plan(tuple(sorted(counts.items())))


def content_of(counts: dict[int, int]) -> Content:
    """The content of item counts."""
    return tuple(sorted((i, count) for i, count in counts.items() if count))


def made_by(instance: Instance, uses: Iterable[tuple[Pattern, int]]) -> list[int]:
    """How many of each item come out."""
    made = [0] * len(instance.items)
    for pattern, count in uses:
        for i, n in pattern.content:
            made[i] += n * count
    return made


def sticks_used(instance: Instance, uses: Iterable[tuple[Pattern, int]]) -> list[int]:
    """How many of each stock are taken."""
    used = [0] * len(instance.stocks)
    for pattern, count in uses:
        used[pattern.stock] += count
    return used


def is_whole(instance: Instance, plan: Plan) -> bool:
    """Whether a plan makes each item exactly as often as wanted, within capacity and stock."""
    fits = all(instance.taken(p.content) <= instance.stocks[p.stock].capacity for p, _ in plan.uses)
    used = sticks_used(instance, plan.uses)
    in_stock = all(stock.limit is None or n <= stock.limit for stock, n in zip(instance.stocks, used, strict=True))
    return fits and in_stock and tuple(made_by(instance, plan.uses)) == instance.demand


@dataclass(slots=True)
class Pool:
    """All patterns met so far, each once, in the order they were met."""

    patterns: list[Pattern] = field(default_factory=list)
    _numbers: dict[Pattern, int] = field(default_factory=dict)

    def add(self, patterns: Iterable[Pattern]) -> int:
        """Add those that are new; how many these were."""
        before = len(self.patterns)
        for pattern in patterns:
            if pattern.content and pattern not in self._numbers:
                self._numbers[pattern] = len(self.patterns)
                self.patterns.append(pattern)
        return len(self.patterns) - before


def fitting(patterns: Iterable[Pattern], rest: Sequence[int], left: Sequence[int | None]) -> list[Pattern]:
    """The patterns that cut no more of any item than is still wanted, from a stock of which some are left."""
    return [
        pattern
        for pattern in patterns
        if left[pattern.stock] != 0 and all(count <= rest[i] for i, count in pattern.content)
    ]
