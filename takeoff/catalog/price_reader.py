"""Reader of price lists: CSV with the columns ``item,grade,length_in,unit,price`` and, if wanted, ``source``."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from takeoff.catalog.prices import UNITS, PriceList, PriceRow, board_feet_per_ft, grade_name, item_name
from takeoff.catalog.table import data_text
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.measure import MeasureError, parse_length

COLUMNS = ("item", "grade", "length_in", "unit", "price")
OPTIONAL_COLUMNS = ("source",)

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
    where = Place(file=str(path))
    try:
        if path.stat().st_size > _LARGEST_BYTES:
            raise PlanError([_finding("prices.too-large", where, f"a price list has at most {_LARGEST_BYTES} bytes")])
        text = path.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise PlanError([_finding("prices.unreadable", where, f"can't be read: {error.strerror}")]) from error
    except UnicodeDecodeError as error:
        message = "isn't UTF-8 text; save it from the spreadsheet as CSV UTF-8"
        raise PlanError([_finding("prices.unreadable", where, message)]) from error
    return read_prices(text, file=str(path))


def read_prices(text: str, *, file: str) -> PriceList:
    """The price list in a text.

    Args:
        text: CSV, a header first. ``length_in`` is in inches, or a length with a foot mark (``16'``), or blank for any
            length; ``grade`` is blank for any grade; ``unit`` is ``each``, ``ft`` or ``mbf``, blank for ``each``.
        file: its name, for findings.

    Raises:
        PlanError: something in it is wrong; holds all findings.
    """
    sheet = _Sheet(file=file)
    lines = _lines(sheet, text)
    header = next(lines, None)
    if header is None:
        sheet.say("prices.empty", Place(file=file, line=1), f"is empty; its first line is {','.join(COLUMNS)}")
    else:
        names = _columns(sheet, header)
        for line in () if sheet.findings else lines:
            _read_row(sheet, names, line)
    if sheet.findings:
        raise PlanError(sheet.findings)
    return PriceList(tuple(sorted(sheet.rows.values(), key=lambda row: (row.item, row.grade, row.length_in or 0.0))))


@dataclass(frozen=True, slots=True)
class _Cell:
    text: str
    place: Place


@dataclass(slots=True)
class _Sheet:
    """What is read so far, and what is wrong with it."""

    file: str
    findings: list[Finding] = field(default_factory=list)
    rows: dict[tuple[str, str, int | None], PriceRow] = field(default_factory=dict)
    first_line: dict[tuple[str, str, int | None], int] = field(default_factory=dict)

    def say(self, rule: str, place: Place, message: str, *, found: str = "") -> None:
        self.findings.append(_finding(rule, place, message, found=found))


def _finding(rule: str, place: Place, message: str, *, found: str = "") -> Finding:
    return Finding(rule=rule, severity=Severity.ERROR, message=message, place=place, found=found)


def _lines(sheet: _Sheet, text: str) -> Iterator[tuple[_Cell, ...]]:
    """Cells of each line that isn't blank. A line is a row: cells with line breaks in them are not taken."""
    for number, line in enumerate(text.replace("\r\n", "\n").split("\n"), start=1):
        try:
            texts = next(csv.reader([line], strict=True), [])
        except csv.Error as error:
            sheet.say("prices.bad-line", Place(file=sheet.file, line=number), f"isn't a line of CSV: {error}")
            continue
        if any(cell.strip() for cell in texts):
            starts = _starts(line)
            yield tuple(
                _Cell(cell.strip(), Place(file=sheet.file, line=number, column=starts[index]))
                for index, cell in enumerate(texts)
            )


def _starts(line: str) -> tuple[int, ...]:
    """Columns, from 1, at which the cells of a line start."""
    starts, quoted, inside = [1], False, False
    for column, character in enumerate(line, start=1):
        if column == starts[-1]:  # a quote means something at the start of a cell only: 96" is ninety-six inches
            quoted = inside = character == '"'
        elif quoted and character == '"':
            inside = not inside
        if character == "," and not inside:
            starts.append(column + 1)
    return tuple(starts)


def _columns(sheet: _Sheet, header: tuple[_Cell, ...]) -> tuple[str, ...]:
    names = tuple(cell.text.lower() for cell in header)
    for index, (name, cell) in enumerate(zip(names, header, strict=True)):
        if name not in COLUMNS + OPTIONAL_COLUMNS:
            message = f"no column {cell.text!r} in a price list; its columns are {', '.join(COLUMNS)}"
            sheet.say("prices.unknown-column", cell.place, message, found=cell.text)
        elif name in names[:index]:
            sheet.say("prices.duplicate-column", cell.place, f"a second column {name!r}", found=cell.text)
    for name in COLUMNS:
        if name not in names:
            message = f"no column {name!r}; the first line is {','.join(COLUMNS)}"
            sheet.say("prices.missing-column", header[0].place, message)
    return names


def _read_row(sheet: _Sheet, names: tuple[str, ...], line: tuple[_Cell, ...]) -> None:
    """Read one row into the sheet, or say what is wrong with it."""
    if len(line) != len(names):
        sheet.say("prices.ragged-row", line[0].place, f"{len(line)} cells under {len(names)} columns")
        return
    cells = dict(zip(names, line, strict=True))
    before = len(sheet.findings)
    item = item_name(cells["item"].text)
    if not item:
        message = "no item; write a profile, a sheet or hardware, such as 2x10"
        sheet.say("prices.missing-item", cells["item"].place, message)
    unit = _unit(sheet, cells["unit"], item)
    length_in = _length(sheet, cells["length_in"], item)
    price_usd = _price(sheet, cells["price"])
    if len(sheet.findings) > before:
        return
    row = PriceRow(
        item=item,
        grade=grade_name(cells["grade"].text),
        length_in=length_in,
        unit=unit,
        price_usd=price_usd,
        source=cells["source"].text if "source" in cells else "",
    )
    if row.key in sheet.rows:
        message = f"a second price for the same item, grade and length as line {sheet.first_line[row.key]}"
        sheet.say("prices.duplicate-row", cells["item"].place, message, found=cells["item"].text)
        return
    sheet.rows[row.key] = row
    sheet.first_line[row.key] = cells["item"].place.line


def _unit(sheet: _Sheet, cell: _Cell, item: str) -> str:
    unit = cell.text.lower() or "each"
    if unit not in UNITS:
        message = f"unit {cell.text!r} isn't one of {', '.join(UNITS)}"
        sheet.say("prices.unknown-unit", cell.place, message, found=cell.text)
    elif unit == "mbf" and not board_feet_per_ft(item):
        sheet.say("prices.unknown-unit", cell.place, f"{item} isn't measured in board feet", found=cell.text)
    return unit


def _length(sheet: _Sheet, cell: _Cell, item: str) -> float | None:
    if not cell.text:
        return None
    try:
        length_in = parse_length(cell.text)
    except MeasureError as error:
        sheet.say("prices.bad-length", cell.place, f"{cell.text!r}: {error.fault}", found=cell.text)
        return None
    if length_in <= 0:
        sheet.say("prices.bad-length", cell.place, "a length is more than zero", found=cell.text)
    elif length_in < _SHORTEST_BOARD_IN and board_feet_per_ft(item):
        mend = f"lengths are in inches: for feet write {cell.text}'"
        sheet.say("prices.bad-length", cell.place, f"{cell.text} inches is no board; {mend}", found=cell.text)
    return length_in


def _price(sheet: _Sheet, cell: _Cell) -> float:
    """The price [USD]; 0 beside a finding where there is none."""
    if not _MONEY.fullmatch(cell.text):
        message = f"price {cell.text!r} isn't a number; write 12.50" if cell.text else "no price; write 12.50"
        sheet.say("prices.bad-price", cell.place, message, found=cell.text)
        return 0.0
    price_usd = float(cell.text)
    if not 0 <= price_usd <= _LARGEST_USD:
        message = f"price {cell.text} isn't from 0 to {_LARGEST_USD:.0f}"
        sheet.say("prices.bad-price", cell.place, message, found=cell.text)
    return price_usd
