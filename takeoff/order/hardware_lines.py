"""Lines of the order for hardware."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog import hardware as catalog
from takeoff.catalog.prices import PriceList
from takeoff.model.order import OrderLine
from takeoff.order.allowance import Allowances, with_allowance
from takeoff.order.hardware import HardwareCount, hardware_load
from takeoff.order.money import unit_price

_CATEGORY = "hardware"
_ONE_FOOT_IN = 12.0


def hardware_lines(counts: tuple[HardwareCount, ...], allowances: Allowances, prices: PriceList) -> Iterator[OrderLine]:
    """A line for each connector and size; its weight isn't known. A price may be for one size or for all."""
    waste_pct = allowances.pct(_CATEGORY)
    for count in counts:
        item = catalog.hardware(count.name)
        yield OrderLine(
            load=hardware_load(count.name),
            category=_CATEGORY,
            item=f"{item.words}, for {count.profile}" if count.profile else item.words,
            profile=count.profile,
            grade="",
            stock_length_in=None,
            qty_net=count.qty,
            waste_pct=waste_pct,
            qty_order=with_allowance(count.qty, waste_pct),
            unit=item.unit,
            board_feet=0.0,
            weight_lb=0.0,
            unit_price=unit_price(prices, count.name, count.profile, _ONE_FOOT_IN if item.unit == "ft" else None),
        )
