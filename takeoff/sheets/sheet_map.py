"""One sheet as it is cut: its pieces with their marks and sizes, and what is left over."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.measure import format_length
from takeoff.sheets.drawing import EDGE, MM_PER_IN, OUTLINE, WASTE, Drawing, Hatch, Item, Point, Polyline, Text, View
from takeoff.sheets.piece_words import PieceLetters, piece_words

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

    from takeoff.model.stock import Sheet, SheetPiece

ONE_TO = 36.0
"""Inches of the sheet to an inch of paper: half a dozen go on a page."""

_MARGIN_MM = 1.0
_LETTERS = PieceLetters(marks_mm=(2.2, 1.6), sizes_mm=(1.6, 1.4), clear_mm=0.3)
_HATCH_MM = 1.4
_SLIVER_SQIN = 1.0


def sheet_map(sheet: Sheet, *, name: str, alike: int = 1, denominator: int = 16) -> Drawing:
    """The cutting of a sheet, its strength axis level, the corner that positions are measured from at lower left.

    Args:
        sheet: with its pieces.
        name: of the drawing, fit for a file.
        alike: how many sheets are cut so.
        denominator: figures are shown to one over this of an inch.
    """
    k = MM_PER_IN / ONE_TO
    items = tuple(_items(sheet, denominator))
    marks = ", ".join(piece.mark for piece in sheet.pieces)
    return Drawing(
        name=name,
        title=f"Sheet {sheet.sheet_id}: {sheet.product}, {alike} to be cut so, 1:{ONE_TO:.0f}",
        description=f"Cut into {marks}. Hatched is left over.",
        width_mm=sheet.length_in * k + 2 * _MARGIN_MM,
        height_mm=sheet.width_in * k + 2 * _MARGIN_MM,
        views=(View(name="sheet", one_to=ONE_TO, items=items, origin_mm=(_MARGIN_MM, _MARGIN_MM)),),
    )


def _items(sheet: Sheet, denominator: int) -> Iterator[Item]:
    from shapely import Polygon, box, union_all

    whole = box(0.0, 0.0, sheet.length_in, sheet.width_in)
    left = whole.difference(union_all([Polygon(_corners(piece)) for piece in sheet.pieces]))
    for part in _without_holes(left):
        if part.area > _SLIVER_SQIN:
            yield Hatch(tuple((float(x), float(y)) for x, y in part.exterior.coords[:-1]), WASTE, _HATCH_MM)
    for piece in sheet.pieces:
        yield Polyline(_corners(piece), EDGE, closed=True, mark=piece.mark)
    yield Polyline(
        ((0.0, 0.0), (sheet.length_in, 0.0), (sheet.length_in, sheet.width_in), (0.0, sheet.width_in)),
        OUTLINE,
        closed=True,
    )
    for piece in sheet.pieces:
        yield from _words(piece, denominator)


def _without_holes(shape: BaseGeometry) -> Iterator[Polygon]:
    """The parts of a shape, those around a piece parted through its middle."""
    from shapely import Polygon, box, get_parts

    for part in get_parts(shape):
        if not isinstance(part, Polygon):
            continue
        if not part.interiors:
            yield part
            continue
        x0, y0, x1, y1 = part.bounds
        middle = part.interiors[0].centroid.x
        for a, b in ((x0, middle), (middle, x1)):
            yield from _without_holes(part.intersection(box(a, y0, b, y1)))


def _corners(piece: SheetPiece) -> tuple[Point, ...]:
    if piece.outline_in:
        return piece.outline_in
    x0, y0 = piece.x_in, piece.y_in
    x1, y1 = x0 + piece.length_in, y0 + piece.width_in
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _words(piece: SheetPiece, denominator: int) -> Iterator[Text]:
    from shapely import Polygon

    across, along = (format_length(side, denominator=denominator) for side in (piece.width_in, piece.length_in))
    shape = Polygon(_corners(piece))
    written = piece_words(shape, piece.mark, (across, along), _LETTERS, ONE_TO)
    middle = (float(shape.centroid.x), float(shape.centroid.y))
    # A sliver is lettered over its edges: which piece is meant matters more.
    yield from written or (
        Text(at=middle, words=piece.mark, height_mm=_LETTERS.sizes_mm[-1], anchor="middle", level="middle", bold=True),
    )
