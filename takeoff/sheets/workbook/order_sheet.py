"""Sheet "Order by load": what to buy, delivery by delivery, with sums; everything on it follows the other sheets."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby

from takeoff.catalog.roles import load_words
from takeoff.model.order import OrderLine
from takeoff.sheets.order_text import used_for
from takeoff.sheets.workbook.allowances import allowances_of, key_of
from takeoff.sheets.workbook.items import items_of
from takeoff.sheets.workbook.page import Cell, Heading, Page
from takeoff.sheets.workbook.styles import Style

NAME = "Order by load"

ASK = "ask"
"""Stands where there is no price."""

# Formulas name these columns by their letters:
_COLUMNS = "ABCDEFGHIJKLM"
_HEADINGS = (
    Heading("Load", is_number=True),  # A
    Heading("Item", is_number=True),  # B
    Heading("Description"),  # C
    Heading("Allowance for"),  # D
    Heading("Net", is_number=True),  # E
    Heading("Allowance", is_number=True),  # F
    Heading("To order", is_number=True),  # G
    Heading("Unit"),  # H
    Heading("Board feet", is_number=True),  # I
    Heading("Weight [lb]", is_number=True),  # J
    Heading("Unit price [$]", is_number=True),  # K
    Heading("Cost [$]", is_number=True),  # L
    Heading("Received"),  # M
)

_RANGES: Mapping[str, str] = {
    "order_load": "A",
    "order_item": "B",
    "order_net": "E",
    "order_quantity": "G",
    "order_board_feet": "I",
    "order_weight": "J",
    "order_price": "K",
    "order_cost": "L",
}
"""Columns by the names that the other sheets use in their formulas."""


def price_formula(row: int, item_column: str) -> str:
    """Formula that looks an item's price up on the sheet of prices; ``ask`` where no number stands there."""
    found = f"INDEX(item_price,MATCH({item_column}{row},item_number,0))"
    return f'=IF(ISNUMBER({found}),{found},"{ASK}")'


def price_value(price: float | None) -> float | str:
    """What `price_formula` and the costs made from it show."""
    return ASK if price is None else price


def write_order(page: Page, lines: Sequence[OrderLine]) -> None:
    """Write the lines under a band for each load, a sum under each, and the grand total."""
    writer = _LineWriter(page, lines)
    page.headings(_HEADINGS, held=True)
    first = page.next_row
    for load, of_load in groupby(lines, key=lambda line: line.load):
        group = tuple(of_load)
        page.band(f"Load {load}: {load_words(load)}", len(_HEADINGS))
        rows = [page.add(writer.cells(line)) for line in group]
        _add_sum(page, f"Sum of load {load}", group, range(rows[0], rows[-1] + 1))
    body = range(first, page.next_row)
    page.filter(body, len(_HEADINGS))
    _add_sum(page, "Sum of all loads", lines, body)
    for name, column in _RANGES.items():
        page.name_range(name, column, body)
    _add_asked(page, lines)


class _LineWriter:
    """Turns lines of the order into cells, with the names the other sheets know their items and allowances by."""

    def __init__(self, page: Page, lines: Sequence[OrderLine]) -> None:
        self._page = page
        self._items = items_of(lines)
        self._allowances = allowances_of(lines)

    def cells(self, line: OrderLine) -> tuple[Cell, ...]:
        row = self._page.next_row
        item = self._items[line.item]
        each = f"MATCH(B{row},item_number,0)"
        return (
            Cell(line.load, Style.COUNT),
            Cell(item.number, Style.COUNT),
            Cell(f"{line.item}{' (special order)' if line.special else ''}{used_for(line)}", Style.TEXT),
            Cell(self._allowances[key_of(line)].name, Style.TEXT),
            Cell(line.qty_net, Style.COUNT),
            Cell(
                line.waste_pct / 100,
                Style.SHARE,
                f"=INDEX(allowance_share,MATCH(D{row},allowance_name,0))",
            ),
            # Rounded first: 100 and 10 % make 110, not 110.00000000000001, which would be rounded up to 111.
            Cell(line.qty_order, Style.COUNT, f"=ROUNDUP(ROUND(E{row}*(1+F{row}),6),0)"),
            Cell(line.unit, Style.TEXT),
            Cell(line.board_feet, Style.TENTHS, f"=G{row}*INDEX(item_board_feet,{each})"),
            Cell(line.weight_lb, Style.WEIGHT, f"=G{row}*INDEX(item_weight,{each})"),
            Cell(price_value(line.unit_price), Style.MONEY, price_formula(row, "B")),
            Cell(price_value(line.cost), Style.MONEY, f'=IF(ISNUMBER(K{row}),ROUND(G{row}*K{row},2),"{ASK}")'),
            Cell("", Style.BOX),
        )


def _add_sum(page: Page, words: str, lines: Sequence[OrderLine], rows: range) -> None:
    """A row of sums. Sums leave out other sums in their rows, so that the last one may take in all."""
    sums: Mapping[str, tuple[float, Style]] = {
        "I": (sum(line.board_feet for line in lines), Style.SUM_TENTHS),
        "J": (sum(line.weight_lb for line in lines), Style.SUM_WEIGHT),
        "L": (round(sum(line.cost or 0.0 for line in lines), 2), Style.SUM_MONEY),
    }
    cells = [Cell(words if column == "C" else "", Style.SUM_TEXT) for column in _COLUMNS]
    for column, (value, style) in sums.items():
        cells[_COLUMNS.index(column)] = Cell(value, style, f"=SUBTOTAL(9,{column}{rows.start}:{column}{rows.stop - 1})")
    page.add(cells)


def _add_asked(page: Page, lines: Sequence[OrderLine]) -> None:
    """How many lines the total doesn't hold, because they have no price."""
    asked = sum(line.unit_price is None for line in lines)
    words = f"{asked} without a price: not in the cost" if asked else ""
    formula = f'=IF(COUNTIF(order_price,"{ASK}")=0,"",COUNTIF(order_price,"{ASK}")&" without a price: not in the cost")'
    page.add((Cell("", Style.PLAIN), Cell("", Style.PLAIN), Cell(words, Style.LOUD, formula)))
