"""The lines of the order: boards, sheets and hardware, by load."""

from __future__ import annotations

from collections.abc import Mapping

from takeoff.catalog.prices import PriceList
from takeoff.catalog.waste import waste_categories
from takeoff.cutting.natural import natural_key
from takeoff.model.order import OrderLine
from takeoff.model.stock import LumberCutting, Piece, SheetCutting
from takeoff.order.allowance import Allowances
from takeoff.order.board_lines import board_lines
from takeoff.order.hardware import HardwareCount
from takeoff.order.hardware_lines import hardware_lines
from takeoff.order.sheet_lines import sheet_lines


def order_lines(
    *,
    pieces: tuple[Piece, ...],
    lumber: LumberCutting,
    sheets: SheetCutting,
    hardware: tuple[HardwareCount, ...],
    waste: Mapping[str, float],
    prices: PriceList,
    species: str,
) -> tuple[OrderLine, ...]:
    """All there is to buy, by load, then category, then from the small to the large.

    Args:
        pieces: what the boards were cut into; they say what category a board is.
        lumber: the boards.
        sheets: the sheets.
        hardware: connectors counted from joints.
        waste: allowance of each category the plan states one for [%]; the others have the usual one.
        prices: price list.
        species: species group of sawn lumber, for the weight.
    """
    allowances = Allowances(waste)
    lines = (
        *board_lines(pieces, lumber, allowances, prices, species),
        *sheet_lines(sheets, allowances, prices),
        *hardware_lines(hardware, allowances, prices),
    )
    return tuple(sorted(lines, key=_place))


def _place(line: OrderLine) -> tuple[object, ...]:
    category = waste_categories().index(line.category)
    return (line.load, category, natural_key(line.profile), line.grade, line.stock_length_in or 0.0, line.item)
