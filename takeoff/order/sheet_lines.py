"""Lines of the order for sheets."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from takeoff.catalog.prices import PriceList
from takeoff.catalog.sheets import sheet_product
from takeoff.measure import format_length
from takeoff.model.order import OrderLine
from takeoff.model.stock import SheetCutting
from takeoff.order.allowance import Allowances, with_allowance
from takeoff.order.money import unit_price

_CATEGORY = "sheathing"
_SQIN_PER_SQFT = 144


def sheet_lines(sheets: SheetCutting, allowances: Allowances, prices: PriceList) -> Iterator[OrderLine]:
    """A line for each load, product and size. The product stands under profile, its face under grade."""
    counted = Counter((sheet.load, sheet.product, sheet.length_in, sheet.width_in) for sheet in sheets.sheets)
    waste_pct = allowances.pct(_CATEGORY)
    for (load, name, length_in, width_in), qty_net in sorted(counted.items()):
        product = sheet_product(name)
        qty_order = with_allowance(qty_net, waste_pct)
        yield OrderLine(
            load=load,
            category=_CATEGORY,
            item=f"{name} sheet, {format_length(width_in)} x {format_length(length_in)}",
            profile=name,
            grade=product.face,
            stock_length_in=length_in,
            qty_net=qty_net,
            waste_pct=waste_pct,
            qty_order=qty_order,
            unit="each",
            board_feet=0.0,
            weight_lb=product.weight_psf * qty_order * length_in * width_in / _SQIN_PER_SQFT,
            unit_price=unit_price(prices, name, product.face, length_in),
        )
