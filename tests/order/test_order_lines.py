from __future__ import annotations

import pytest
from stock_shop import a_panel_piece, a_piece, sheets_on_sale

from takeoff.catalog.prices import PriceList, PriceRow
from takeoff.catalog.profiles import profile
from takeoff.catalog.weights import weight_per_ft
from takeoff.cutting.lumber import LumberProblem, cut
from takeoff.cutting.offers import offers_for
from takeoff.cutting.sheets import SheetProblem, cut_sheets
from takeoff.order.allowance import with_allowance
from takeoff.order.hardware import HardwareCount
from takeoff.order.lines import order_lines

PRICES = PriceList(
    (
        PriceRow(item="2x10", grade="no2", length_in=168.0, price_usd=21.274),
        PriceRow(item="5-1/2x14", grade="glulam", unit="ft", price_usd=23.1),
        PriceRow(item="osb-7/16", length_in=108.0, price_usd=15.9),
        PriceRow(item="rafter-hanger", price_usd=7.4),
    )
)
RAFTERS = (
    a_piece("R1", 163.81, 44, load=2, role="common-rafter", profile="2x10", grade="no2"),
    a_piece("E1", 163.81, 4, load=2, role="end-rafter", profile="2x10", grade="no2"),
)
BEAM = a_piece("RB1", 352.0, load=2, role="ridge-beam", profile="5-1/2x14", grade="glulam")


def order(*pieces, panels=(), hardware=(), waste=None, prices=PRICES):
    offers = sheets_on_sale((96.0, 14.0), (108.0, 15.9))
    return order_lines(
        pieces=pieces,
        lumber=cut(LumberProblem(pieces=pieces, offers=offers_for(pieces, prices), kerf_in=0.125)),
        sheets=cut_sheets(SheetProblem(pieces=panels, offers=offers, kerf_in=0.125)),
        hardware=hardware,
        waste=waste or {},
        prices=prices,
        species="spf",
    )


def test_rafters_are_ordered_with_their_allowance_rounded_up_once():
    (line,) = order(*RAFTERS)
    assert (line.item, line.category, line.load) == ("2x10 no2, 14'-0\"", "rafters", 2)
    assert (line.qty_net, line.waste_pct, line.qty_order) == (48, 3.0, 50)  # 48 x 1.03 = 49.44
    assert line.board_feet == pytest.approx(50 * 14 * 20 / 12)
    assert line.weight_lb == pytest.approx(50 * 14 * weight_per_ft(profile("2x10"), "no2"))


def test_money_is_to_the_cent():
    (line,) = order(*RAFTERS)
    assert (line.unit_price, line.cost) == (21.27, 1063.5)


def test_beams_are_cut_to_order_without_allowance():
    (line,) = order(BEAM)
    assert (line.item, line.category) == ("glulam 5-1/2x14, 30'-0\"", "beams")
    assert (line.qty_net, line.waste_pct, line.qty_order, line.board_feet) == (1, 0.0, 1, 0.0)
    assert line.cost == 693.0  # 30 ft at 23.10


def test_engineered_wood_is_ordered_as_beams_whatever_it_carries():
    header = a_piece("H1", 60.0, 2, role="header", profile="1-3/4x9-1/2", grade="lvl")
    (line,) = order(header)
    assert (line.category, line.qty_order, line.load) == ("beams", line.qty_net, 1)


def test_an_allowance_stated_in_the_plan_holds():
    (line,) = order(*RAFTERS, waste={"rafters": 10.0})
    assert (line.waste_pct, line.qty_order) == (10.0, 53)  # 52.8


def test_a_board_has_the_category_that_most_of_its_length_is_for():
    plate = a_piece("BP1", 90.0, role="bottom-plate", profile="2x6", grade="no2")
    blocks = a_piece("FB1", 14.5, 6, role="fire-block", profile="2x6", grade="no2")
    # 90 in of plate and 87 in of blocks, with their kerfs, come out of one stick of 16 ft.
    (line,) = order(plate, blocks)
    assert (line.qty_net, line.category, line.waste_pct) == (1, "plates", 5.0)


def test_sheets_are_ordered_by_product_and_size():
    panels = (a_panel_piece("F1", 97.125, 48.0, 20),)
    (line,) = order(panels=panels)
    assert line.item == "osb-7/16 sheet, 4'-0\" x 9'-0\""
    assert (line.load, line.category, line.profile, line.grade) == (3, "sheathing", "osb-7/16", "standard")
    assert (line.qty_net, line.qty_order, line.unit_price) == (20, 21, 15.9)  # 20 x 1.05
    assert line.weight_lb == pytest.approx(21 * 36 * 1.4)  # 36 sq ft at 1.4 lb


def test_hardware_is_ordered_each():
    (line,) = order(hardware=(HardwareCount(name="rafter-hanger", profile="2x10", qty=48),))
    assert (line.load, line.category, line.unit, line.qty_order) == (2, "hardware", "each", 48)
    assert line.item.endswith("for 2x10")
    assert (line.unit_price, line.cost) == (7.4, 355.2)


def test_a_price_the_list_has_not_stays_open():
    (line,) = order(a_piece("S1", 92.625, 10))
    assert (line.unit_price, line.cost) == (None, None)


def test_a_special_length_is_ordered_and_says_so():
    (line,) = order(a_piece("FA1", 380.0, 2, load=4, role="fascia", profile="2x6", grade="trim"))
    assert (line.item, line.special, line.load) == ("2x6 trim, 32'-0\"", True, 4)


def test_lines_stand_by_load_then_as_a_yard_keeps_them():
    lines = order(
        BEAM,
        *RAFTERS,
        a_piece("BP1", 144.0, 3, role="bottom-plate"),
        a_piece("S1", 92.625, 10),
        panels=(a_panel_piece("F1", 96.0, 48.0),),
        hardware=(HardwareCount(name="hurricane-tie", profile="", qty=48),),
    )
    assert [(line.load, line.category) for line in lines] == [
        (1, "studs"),  # 2x4 by 7'-8 5/8" before 2x4 by 12'
        (1, "plates"),
        (2, "rafters"),  # sawn lumber before glued
        (2, "beams"),
        (2, "hardware"),
        (3, "sheathing"),
    ]


@pytest.mark.parametrize(
    ("net", "pct", "ordered"), [(20, 5.0, 21), (21, 5.0, 23), (1, 3.0, 2), (7, 0.0, 7), (0, 10.0, 0), (100, 7.0, 107)]
)
def test_an_allowance_is_rounded_up_to_whole_pieces_and_no_further(net, pct, ordered):
    assert with_allowance(net, pct) == ordered


def test_without_allowance_the_boards_cost_what_cutting_reckoned():
    pieces = (*RAFTERS, BEAM)
    lumber = cut(LumberProblem(pieces=pieces, offers=offers_for(pieces, PRICES), kerf_in=0.125))
    lines = order(*pieces, waste={"rafters": 0.0, "beams": 0.0})
    assert sum(line.cost for line in lines) == pytest.approx(lumber.cost_usd)
