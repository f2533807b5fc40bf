"""Allowances: what is ordered beyond the pieces cut, for culls, crooks and miscuts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil

from takeoff.catalog.waste import default_waste_pct

_SLACK = 1e-9  # twenty and five percent are twenty-one, whatever 20 * 1.05 is in floats


@dataclass(frozen=True, slots=True)
class Allowances:
    """The allowance of each category: as the plan states it, or the usual one."""

    stated_pct: Mapping[str, float]

    def pct(self, category: str) -> float:
        """Allowance of a category [%].

        Raises:
            UnknownItem: no such category.
        """
        return self.stated_pct[category] if category in self.stated_pct else default_waste_pct(category)


def with_allowance(qty_net: int, pct: float) -> int:
    """Whole pieces to order for ``qty_net`` needed and an allowance [%], rounded up."""
    return ceil(qty_net * (1 + pct / 100) - _SLACK)
