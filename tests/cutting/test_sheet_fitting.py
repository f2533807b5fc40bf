from __future__ import annotations

import pytest
from stock_shop import a_building, a_panel, a_panel_piece, sheets_on_sale

from takeoff.cutting.assign import assign_sheets
from takeoff.cutting.panel_pieces import panel_pieces_of
from takeoff.cutting.sheets import SheetProblem, cut_sheets

SHEET = sheets_on_sale((96.0, 14.0))


def sheets_of(*pieces, offers=SHEET, kerf_in=0.125):
    return cut_sheets(SheetProblem(pieces=pieces, offers=offers, kerf_in=kerf_in)).sheets


def test_a_full_panel_takes_a_sheet_each():
    assert len(sheets_of(a_panel_piece("F1", 96.0, 48.0, 7))) == 7


def test_rips_and_crosscuts_come_out_of_a_sheet_without_kerf():
    # By construction: three of 32 in across a sheet, two rips of 24 in down it; the gap is what the saw takes.
    assert len(sheets_of(a_panel_piece("F1", 32.0, 24.0, 6))) == 1


def test_a_kerf_wider_than_the_gap_is_taken_from_the_sheet():
    assert len(sheets_of(a_panel_piece("F1", 32.0, 48.0, 3), kerf_in=0.25)) == 2
    assert len(sheets_of(a_panel_piece("F1", 96.0, 48.0, 1), kerf_in=0.25)) == 1  # nothing to cut


def test_the_strength_axis_is_kept_along_the_sheet():
    (first, *_) = sheets_of(a_panel_piece("F1", 40.0, 48.0, 2))
    assert [(p.x_in, p.y_in, p.length_in, p.width_in) for p in first.pieces] == [
        (0.0, 0.0, 40.0, 48.0),
        (40.0, 0.0, 40.0, 48.0),
    ]


def test_a_panel_is_never_turned_to_fit():
    with pytest.raises(ValueError, match="F1 of hut"):
        sheets_of(a_panel_piece("F1", 40.0, 60.0))


def test_products_do_not_share_sheets():
    offers = (*sheets_on_sale((96.0, 30.0), product="cdx-5/8"), *sheets_on_sale((96.0, 52.5), product="sanded-5/8"))
    pieces = (
        a_panel_piece("X1", 96.0, 24.0, product="sanded-5/8"),
        a_panel_piece("F1", 96.0, 24.0, product="cdx-5/8"),
    )
    assert [(s.sheet_id, s.product, s.load) for s in sheets_of(*pieces, offers=offers)] == [
        ("3A1", "cdx-5/8", 3),
        ("3B1", "sanded-5/8", 3),
    ]


def test_the_size_is_the_cheapest_that_holds_what_is_cut_from_it():
    offers = sheets_on_sale((96.0, 14.0), (108.0, 16.0), (120.0, 18.0))
    sheets = sheets_of(a_panel_piece("F1", 97.125, 48.0, 2), a_panel_piece("F2", 96.0, 48.0, 2), offers=offers)
    assert [sheet.length_in for sheet in sheets] == [96.0, 96.0, 108.0, 108.0]


def test_lower_panels_are_trimmed_from_a_row_where_that_saves_a_sheet():
    sheets = sheets_of(a_panel_piece("F1", 48.0, 48.0), a_panel_piece("F2", 48.0, 20.0))
    assert len(sheets) == 1


def test_the_area_bound_counts_each_product_alone():
    offers = (*SHEET, *sheets_on_sale((96.0, 30.0), product="cdx-5/8"))
    pieces = (a_panel_piece("F1", 96.0, 24.0, 3), a_panel_piece("F2", 96.0, 24.0, product="cdx-5/8"))
    assert cut_sheets(SheetProblem(pieces=pieces, offers=offers, kerf_in=0.125)).area_bound == 2 + 1


def test_panels_are_counted_over_all_copies_along_their_strength_axis():
    panels = (a_panel("F1", 48.0, 97.125, axis="v"), a_panel("F1", 48.0, 97.125, axis="v"), a_panel("F2", 96.0, 24.0))
    first, second = panel_pieces_of([a_building(panels=panels, count=2)])
    assert (first.mark, first.qty, first.length_in, first.width_in) == ("F1", 4, 97.125, 48.0)
    assert (second.mark, second.qty, second.length_in, second.width_in) == ("F2", 2, 96.0, 24.0)


def test_each_placed_panel_knows_its_sheet():
    offers = sheets_on_sale((96.0, 14.0), (108.0, 16.0))
    panels = (a_panel("F2", 96.0, 24.0), a_panel("F1", 48.0, 97.125, axis="v"), a_panel("F2", 96.0, 24.0))
    buildings = (a_building(panels=panels, count=2),)
    pieces = panel_pieces_of(buildings)
    cutting = cut_sheets(SheetProblem(pieces=pieces, offers=offers, kerf_in=0.125))
    # Two rips a sheet: the first copy takes the first sheet of them, the second copy the other.
    assert assign_sheets(buildings, cutting) == (("3A1", "3A3", "3A1"),)
