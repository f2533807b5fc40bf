"""Lines of the order for sheets."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping

from takeoff.catalog.prices import PriceList
from takeoff.catalog.sheets import sheet_product
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.face import FaceKind
from takeoff.model.order import OrderLine
from takeoff.model.stock import SheetCutting
from takeoff.order.allowance import Allowances, with_allowance
from takeoff.order.money import unit_price

_CATEGORY = "sheathing"
_SQIN_PER_SQFT = 144


FACE_WORDS: Mapping[FaceKind, str] = {"slope": "roof", "wall": "walls", "floor": "floors"}
"""What each kind of face is called on an order, in its order."""


def sheet_lines(
    sheets: SheetCutting, allowances: Allowances, prices: PriceList, buildings: Iterable[FramedBuilding] = ()
) -> Iterator[OrderLine]:
    """A line for each load, product and size. The product stands under profile, its face under grade."""
    faces_of = _faces_of(buildings)
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
            used_for=_used_for(sheets, (load, name, length_in, width_in), faces_of),
        )


def _faces_of(buildings: Iterable[FramedBuilding]) -> Mapping[tuple[str, str], FaceKind]:
    """What kind of face each panel of a building lies on, by building and mark."""
    found: dict[tuple[str, str], FaceKind] = {}
    for building in buildings:
        kinds = {face.name: face.kind for face in building.faces}
        found |= {(building.name, panel.mark): kinds[panel.face] for panel in building.panels}
    return found


def _used_for(
    sheets: SheetCutting, bought_as: tuple[int, str, float, float], faces_of: Mapping[tuple[str, str], FaceKind]
) -> tuple[str, ...]:
    kinds = {
        faces_of.get((piece.building, piece.mark))
        for sheet in sheets.sheets
        if (sheet.load, sheet.product, sheet.length_in, sheet.width_in) == bought_as
        for piece in sheet.pieces
    }
    return tuple(words for kind, words in FACE_WORDS.items() if kind in kinds)
