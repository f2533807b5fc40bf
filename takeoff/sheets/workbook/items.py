"""Items of the order: what is asked a price for, numbered once for all sheets."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from takeoff.model.order import OrderLine


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing that is bought, for whichever load. What is given is for one of it."""

    number: int
    text: str
    unit: str
    board_feet: float
    weight_lb: float
    unit_price: float | None
    special: bool


def items_of(lines: Iterable[OrderLine]) -> Mapping[str, Item]:
    """Items by their text, numbered from 1 as the order names them."""
    items: dict[str, Item] = {}
    for line in lines:
        if line.item not in items:
            items[line.item] = Item(
                number=len(items) + 1,
                text=line.item,
                unit=line.unit,
                board_feet=line.board_feet / line.qty_order,
                weight_lb=line.weight_lb / line.qty_order,
                unit_price=line.unit_price,
                special=line.special,
            )
    return items
