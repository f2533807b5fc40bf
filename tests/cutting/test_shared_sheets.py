"""Grades that share sheets: what is left of the better one goes into the field, and what that leaves to be bought."""

from __future__ import annotations

from dataclasses import replace

import pytest
from shapely import Polygon, box
from shop import SAMPLES
from stock_shop import a_panel_piece, sheets_on_sale

from takeoff.catalog.price_reader import builtin_prices
from takeoff.cutting.bound import area_bound
from takeoff.cutting.lay_ups import building_lay_ups
from takeoff.cutting.offers import sheet_offers_for
from takeoff.cutting.panel_pieces import panel_pieces_of
from takeoff.cutting.sheet.pack import next_sum
from takeoff.cutting.sheets import SheetProblem, cut_sheets
from takeoff.cutting.stand_ins import stands_in
from takeoff.findings import Place
from takeoff.framing.frame import frame
from takeoff.model.face import Cover
from takeoff.model.marks import mark_buildings
from takeoff.plan.read import read_plan
from takeoff.sheathing.sheathe import sheathe

OFFERS = (
    *sheets_on_sale((96.0, 30.5), product="cdx-5/8"),
    *sheets_on_sale((96.0, 52.5), product="sanded-5/8"),
)
SHOWN = a_panel_piece("X1", 96.0, 24.0, 1, product="sanded-5/8")
FIELD = replace(a_panel_piece("F1", 96.0, 24.0, 3, product="cdx-5/8"), also=("sanded-5/8",))


def test_what_is_left_of_the_better_grade_is_cut_for_the_field() -> None:
    # Half a sheet of the better grade is left: of three strips for the field one comes from it.
    found = cut_sheets(SheetProblem(pieces=(SHOWN, FIELD), offers=OFFERS, kerf_in=0.125))
    marks = {sheet.product: sorted(piece.mark for piece in sheet.pieces) for sheet in found.sheets}
    assert marks == {"sanded-5/8": ["F1", "X1"], "cdx-5/8": ["F1", "F1"]}
    (proof,) = found.proofs
    assert proof.products == ("cdx-5/8", "sanded-5/8")
    assert (proof.sheets, proof.area_bound, proof.cost_usd, proof.bound_usd) == (2, 2, 83.0, 83.0)


def test_what_shows_is_never_cut_from_the_field_s_sheets() -> None:
    shown, field = replace(SHOWN, qty=3), replace(FIELD, qty=1)
    problem = SheetProblem(pieces=(shown, field), offers=OFFERS, kerf_in=0.125)
    found = cut_sheets(problem)
    assert [sheet.product for sheet in found.sheets] == ["sanded-5/8"] * 2
    assert area_bound(problem) == 2


@pytest.mark.parametrize(
    ("field", "exposed", "does"),
    [
        ("cdx-5/8", "sanded-5/8", True),
        ("cdx-5/8", "cdx-5/8", False),  # there is but one
        ("cdx-1/2", "sanded-5/8", False),  # the roof would have a step
    ],
)
def test_a_sheet_stands_in_where_it_is_as_thick_and_spans_as_far(field: str, exposed: str, does: bool) -> None:
    assert stands_in(Cover(field=field, exposed=exposed)) is does


def test_a_bound_is_a_sum_of_whole_sheets() -> None:
    # 3050 n: 74725 lies between 24 and 25 of them. Of two prices, 5250 + 3050 is the first sum over 8000.
    assert next_sum([3050], 74725, 99999) == 76250
    assert next_sum([3050, 5250], 8000, 9999) == 8300
    assert next_sum([3050, 5250], 8400, 8500) == 8500  # what is known costs no more


def test_the_barn_and_the_shelter_take_a_sheet_less_when_their_slopes_are_laid_together() -> None:
    # 18.11 and 16.42 sheets of area, 19 and 18 with each grade rounded up alone; nothing overlaps on a sheet.
    for plan, most in (("godwit-barn", 19), ("tern-boat-shelter", 19)):
        written, _ = read_plan(SAMPLES / f"{plan}.yaml")
        framed, _ = frame(written.plan.buildings[0], lambda at: Place(path=at))
        laid = building_lay_ups(framed, builtin_prices(), 0.125)
        pieces = panel_pieces_of(mark_buildings([sheathe(framed, laid.lay_ups)]))
        cutting = cut_sheets(
            SheetProblem(pieces=pieces, offers=sheet_offers_for(pieces, builtin_prices()), kerf_in=0.125)
        )
        roof = [sheet for sheet in cutting.sheets if not sheet.product.startswith("osb")]
        assert len(roof) <= most
        for sheet in cutting.sheets:
            shapes = [
                Polygon(p.outline_in)
                if p.outline_in
                else box(p.x_in, p.y_in, p.x_in + p.length_in, p.y_in + p.width_in)
                for p in sheet.pieces
            ]
            assert all(a.intersection(b).area < 1e-6 for k, a in enumerate(shapes) for b in shapes[:k])
