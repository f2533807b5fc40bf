"""The workbook that asks a yard for prices: quantities that can't be changed, cells to fill in."""

from __future__ import annotations

import io
from collections.abc import Sequence

from takeoff.model.takeoff import Takeoff
from takeoff.order.quotes.asked import AskedItem, asked_items
from takeoff.order.quotes.reader import CODE, DELIVERY, PRICE, QUANTITY, TEXT, YARD
from takeoff.sheets.workbook.page import BLANK, Cell, Heading, Page
from takeoff.sheets.workbook.styles import CREATED, FONT, Style, formats

NAME = "Price request"

_TOLD = (
    "Please fill in the shaded cells and send the file back. Leave a price empty for what you don't offer.",
    "Prices are for one of the unit beside them (a piece, a foot, a pound), without tax. Each load is called for.",
)


def request_xlsx(takeoff: Takeoff) -> bytes:
    """A price request for the order of a job, as a file's bytes."""
    from xlsxwriter import Workbook

    file = io.BytesIO()
    workbook = Workbook(file, {"in_memory": True, "default_format_properties": dict(FONT)})
    workbook.set_properties({"title": f"{takeoff.job}: price request", "created": CREATED})
    page = Page(workbook, formats(workbook), NAME, takeoff.job)
    _write(page, asked_items(takeoff.order))
    page.protect()
    page.finish()
    workbook.close()
    return file.getvalue()


def _write(page: Page, asked: Sequence[AskedItem]) -> None:
    loads = sorted({load for item in asked for load, _ in item.by_load})
    for words in _TOLD:
        page.line(words)
    page.gap()
    for label, style in (
        (YARD, Style.INPUT_TEXT),
        ("Prices hold until", Style.INPUT_TEXT),
        (DELIVERY, Style.INPUT_MONEY),
    ):
        page.add((BLANK, Cell(label, Style.TEXT), Cell("", style)))
    page.gap()
    page.headings(
        (
            Heading(CODE),
            Heading(TEXT),
            Heading(PRICE, is_number=True, least=14),
            Heading("Unit"),
            Heading(QUANTITY, is_number=True),
            *(Heading(f"on load {load}", is_number=True) for load in loads),
            Heading("Cost [$]", is_number=True, least=12),
            Heading("Your note", least=24),
        ),
        held=True,
    )
    first = page.next_row
    for item in asked:
        page.add(_cells(page.next_row, item, loads))
    cost = _letter(5 + len(loads))
    page.add(
        (
            Cell("", Style.SUM_TEXT),
            Cell("All that is offered", Style.SUM_TEXT),
            *(Cell("", Style.SUM_TEXT) for _ in range(3 + len(loads))),
            Cell(0.0, Style.SUM_MONEY, f"=SUM({cost}{first}:{cost}{page.next_row - 1})"),
            Cell("", Style.SUM_TEXT),
        )
    )


def _cells(row: int, item: AskedItem, loads: Sequence[int]) -> tuple[Cell, ...]:
    on = dict(item.by_load)
    return (
        Cell(item.code, Style.TEXT),
        Cell(f"{item.text} (special order)" if item.special else item.text, Style.TEXT),
        Cell("", Style.INPUT_MONEY),
        Cell(item.unit, Style.TEXT),
        Cell(item.quantity, Style.COUNT),
        *(Cell(on[load], Style.COUNT) if load in on else BLANK for load in loads),
        Cell("", Style.MONEY, f'=IF(ISNUMBER(C{row}),ROUND(E{row}*C{row},2),"")'),
        Cell("", Style.INPUT_TEXT),
    )


def _letter(column: int) -> str:
    return chr(ord("A") + column)
