"""Money as people type it."""

from __future__ import annotations

import pytest

from takeoff.order.quotes.currency import CurrencyError, parse_currency


@pytest.mark.parametrize(
    ("text", "amount"),
    [
        ("12.50", 12.5),
        ("$1,234.50", 1234.5),
        ("$ 1 234.50", 1234.5),
        ("1.234,50 €", 1234.5),
        ("1,234", 1234.0),
        ("1,234,567", None),
        ("12,5", 12.5),
        ("7.40/ea", 7.4),
        ("7.40 each", 7.4),
        ("USD 7.40", 7.4),
        ("US$7", 7.0),
        ("£3.20 per piece", 3.2),
        ("0", 0.0),
    ],
)
def test_amounts_are_read(text: str, amount: float | None) -> None:
    if amount is None:  # more than a million is no price of a stick
        with pytest.raises(CurrencyError):
            parse_currency(text)
    else:
        assert parse_currency(text) == amount


@pytest.mark.parametrize(
    ("text", "unit"),
    [("2.10/lb", "lb"), ("$2.10 per pound", "lb"), ("2.10", "lb"), ("2,10 a ft", "ft"), ("2.10/lf", "ft")],
)
def test_a_price_for_the_unit_asked_is_read(text: str, unit: str) -> None:
    assert parse_currency(text, unit) == 2.1


@pytest.mark.parametrize(("text", "unit"), [("2.10/ea", "lb"), ("2.10/lb", "each"), ("30 per sheet", "ft")])
def test_a_price_for_another_unit_is_refused(text: str, unit: str) -> None:
    with pytest.raises(CurrencyError, match="expected a price"):
        parse_currency(text, unit)


@pytest.mark.parametrize("text", ["", "  ", "n/a", "N/A", "-", "no bid", "Call"])
def test_words_for_no_offer_are_no_offer(text: str) -> None:
    assert parse_currency(text) is None


@pytest.mark.parametrize(
    "text", ["-5", "12.50 per ft", "850/mbf", "12 or 13", "1,23,4", "1..2", "=A1", "1e5", "twelve", "9" * 30]
)
def test_what_is_no_one_amount_is_refused_with_what_was_found(text: str) -> None:
    with pytest.raises(CurrencyError, match="expected a price"):
        parse_currency(text)
