"""From rows of panels to sheets: positions, ids and order, the same for every sheet cutter."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from takeoff.catalog.sheets import sheet_product
from takeoff.cutting.ids import stock_ids
from takeoff.cutting.natural import natural_key
from takeoff.cutting.sheet_groups import Blank, Size
from takeoff.cutting.steps import inches
from takeoff.model.stock import Sheet, SheetPiece

SHEATHING_LOAD = 3
"""Sheets of walls and roofs ride on one delivery; those of floors come with the floors."""


FLOOR_LOAD = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row ripped from a sheet, and the panels crosscut from it, in order."""

    blanks: tuple[Blank, ...]

    @property
    def height(self) -> int:
        """Of its widest panel."""
        return max(blank.width for blank in self.blanks)

    @property
    def length(self) -> int:
        """Of all panels together."""
        return sum(blank.length for blank in self.blanks)


@dataclass(frozen=True, slots=True, kw_only=True)
class RowedSheet:
    """A sheet and the rows ripped from it, in order."""

    product: str
    size: Size
    rows: tuple[Row, ...]


def sheet_load(product: str) -> int:
    """The delivery that sheets of a product ride on."""
    return FLOOR_LOAD if sheet_product(product).for_floors else SHEATHING_LOAD


def assembled_sheets(sheets: Iterable[RowedSheet]) -> tuple[Sheet, ...]:
    """The sheets in order, by product, size and pattern, with ids and positions."""
    in_order = sorted(sheets, key=_place)
    ids = stock_ids((sheet_load(sheet.product), sheet.product, "") for sheet in in_order)
    return tuple(
        Sheet(
            sheet_id=sheet_id,
            load=sheet_load(sheet.product),
            product=sheet.product,
            length_in=sheet.size.length_in,
            width_in=sheet.size.width_in,
            pieces=tuple(_pieces(sheet)),
        )
        for sheet_id, sheet in zip(ids, in_order, strict=True)
    )


def _place(sheet: RowedSheet) -> tuple[object, ...]:
    pattern = tuple(tuple((-blank.length, -blank.width) for blank in row.blanks) for row in sheet.rows)
    names = tuple((natural_key(blank.piece.mark), blank.piece.building) for row in sheet.rows for blank in row.blanks)
    return (natural_key(sheet.product), sheet.size.length, sheet.size.width, pattern, names)


def _pieces(sheet: RowedSheet) -> Iterator[SheetPiece]:
    y = 0
    for row in sheet.rows:
        x = 0
        for blank in row.blanks:
            yield SheetPiece(
                building=blank.piece.building,
                mark=blank.piece.mark,
                x_in=inches(x),
                y_in=inches(y),
                length_in=blank.piece.length_in,
                width_in=blank.piece.width_in,
            )
            x += blank.length
        y += row.height
