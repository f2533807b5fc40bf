"""Lines of the order for nails and clips."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from takeoff.catalog.hardware import hardware
from takeoff.catalog.nails import nail
from takeoff.catalog.prices import PriceList
from takeoff.model.order import OrderLine
from takeoff.order.allowance import Allowances, with_allowance
from takeoff.order.fasteners import PANEL_CLIP, FastenerCount
from takeoff.order.money import unit_price
from takeoff.order.sheet_lines import FACE_WORDS

_CATEGORY = "fasteners"


def fastener_lines(counts: tuple[FastenerCount, ...], allowances: Allowances, prices: PriceList) -> Iterator[OrderLine]:
    """A line for each fastener of each load: nails by the pound, rounded up, clips by the piece."""
    waste_pct = allowances.pct(_CATEGORY)
    for count in counts:
        by_lb = count.name != PANEL_CLIP
        qty_net = ceil(count.qty / nail(count.name).per_lb) if by_lb else count.qty
        qty_order = with_allowance(qty_net, waste_pct)
        yield OrderLine(
            load=count.load,
            category=_CATEGORY,
            item=_item(count),
            profile=count.fits,
            grade="",
            stock_length_in=None,
            qty_net=qty_net,
            waste_pct=waste_pct,
            qty_order=qty_order,
            unit="lb" if by_lb else "each",
            board_feet=0.0,
            weight_lb=float(qty_order) if by_lb else 0.0,
            unit_price=unit_price(prices, count.name, "", None),
            used_for=tuple(words for kind, words in FACE_WORDS.items() if kind in count.faces),
        )


def _item(count: FastenerCount) -> str:
    if count.name == PANEL_CLIP:
        return f"{hardware(count.name).words}, for {count.fits} sheets"
    return nail(count.name).words
