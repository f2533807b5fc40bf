"""What a buyer should hear of: special lengths, and prices that are missing or made up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.prices import PriceList
from takeoff.catalog.profiles import profile
from takeoff.cutting.natural import natural_key
from takeoff.findings import Finding, Severity
from takeoff.measure import format_length
from takeoff.model.order import OrderLine
from takeoff.model.stock import LumberCutting, Piece

SPECIAL_LENGTH = "order.special-length"
NO_PRICE = "order.no-price"
PRICES_MISSING = "order.prices-missing"

MANY = 4
"""Fewer items without a price are told one by one."""
PLACEHOLDER_PRICES = "order.placeholder-prices"


def order_findings(
    *, pieces: tuple[Piece, ...], lumber: LumberCutting, lines: tuple[OrderLine, ...], prices: PriceList
) -> tuple[Finding, ...]:
    """Findings on the order: special lengths first, then missing prices, then made-up ones. None stops a run."""
    return (*_special_lengths(pieces, lumber), *_many_missing(lines), *_missing_prices(lines), *_placeholder(prices))


def _special_lengths(pieces: tuple[Piece, ...], lumber: LumberCutting) -> Iterator[Finding]:
    counted = Counter(
        (board.load, board.profile, board.grade, board.stock_length_in, cut.mark)
        for board in lumber.boards
        if board.special
        for cut in board.cuts
    )
    in_order = sorted(counted, key=lambda key: (key[0], natural_key(key[1]), *key[2:4], natural_key(key[4])))
    for load, name, grade, length_in, mark in in_order:
        on_sale = stock_lengths(profile(name), grade)
        qty = counted[load, name, grade, length_in, mark]
        longest = f"the longest {name} {grade} on sale is {format_length(on_sale[-1])}"
        yield Finding(
            rule=SPECIAL_LENGTH,
            severity=Severity.WARNING,
            message=f"{longest if on_sale else f'no {name} {grade} is on sale'};"
            f" order {qty} specially, {format_length(length_in)} long, for {mark}",
            building=_building(pieces, mark),
            where=mark,
            found=format_length(length_in),
            limit=format_length(on_sale[-1]) if on_sale else "",
        )


def _building(pieces: tuple[Piece, ...], mark: str) -> str:
    """The building that has a mark; empty where several have."""
    names = {piece.building for piece in pieces if piece.mark == mark}
    return names.pop() if len(names) == 1 else ""


def _many_missing(lines: tuple[OrderLine, ...]) -> Iterator[Finding]:
    """One warning for a price list that has no price for much of the order."""
    missing = sum(line.unit_price is None for line in lines)
    if missing >= MANY and 2 * missing >= len(lines):
        yield Finding(
            rule=PRICES_MISSING,
            severity=Severity.WARNING,
            message=f"{missing} of {len(lines)} items have no price: the total says little; see the price list's items",
            where="prices",
            found=f"{missing} of {len(lines)}",
        )


def _missing_prices(lines: tuple[OrderLine, ...]) -> Iterator[Finding]:
    for item in dict.fromkeys(line.item for line in lines if line.unit_price is None):
        yield Finding(
            rule=NO_PRICE,
            severity=Severity.NOTE,
            message=f"the price list has no price for {item}; its cost isn't in the total",
            where=item,
        )


def _placeholder(prices: PriceList) -> Iterator[Finding]:
    if prices.is_placeholder:
        yield Finding(
            rule=PLACEHOLDER_PRICES,
            severity=Severity.NOTE,
            message="prices are placeholder money, not a quotation: give your own price list to get a true cost",
        )
