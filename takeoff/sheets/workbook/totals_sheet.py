"""Sheet "Totals": each item over all loads, for the yard."""

from __future__ import annotations

from collections.abc import Sequence

from takeoff.model.order import OrderLine
from takeoff.sheets.workbook.items import Item, items_of
from takeoff.sheets.workbook.order_sheet import ASK, price_formula, price_value
from takeoff.sheets.workbook.page import Cell, Heading, Page
from takeoff.sheets.workbook.styles import Style

NAME = "Totals"

_HEADINGS = (
    Heading("Item", is_number=True),  # A
    Heading("Description"),  # B
    Heading("Net", is_number=True),  # C
    Heading("To order", is_number=True),  # D
    Heading("Unit"),  # E
    Heading("Board feet", is_number=True),  # F
    Heading("Weight [lb]", is_number=True),  # G
    Heading("Unit price [$]", is_number=True),  # H
    Heading("Cost [$]", is_number=True),  # I
)


def write_totals(page: Page, lines: Sequence[OrderLine]) -> None:
    """Write one row an item, summed live from the order, and the sum of all."""
    page.headings(_HEADINGS, held=True)
    first = page.next_row
    for item in items_of(lines).values():
        page.add(_cells(page.next_row, item, [line for line in lines if line.item == item.text]))
    last = page.next_row - 1
    page.filter(range(first, page.next_row), len(_HEADINGS))
    page.add(
        (
            Cell("", Style.SUM_TEXT),
            Cell("All items", Style.SUM_TEXT),
            *(Cell("", Style.SUM_TEXT) for _ in "CDE"),
            Cell(sum(line.board_feet for line in lines), Style.SUM_TENTHS, f"=SUM(F{first}:F{last})"),
            Cell(sum(line.weight_lb for line in lines), Style.SUM_WEIGHT, f"=SUM(G{first}:G{last})"),
            Cell("", Style.SUM_TEXT),
            Cell(round(sum(line.cost or 0.0 for line in lines), 2), Style.SUM_MONEY, f"=SUM(I{first}:I{last})"),
        )
    )


def _cells(row: int, item: Item, lines: Sequence[OrderLine]) -> tuple[Cell, ...]:
    def total(column: str) -> str:
        return f"SUMIFS({column},order_item,A{row})"

    cost = None if item.unit_price is None else round(sum(line.cost or 0.0 for line in lines), 2)
    return (
        Cell(item.number, Style.COUNT),
        Cell(item.text, Style.TEXT),
        Cell(sum(line.qty_net for line in lines), Style.COUNT, f"={total('order_net')}"),
        Cell(sum(line.qty_order for line in lines), Style.COUNT, f"={total('order_quantity')}"),
        Cell(item.unit, Style.TEXT),
        Cell(sum(line.board_feet for line in lines), Style.TENTHS, f"={total('order_board_feet')}"),
        Cell(sum(line.weight_lb for line in lines), Style.WEIGHT, f"={total('order_weight')}"),
        Cell(price_value(item.unit_price), Style.MONEY, price_formula(row, "A")),
        Cell(price_value(cost), Style.MONEY, f'=IF(ISNUMBER(H{row}),{total("order_cost")},"{ASK}")'),
    )
