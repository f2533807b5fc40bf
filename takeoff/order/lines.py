"""The lines of the order: boards, sheets, hardware and fasteners, by load."""

from __future__ import annotations

from collections.abc import Mapping

from takeoff.catalog.prices import PriceList
from takeoff.catalog.profiles import Kind, profile
from takeoff.cutting.natural import natural_key
from takeoff.model.building import FramedBuilding
from takeoff.model.order import OrderLine
from takeoff.model.stock import LumberCutting, Piece, SheetCutting
from takeoff.order.allowance import Allowances
from takeoff.order.board_lines import board_lines
from takeoff.order.fastener_lines import fastener_lines
from takeoff.order.fasteners import FastenerCount
from takeoff.order.hardware import HardwareCount
from takeoff.order.hardware_lines import hardware_lines
from takeoff.order.sheet_lines import sheet_lines

_FINISH = "trim"
_NO_LUMBER = ("sheathing", "hardware", "fasteners")
_SHELVES = (Kind.DIMENSION, Kind.BOARD, Kind.TIMBER, Kind.PREFAB, Kind.ENGINEERED, _FINISH, *_NO_LUMBER)
"""How a yard keeps its goods, in the order of a list that is picked from there."""


def order_lines(
    *,
    pieces: tuple[Piece, ...],
    lumber: LumberCutting,
    sheets: SheetCutting,
    hardware: tuple[HardwareCount, ...],
    fasteners: tuple[FastenerCount, ...] = (),
    waste: Mapping[str, float],
    prices: PriceList,
    species: str,
    buildings: tuple[FramedBuilding, ...] = (),
) -> tuple[OrderLine, ...]:
    """All there is to buy, by load, then kind, size, grade and length, as a yard keeps it.

    Args:
        pieces: what the boards were cut into; they say what category a board is.
        lumber: the boards.
        sheets: the sheets.
        hardware: connectors counted from joints.
        fasteners: nails and clips counted from the edges of panels.
        waste: allowance of each category the plan states one for [%]; the others have the usual one.
        prices: price list.
        species: species group of sawn lumber, for the weight.
        buildings: sheathed; they say what sheets are for.
    """
    allowances = Allowances(waste)
    lines = (
        *board_lines(pieces, lumber, allowances, prices, species),
        *sheet_lines(sheets, allowances, prices, buildings),
        *hardware_lines(hardware, allowances, prices),
        *fastener_lines(fasteners, allowances, prices),
    )
    return tuple(sorted(lines, key=_place))


def _place(line: OrderLine) -> tuple[object, ...]:
    return (line.load, _kind(line), natural_key(line.profile), line.grade, line.stock_length_in or 0.0, line.item)


def _kind(line: OrderLine) -> int:
    """Where in the yard it lies, as a number to sort by."""
    if line.category in _NO_LUMBER:
        return _SHELVES.index(line.category)
    return _SHELVES.index(_FINISH if line.grade == _FINISH else profile(line.profile).kind)
