"""Sheets cut at least cost: what lies on each of them, how slanted pieces share cuts, and the bound."""

from __future__ import annotations

from collections import Counter
from itertools import combinations

import pytest
from shapely import Polygon, box
from stock_shop import a_panel_piece, sheets_on_sale

from takeoff.cutting.sheet.block import blocks_of
from takeoff.cutting.sheet.columns import Job
from takeoff.cutting.sheet.fit import Fitter
from takeoff.cutting.sheet.pack import packed
from takeoff.cutting.sheet.pricing import Source, Stock
from takeoff.cutting.sheet.shape import Shape, shape_of
from takeoff.cutting.sheets import PanelPiece, SheetProblem, cut_sheets
from takeoff.model.stock import Sheet, SheetCutting, SheetPiece

SHEET = sheets_on_sale((96.0, 14.0))
TRIANGLE = ((0.0, 0.0), (96.0, 0.0), (0.0, 48.0))
TRAPEZOID = ((0.0, 0.0), (70.0, 0.0), (40.0, 48.0), (0.0, 48.0))


def slanted(mark: str, corners, qty: int = 1, *, flips: bool = False) -> PanelPiece:
    shape = Polygon(corners)
    x0, y0, x1, y1 = shape.bounds
    return PanelPiece(
        building="hut",
        mark=mark,
        product="osb-7/16",
        qty=qty,
        length_in=x1 - x0,
        width_in=y1 - y0,
        area_sqin=shape.area,
        corners_in=tuple(corners),
        flips=flips,
    )


def mirrored(corners):
    long = max(x for x, _ in corners)
    return tuple((long - x, y) for x, y in reversed(corners))


def cut(*pieces: PanelPiece, offers=SHEET, kerf_in: float = 0.125) -> SheetCutting:
    return cut_sheets(SheetProblem(pieces=pieces, offers=offers, kerf_in=kerf_in))


def outline(piece: SheetPiece) -> Polygon:
    corner = piece.x_in + piece.length_in, piece.y_in + piece.width_in
    return Polygon(piece.outline_in) if piece.outline_in else box(piece.x_in, piece.y_in, *corner)


def sound(sheet: Sheet) -> bool:
    """Whether all pieces lie on the sheet and none on another."""
    outlines = [outline(piece) for piece in sheet.pieces]
    whole = box(0.0, 0.0, sheet.length_in, sheet.width_in).buffer(1e-6)
    clear = all(a.intersection(b).area < 1e-6 for a, b in combinations(outlines, 2))
    return clear and all(whole.covers(one) for one in outlines)


def test_two_equal_right_triangles_come_out_of_one_sheet() -> None:
    # By construction, along the diagonal; as rectangles they would take two.
    (sheet,) = cut(slanted("F1", TRIANGLE, 2)).sheets
    assert sound(sheet)
    assert len(sheet.pieces) == 2


def test_trapezoids_of_one_slant_share_a_saw_cut() -> None:
    # 70 and 70 overlap by 30 where they are slanted: 110 is too long for a sheet, 2 x 40 + 30 isn't.
    long = cut(slanted("F1", TRAPEZOID, 2), offers=sheets_on_sale((112.0, 14.0)))
    assert len(long.sheets) == 1
    assert sound(long.sheets[0])


def test_a_mirror_image_pairs_only_where_the_sheet_may_be_flipped() -> None:
    # On their long edge the two lean away from each other, and turned half about they still do.
    offers = sheets_on_sale((112.0, 14.0))
    kept = cut(slanted("F1", TRAPEZOID), slanted("F2", mirrored(TRAPEZOID)), offers=offers)
    turned = cut(slanted("F1", TRAPEZOID, flips=True), slanted("F2", mirrored(TRAPEZOID), flips=True), offers=offers)
    assert (len(kept.sheets), len(turned.sheets)) == (2, 1)
    assert sound(turned.sheets[0])


