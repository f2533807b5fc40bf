"""The order workbook: live formulas, so that a changed price or allowance is followed by everything.

Prices and allowances are typed on their own sheets; the order looks them up by item number and by name, and the other
sheets sum the order. Beside each formula stands our own number, for readers that don't calculate.
To add a sheet: a module with its name and a function that writes onto a `Page`, and a line in `order_xlsx`.
"""

from __future__ import annotations

import io
from collections.abc import Callable

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.cautions import PLACEHOLDER_MONEY
from takeoff.sheets.workbook import (
    assumption_sheet,
    cutting_sheets,
    lay_up_sheet,
    order_sheet,
    price_sheet,
    totals_sheet,
    weight_sheet,
)
from takeoff.sheets.workbook.page import Page
from takeoff.sheets.workbook.styles import CREATED, FONT, Style, formats

_HAVE_MONEY = (order_sheet.NAME, totals_sheet.NAME, price_sheet.PRICES, lay_up_sheet.NAME)

_SHEETS: tuple[tuple[str, Callable[[Page, Takeoff], None]], ...] = (
    (order_sheet.NAME, lambda page, takeoff: order_sheet.write_order(page, takeoff.order)),
    (totals_sheet.NAME, lambda page, takeoff: totals_sheet.write_totals(page, takeoff.order)),
    (price_sheet.PRICES, lambda page, takeoff: price_sheet.write_prices(page, takeoff.order)),
    (price_sheet.ALLOWANCES, lambda page, takeoff: price_sheet.write_allowances(page, takeoff.order)),
    (cutting_sheets.BOARDS, cutting_sheets.write_boards),
    (cutting_sheets.SHEETS, cutting_sheets.write_sheets),
    (lay_up_sheet.NAME, lay_up_sheet.write_lay_ups),
    (weight_sheet.NAME, weight_sheet.write_weights),
    (assumption_sheet.NAME, assumption_sheet.write_assumptions),
)


def order_xlsx(takeoff: Takeoff) -> bytes:
    """The workbook as a file's bytes."""
    from xlsxwriter import Workbook

    file = io.BytesIO()
    workbook = Workbook(file, {"in_memory": True, "default_format_properties": dict(FONT)})
    workbook.set_properties({"title": takeoff.job, "created": CREATED})
    looks = formats(workbook)
    for name, write in _SHEETS:
        page = Page(workbook, looks, name, takeoff.job)
        if name in _HAVE_MONEY and takeoff.settings.placeholder_prices:
            page.line(PLACEHOLDER_MONEY, Style.LOUD)
        write(page, takeoff)
        page.finish()
    workbook.close()
    return file.getvalue()
