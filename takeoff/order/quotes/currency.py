"""Money as people type it: with or without a sign, thousands apart or not, a comma or a point for the cents."""

from __future__ import annotations

import re

NO_OFFER = frozenset(
    ("", "-", "--", "n/a", "na", "no bid", "no quote", "none", "not offered", "nil", "out", "call", "tba")
)
"""What yards write where they don't offer a thing."""

LARGEST_USD = 1_000_000.0

_SIGN = r"(?:us)?\s*[$€£]|(?:us|usd|cad|aud|eur|gbp)\b"
_BEFORE = re.compile(rf"^(?:{_SIGN})\s*")
# "per foot" or "per thousand" isn't taken off from a price of a piece: it is for something else.
_AFTER = {
    unit: re.compile(rf"\s*(?:{_SIGN})?\s*(?:/|per|a)?\s*(?:{words})?\.?$")
    for unit, words in (
        ("each", "ea|each|pc|pcs|piece|sheet"),
        ("lb", "lb|lbs|pound"),
        ("ft", "ft|foot|lf|lin\\.? ?ft"),
    )
}
"""What may stand after an amount for one of a unit."""
_GROUPED = re.compile(r"\d{1,3}(?:[ ',.]\d{3})+")
_PLAIN = re.compile(r"\d{1,9}(?:\.\d{1,6})?")


class CurrencyError(ValueError):
    """A text that is no one amount of money."""


def parse_currency(text: str, unit: str = "each") -> float | None:
    """The amount that a text says [$]; None where it says that nothing is offered.

    ``1,234.50``, ``$1 234.50``, ``1.234,50 €``, ``12,5`` and ``7.40/ea`` are read; ``1,234`` is a thousand, as is
    ``1.234,00``, but ``1.234`` is one and a bit: with one point alone it is a decimal point.

    Args:
        text: as typed.
        unit: that the price is asked for; a price for one of another unit is refused.

    Raises:
        CurrencyError: it isn't one clear amount from nothing up to a million.
    """
    plain = " ".join(text.split()).lower()
    if plain in NO_OFFER:
        return None
    number = _decimal(_AFTER.get(unit, _AFTER["each"]).sub("", _BEFORE.sub("", plain)))
    if not _PLAIN.fullmatch(number) or float(number) > LARGEST_USD:
        raise CurrencyError(
            f"found {text.strip()[:40]!r}, expected a price such as 12.50{_for(unit)}; leave it empty for no offer"
        )
    return float(number)


def _for(unit: str) -> str:
    return "" if unit == "each" else f" a {unit}"


def _decimal(number: str) -> str:
    """Marks between thousands taken out, a point for the decimals."""
    whole, mark, decimals = number, "", ""
    at = max(number.rfind("."), number.rfind(","))
    if at >= 0:
        whole, mark, decimals = number[:at], number[at], number[at + 1 :]
    lone_comma = mark == "," and len(decimals) == 3 and "." not in whole  # 1,234 is a thousand
    if lone_comma or (mark and mark in whole):
        whole, decimals = number, ""
    if not whole.isdigit():
        if not _GROUPED.fullmatch(whole):
            return number
        whole = re.sub(r"[ ',.]", "", whole)
    return f"{whole}.{decimals}" if decimals else whole
