"""Prices as they stand on the order."""

from __future__ import annotations

from takeoff.catalog.prices import PriceList
from takeoff.cutting.steps import cents


def unit_price(prices: PriceList, item: str, grade: str, length_in: float | None) -> float | None:
    """Price of one piece to the cent [$], the same that cutting reckoned with; None where the list has none."""
    price_usd = prices.lookup(item, grade, length_in)
    return None if price_usd is None else cents(price_usd) / 100
