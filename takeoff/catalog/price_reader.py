"""Reader of price lists: CSV with the columns ``item,grade,length_in,unit,price`` and, if wanted, ``source``."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from takeoff.catalog.csv_list import Cell, CsvList, CsvRow, read_list_text
from takeoff.catalog.prices import (
    UNITS,
    PriceKey,
    PriceList,
    PriceRow,
    board_feet_per_ft,
    grade_name,
    is_by_lb,
    item_name,
)
from takeoff.catalog.table import data_text
from takeoff.findings import PlanError
from takeoff.measure import MeasureError, parse_length

COLUMNS = ("item", "grade", "length_in", "unit", "price")
OPTIONAL_COLUMNS = ("source",)

_KIND, _WHAT = "prices", "a price list"
_LARGEST_BYTES = 4_000_000
_MONEY = re.compile(r"[+-]?\d{1,12}(\.\d{1,6})?", re.ASCII)
_LARGEST_USD = 1_000_000.0
_SHORTEST_BOARD_IN = 24.0  # a bare 16 in the length column is sixteen feet, meant but not written


@cache
def builtin_prices() -> PriceList:
    """The built-in list: placeholder money, so that an order can be seen before there is a quotation."""
    return read_prices(data_text("prices"), file="built-in prices")


def read_price_file(path: Path) -> PriceList:
    """The price list in a file.

    Raises:
        PlanError: the file can't be read, or something in it is wrong; holds all findings.
    """
    text = read_list_text(path, kind=_KIND, what=_WHAT, largest_bytes=_LARGEST_BYTES)
    return read_prices(text, file=str(path))


def read_prices(text: str, *, file: str) -> PriceList:
    """The price list in a text.

    Args:
        text: CSV, a header first. ``length_in`` is in inches, or a length with a foot mark (``16'``), or blank for any
            length; ``grade`` is blank for any grade; ``unit`` is ``each``, ``ft``, ``mbf`` or, for nails, ``lb``;
            blank for ``each``, of nails for a pound.
        file: its name, for findings.

    Raises:
        PlanError: something in it is wrong; holds all findings.
    """
    sheet = CsvList(kind=_KIND, what=_WHAT, file=file, columns=COLUMNS, optional=OPTIONAL_COLUMNS)
    rows: dict[PriceKey, PriceRow] = {}
    for cells in sheet.rows(text):
        row = _row(sheet, cells)
        if row is None:
            continue
        if row.key in rows:
            message = f"a second price for the same item, grade and length as line {rows[row.key].line}"
            sheet.say("duplicate-row", cells["item"].place, message, found=cells["item"].text)
        else:
            rows[row.key] = row
    if sheet.findings:
        raise PlanError(sheet.findings)
    return PriceList(tuple(sorted(rows.values(), key=lambda row: (row.item, row.grade, row.length_in or 0.0))))


def _row(sheet: CsvList, cells: CsvRow) -> PriceRow | None:
    """One row; None where something is wrong with it, which is noted."""
    before = len(sheet.findings)
    item = item_name(cells["item"].text)
    if not item:
        message = "no item; write a profile, a sheet or hardware, such as 2x10"
        sheet.say("missing-item", cells["item"].place, message)
    unit = _unit(sheet, cells["unit"], item)
    length_in = _length(sheet, cells["length_in"], item)
    price_usd = _price(sheet, cells["price"])
    if len(sheet.findings) > before:
        return None
    return PriceRow(
        item=item,
        grade=grade_name(cells["grade"].text),
        length_in=length_in,
        unit=unit,
        price_usd=price_usd,
        source=cells["source"].text if "source" in cells else "",
        line=cells["item"].place.line,
    )


def _unit(sheet: CsvList, cell: Cell, item: str) -> str:
    unit = cell.text.lower() or ("lb" if is_by_lb(item) else "each")
    if unit not in UNITS:
        message = f"unit {cell.text!r} isn't one of {', '.join(UNITS)}"
        sheet.say("unknown-unit", cell.place, message, found=cell.text)
    elif unit == "mbf" and not board_feet_per_ft(item):
        sheet.say("unknown-unit", cell.place, f"{item} isn't measured in board feet", found=cell.text)
    elif (unit == "lb") != is_by_lb(item):
        by_lb = "nails are ordered by the pound: write lb" if is_by_lb(item) else f"{item} isn't ordered by the pound"
        sheet.say("unknown-unit", cell.place, by_lb, found=cell.text)
    return unit


def _length(sheet: CsvList, cell: Cell, item: str) -> float | None:
    if not cell.text:
        return None
    try:
        length_in = parse_length(cell.text)
    except MeasureError as error:
        sheet.say("bad-length", cell.place, f"{cell.text!r}: {error.fault}", found=cell.text)
        return None
    if length_in <= 0:
        sheet.say("bad-length", cell.place, "a length is more than zero", found=cell.text)
    elif length_in < _SHORTEST_BOARD_IN and board_feet_per_ft(item):
        mend = f"lengths are in inches: for feet write {cell.text}'"
        sheet.say("bad-length", cell.place, f"{cell.text} inches is no board; {mend}", found=cell.text)
    return length_in


def _price(sheet: CsvList, cell: Cell) -> float:
    """The price [USD]; 0 beside a finding where there is none."""
    if not _MONEY.fullmatch(cell.text):
        message = f"price {cell.text!r} isn't a number; write 12.50" if cell.text else "no price; write 12.50"
        sheet.say("bad-price", cell.place, message, found=cell.text)
        return 0.0
    price_usd = float(cell.text)
    if not 0 <= price_usd <= _LARGEST_USD:
        message = f"price {cell.text} isn't from 0 to {_LARGEST_USD:.0f}"
        sheet.say("bad-price", cell.place, message, found=cell.text)
    return price_usd
