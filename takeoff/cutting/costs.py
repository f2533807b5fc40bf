"""Costs to compare by, where some prices aren't known."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from takeoff.cutting.steps import cents


def compared_costs(amounts: Sequence[float], prices_usd: Sequence[float | None]) -> tuple[int, ...]:
    """Prices in cents, a stand-in where one isn't known.

    With no price known at all, the cost is the amount, so that the least material is cheapest. With some, the others
    are taken to be as dear as the dearest, so that nothing is chosen because nobody said what it costs.

    Args:
        amounts: what each has of it, length [in] or area [sq in].
        prices_usd: the price of each [$], or None.
    """
    rates = [
        Fraction(cents(price)) / Fraction(amount)
        for amount, price in zip(amounts, prices_usd, strict=True)
        if price is not None
    ]
    rate = max(rates, default=Fraction(1))
    return tuple(
        ceil(rate * Fraction(amount)) if price is None else cents(price)
        for amount, price in zip(amounts, prices_usd, strict=True)
    )
