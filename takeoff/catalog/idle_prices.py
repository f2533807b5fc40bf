"""Rows of a price list that price nothing: items, grades and lengths that the catalog doesn't hold."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from takeoff.catalog.grades import grade, grades
from takeoff.catalog.hardware import hardware_items
from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.nails import nails
from takeoff.catalog.prices import PriceList, PriceRow
from takeoff.catalog.profiles import Profile, profile, profiles
from takeoff.catalog.sheets import sheet_products
from takeoff.catalog.unknown import UnknownItem
from takeoff.findings import Finding, Place, Severity
from takeoff.measure import format_length

_SAME_IN = 1 / 32


def idle_rows(prices: PriceList, file: str) -> tuple[Finding, ...]:
    """A note for each row that is used for nothing, in the order of the list.

    A yard's list may well hold what this program doesn't count, so that it is no error; but a slip of the pen that
    costs a price is told.

    Args:
        prices: as read.
        file: its name.
    """
    found = ((row, message) for row in sorted(prices.rows, key=lambda row: row.line) for message in _idle(row))
    return tuple(
        Finding(
            rule="prices.used-for-nothing",
            severity=Severity.NOTE,
            message=f"{message}; this price is used for nothing",
            place=Place(file=file, line=row.line),
            where=row.item,
            found=row.item,
        )
        for row, message in found
    )


def _idle(row: PriceRow) -> Iterator[str]:
    others = {product.name for product in sheet_products()}
    others |= {item.name for item in hardware_items()} | {item.name for item in nails()}
    if row.item in others:
        return
    try:
        size = profile(row.item)
        if row.grade:
            grade(row.grade)
    except UnknownItem as error:
        named = {*others, *(known.name for known in profiles())}
        yield str(UnknownItem("item", row.item, named) if error.name == row.item else error)
        return
    if row.length_in is not None and not _is_on_sale(size, row.grade, row.length_in):
        yield f"no {' '.join((row.item, row.grade)).strip()} is sold {format_length(row.length_in)} long"


def _is_on_sale(size: Profile, named: str, length_in: float) -> bool:
    on_sale = {known for one in _grades(named) for known in stock_lengths(size, one)}
    return any(abs(length_in - known) <= _SAME_IN for known in on_sale)


def _grades(named: str) -> Iterable[str]:
    return (named,) if named else (known.name for known in grades())
