"""Waste allowances: what is ordered beyond the pieces cut, for culls, crooks and miscuts."""

from __future__ import annotations

from functools import cache

from takeoff.catalog.table import read_table
from takeoff.catalog.unknown import UnknownItem


@cache
def waste_categories() -> tuple[str, ...]:
    """All categories that have an allowance, in the order of the table."""
    return tuple(row.text("category") for row in read_table("waste"))


@cache
def default_waste_pct(category: str) -> float:
    """Allowance of a category where the plan doesn't state one [%]. Cutting loss is not in it.

    Raises:
        UnknownItem: no such category.
    """
    for row in read_table("waste"):
        if row.text("category") == category:
            return row.number("allowance_pct")
    raise UnknownItem("order category", category, waste_categories())
