"""Reads one yard's answer: finds the headings wherever they went, and takes each price to the item it is for."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType

from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.order.quotes.asked import AskedItem
from takeoff.order.quotes.currency import LARGEST_USD, CurrencyError, parse_currency
from takeoff.order.quotes.grid import Grid, Value, read_grids

CODE, TEXT, QUANTITY, PRICE = "Code", "Description", "To order", "Price each [$]"
"""Heads of the columns that an answer is read by."""

YARD, DELIVERY = "Yard", "Delivery, each load [$]"
"""Labels of what a yard says of itself; its answer stands in the cell to the right."""

HEADINGS: Mapping[str, str] = MappingProxyType(
    {
        "code": CODE,
        "ref": CODE,
        "description": TEXT,
        "item": TEXT,
        "to order": QUANTITY,
        "quantity": QUANTITY,
        "qty": QUANTITY,
        "price each": PRICE,
        "price": PRICE,
        "unit price": PRICE,
        "your price": PRICE,
        "price ea": PRICE,
    }
)
"""Wordings that a heading may have come back in, without what stands in brackets."""

_HEADING_ROWS = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """What one yard asks."""

    yard: str
    prices: Mapping[str, float]
    """[$] a unit, by the item's code; items not offered aren't in it."""
    delivery: float
    """[$] for each load it brings."""
    delivery_told: bool


@dataclass(slots=True)
class _Reading:
    """Prices found so far, each with where it stands, and what there is to say."""

    grid: Grid
    found: dict[str, tuple[float, Place]] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)

    def say(self, rule: str, place: Place, message: str, severity: Severity = Severity.ERROR) -> None:
        where = place.path.split("!")[-1]
        self.findings.append(
            Finding(rule=f"quotes.{rule}", severity=severity, message=message, place=place, where=f"cell {where}")
        )


def read_quote_file(path: Path, asked: Sequence[AskedItem]) -> tuple[Quote, tuple[Finding, ...]]:
    """One yard's answer, and what is doubtful in it.

    Columns may have moved, rows been sorted or left out, headings merged; a price may be text with a sign. Blank, or a
    word such as ``n/a``, is not offered.

    Raises:
        PlanError: the file can't be read, has no column of prices, or a price in it can't be.
    """
    for grid in read_grids(path):
        columns = _columns(grid)
        if columns:
            reading = _Reading(grid)
            row, places = columns
            _read_rows(reading, row, places, asked)
            quote = _quote(reading, path)
            if not (quote.prices or reading.findings):
                reading.say(
                    "empty", grid.place(row, places[PRICE]), "no price stands under this heading: is it an answer?"
                )
            if any(finding.severity is Severity.ERROR for finding in reading.findings):
                raise PlanError(reading.findings)
            return quote, tuple(reading.findings)
    message = f"found no row with the headings {CODE} (or {TEXT}) and {PRICE} on any sheet"
    raise PlanError(
        [Finding(rule="quotes.headings", severity=Severity.ERROR, message=message, place=Place(file=str(path)))]
    )


def _columns(grid: Grid) -> tuple[int, Mapping[str, int]] | None:
    """The last row of the headings, and in which column each stands; a heading may be parted over two rows."""
    rows = grid.rows[:_HEADING_ROWS]
    for number, row in enumerate(rows):
        above = rows[number - 1] if number else ()
        for texts in (_texts(row), _joined(above, row)):
            places: dict[str, int] = {}
            for column, text in enumerate(texts):
                name = HEADINGS.get(text)
                if name is not None:
                    places.setdefault(name, column)
            if PRICE in places and (CODE in places or TEXT in places):
                return number, places
    return None


def _texts(row: Sequence[Value]) -> list[str]:
    return [_plain(value) for value in row]


def _joined(above: Sequence[Value], row: Sequence[Value]) -> list[str]:
    pairs = [(above[k] if k < len(above) else None, value) for k, value in enumerate(row)]
    return [_plain(f"{high or ''} {low or ''}") if high != low else _plain(low) for high, low in pairs]


def _plain(value: Value) -> str:
    """Lower case, what stands in brackets left out, one space between words."""
    if not isinstance(value, str):
        return ""
    return " ".join(re.sub(r"\[[^\]]*\]|\([^)]*\)|[$:*]", " ", value).lower().split())


def _read_rows(reading: _Reading, head: int, places: Mapping[str, int], asked: Sequence[AskedItem]) -> None:
    by_code = {item.code: item for item in asked}
    by_text = {_plain(item.text): item for item in asked}
    for number, row in enumerate(reading.grid.rows[head + 1 :], start=head + 1):

        def cell(name: str, row: Sequence[Value] = row) -> Value:
            column = places.get(name, len(row))
            return row[column] if column < len(row) else None

        code, text, price = cell(CODE), cell(TEXT), cell(PRICE)
        item = by_code.get(str(code or "").strip().upper()) or by_text.get(_plain(text))
        place = reading.grid.place(number, places[PRICE])
        if item is None:
            if code and text and price is not None:
                name = str(text).strip()[:60]
                message = f"{name!r} isn't in this order: its price is left out; has the plan changed since?"
                reading.say("stranger", place, message, Severity.WARNING)
            continue
        _check_quantity(reading, item, cell(QUANTITY), place)
        _take(reading, item, price, place)


def _check_quantity(reading: _Reading, item: AskedItem, written: Value, place: Place) -> None:
    if isinstance(written, float) and written != item.quantity:
        message = (
            f"{item.text}: {written:g} stand in the answer, {item.quantity} in the order; the price is taken for each"
        )
        reading.say("quantity", place, message, Severity.WARNING)


def _take(reading: _Reading, item: AskedItem, written: Value, place: Place) -> None:
    try:
        price = _price(written, item.unit)
    except CurrencyError as error:
        reading.say("price", place, f"{item.text}: {error}")
        return
    if price is None:
        return
    if price == 0:
        reading.say("price", place, f"{item.text}: a price of nothing is read as no offer", Severity.WARNING)
        return
    known = reading.found.get(item.code)
    if known and known[0] != price:
        where = known[1].path.split("!")[-1]
        reading.say("twice", place, f"{item.text}: found {price:.2f} here and {known[0]:.2f} in {where}")
        return
    reading.found[item.code] = (price, place)


def _price(written: Value, unit: str = "each") -> float | None:
    if written is None:
        return None
    if isinstance(written, str):
        return parse_currency(written, unit)
    if not 0 <= written <= LARGEST_USD:
        raise CurrencyError(f"found {written:g}, expected a price from nothing up")
    return written


def _quote(reading: _Reading, path: Path) -> Quote:
    yard = next((str(value).strip() for value, _ in _said(reading.grid, YARD)), "")
    delivery: float | None = None
    for value, place in _said(reading.grid, DELIVERY):
        try:
            delivery = _price(value)
        except CurrencyError as error:
            reading.say("delivery", place, f"delivery: {error}")
    return Quote(
        yard=yard or path.stem,
        prices=MappingProxyType({code: price for code, (price, _) in sorted(reading.found.items())}),
        delivery=delivery or 0.0,
        delivery_told=delivery is not None,
    )


def _said(grid: Grid, label: str) -> Iterator[tuple[Value, Place]]:
    """What stands next right of a label, in the first row that has it; empty cells and merged ones are passed over."""
    wanted = _plain(label)
    for number, row in enumerate(grid.rows[:_HEADING_ROWS]):
        at = next((k for k, value in enumerate(row) if _plain(value) == wanted), None)
        if at is None:
            continue
        for column, value in enumerate(row):
            if column > at and value not in (None, "", row[at]):
                yield value, grid.place(number, column)
                return