def test_a_piece_with_a_notch_is_cut_as_a_rectangle() -> None:
    notched = ((0.0, 0.0), (60.0, 0.0), (60.0, 48.0), (40.0, 48.0), (40.0, 20.0), (0.0, 20.0))
    shape, _ = shape_of(notched, flips=False)
    assert shape == Shape(960, 768, (), False)


def test_equal_shapes_are_one_item_however_they_lie() -> None:
    turned = tuple((70.0 - x, 48.0 - y) for x, y in TRAPEZOID)
    assert shape_of(TRAPEZOID, flips=False)[0] == shape_of(turned, flips=False)[0]
    assert shape_of(TRAPEZOID, flips=False)[0] != shape_of(mirrored(TRAPEZOID), flips=False)[0]
    assert shape_of(TRAPEZOID, flips=True)[0] == shape_of(mirrored(TRAPEZOID), flips=True)[0]


MIXED = (
    a_panel_piece("F1", 96.0, 48.0, 3),
    a_panel_piece("F2", 40.0, 48.0, 5),
    a_panel_piece("F3", 56.0, 24.0, 7),
    a_panel_piece("F4", 32.0, 18.0, 9),
    slanted("F5", TRAPEZOID, 4, flips=True),
    slanted("F6", mirrored(TRAPEZOID), 3, flips=True),
    slanted("F7", ((0.0, 0.0), (60.0, 0.0), (30.0, 30.0)), 5, flips=True),
)


def test_every_piece_is_cut_as_often_as_it_is_wanted_and_none_lies_on_another() -> None:
    found = cut(*MIXED)
    assert all(sound(sheet) for sheet in found.sheets)
    counted = Counter(piece.mark for sheet in found.sheets for piece in sheet.pieces)
    assert counted == {piece.mark: piece.qty for piece in MIXED}


def test_the_order_of_the_pieces_changes_nothing() -> None:
    assert cut(*MIXED).sheets == cut(*reversed(MIXED)).sheets


def test_what_is_left_is_listed_and_is_free() -> None:
    (sheet,) = cut(a_panel_piece("F1", 60.0, 30.0), a_panel_piece("F2", 20.0, 30.0)).sheets
    assert {(rest.length_in, rest.width_in) for rest in sheet.leftovers} == {(96.0, 17.875)}
    found = cut(*MIXED)
    for sheet in found.sheets:
        for rest in sheet.leftovers:
            free = box(rest.x_in, rest.y_in, rest.x_in + rest.length_in, rest.y_in + rest.width_in)
            assert all(outline(piece).intersection(free).area < 1e-6 for piece in sheet.pieces)


def test_no_sheets_cost_less_than_the_bound_and_best_fit_costs_no_less_than_they() -> None:
    shapes = [
        shape_of(p.corners_in, flips=True)[0]
        if p.corners_in
        else Shape(int(p.length_in * 16), int(p.width_in * 16), (), True)
        for p in MIXED
    ]
    sources = (Source(96 * 16, 768, 1400), Source(108 * 16, 768, 1600), Source(120 * 16, 768, 1800))
    stock = Stock(blocks=blocks_of(shapes, 0, 120 * 16), sources=sources)
    wanted = tuple(piece.qty for piece in MIXED)
    found = packed(Job(stocks=(stock,), wanted=wanted, most=wanted))
    fitted = sum(sources[p.source].cost for p in Fitter((stock,)).patterns(dict(enumerate(wanted))))
    assert found.bound <= found.cost <= fitted
    area = sum(piece.area_sqin * piece.qty for piece in MIXED)
    assert found.bound >= area / 4608 * 1400 * 0.999


@pytest.mark.parametrize(
    ("length", "width", "qty", "sheets"), [(32.0, 48.0, 6, 2), (96.0, 20.0, 10, 5), (24.0, 16.0, 24, 2)]
)
def test_the_bound_meets_the_sheets_where_that_is_plain(length: float, width: float, qty: int, sheets: int) -> None:
    found = cut(a_panel_piece("F1", length, width, qty))
    (proof,) = found.proofs
    assert (len(found.sheets), proof.gap_pct) == (sheets, 0.0)
