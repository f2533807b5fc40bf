"""Sheets "Prices" and "Allowances": what the builder fills in, and the other sheets look up."""

from __future__ import annotations

from collections.abc import Sequence

from takeoff.model.order import OrderLine
from takeoff.sheets.workbook.allowances import allowances_of
from takeoff.sheets.workbook.items import Item, items_of
from takeoff.sheets.workbook.page import BLANK, Cell, Heading, Page
from takeoff.sheets.workbook.styles import Style

PRICES = "Prices"
ALLOWANCES = "Allowances"

_PRICE_HEADINGS = (
    Heading("Item", is_number=True),
    Heading("Description"),
    Heading("Unit"),
    Heading("Board feet each", is_number=True),
    Heading("Weight each [lb]", is_number=True),
    Heading("Price each [$]", is_number=True, least=12),
    Heading("Note"),
)
_PRICE_RANGES = {"item_number": "A", "item_board_feet": "D", "item_weight": "E", "item_price": "F"}

_ALLOWANCE_HEADINGS = (Heading("Allowance for"), Heading("Allowance", is_number=True), Heading("Used for", most=90))


def write_prices(page: Page, lines: Sequence[OrderLine]) -> None:
    """Write one row an item. An item without a price has an empty cell, ready to be filled in."""
    page.line("Prices stand here and nowhere else: type one into a shaded cell, and every sheet follows.")
    page.headings(_PRICE_HEADINGS, held=True)
    first = page.next_row
    for item in items_of(lines).values():
        page.add(_price_cells(item))
    rows = range(first, page.next_row)
    page.filter(rows, len(_PRICE_HEADINGS))
    for name, column in _PRICE_RANGES.items():
        page.name_range(name, column, rows)
    page.only_numbers("F", rows, most=None, hint="A price is a number, zero or more; leave it empty to ask.")


def _price_cells(item: Item) -> tuple[Cell, ...]:
    return (
        Cell(item.number, Style.COUNT),
        Cell(item.text, Style.TEXT),
        Cell(item.unit, Style.TEXT),
        Cell(item.board_feet, Style.TENTHS),
        Cell(item.weight_lb, Style.TENTHS),
        Cell("" if item.unit_price is None else item.unit_price, Style.INPUT_MONEY),
        Cell("special order", Style.TEXT) if item.special else BLANK,
    )


def write_allowances(page: Page, lines: Sequence[OrderLine]) -> None:
    """Write one row an allowance."""
    page.line("For culls, crooks and miscuts, on top of what cutting takes; each line is rounded up to whole pieces.")
    page.headings(_ALLOWANCE_HEADINGS, held=True)
    first = page.next_row
    for allowance in allowances_of(lines).values():
        page.add(
            (
                Cell(allowance.name, Style.TEXT),
                Cell(allowance.share, Style.INPUT_SHARE),
                Cell("; ".join(allowance.used_for), Style.WRAP),
            )
        )
    rows = range(first, page.next_row)
    page.name_range("allowance_name", "A", rows)
    page.name_range("allowance_share", "B", rows)
    page.only_numbers("B", rows, most=1, hint="An allowance is between 0 and 100 %.")
