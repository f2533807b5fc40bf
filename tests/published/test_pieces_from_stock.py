"""Worked examples of pieces from stock, and cutting problems whose least number of sticks is published.

Sources
    Army correspondence course EN0069 (Frame Structures; same text as TM 5-551B), para. 4-6 and the answers of lesson 4;
    read. Its lengths are whole feet, no kerf is taken, and a price that goes with the length makes its "least waste"
    the least cost.
    Army correspondence course EN01136, answers of lesson 5; read.
    Encyclopedia article on the cutting stock problem, the paper machine example: 73 rolls of 5600 mm; read, and proven
    again by an integer programme.
    Chvatal, Linear Programming (1983), p. 195 to 198: 453 rolls of 100; data read in a manual that quotes it, the
    optimum recalled and proven again by an integer programme.
    Board feet: Building Trades Pocketbook (I.C.S., about 1905); Army EN5155, para. 1-5; read.
    Sheets: by construction.
"""

from __future__ import annotations

import pytest
from stock_shop import a_panel_piece, a_piece, by_the_foot, sheets_on_sale

from takeoff.catalog.prices import PriceList
from takeoff.cutting.lumber import LumberProblem, Offer, cut
from takeoff.cutting.sheets import SheetProblem, cut_sheets
from takeoff.model.stock import SheetCutting
from takeoff.order.lines import order_lines

YARD = by_the_foot(8, 10, 12, 14, 16, 18, 20)
NO_SHEETS = SheetCutting(sheets=(), area_bound=0)


def boards_for(length_in, qty, offers):
    return cut(LumberProblem(pieces=(a_piece("S1", length_in, qty),), offers=offers, kerf_in=0.0)).boards


def test_four_stakes_of_28_in_come_out_of_ten_feet_with_8_in_waste():
    (board,) = boards_for(28.0, 4, by_the_foot(10))
    assert board.leftover_in == 8.0
    assert {one.stock_length_in for one in boards_for(28.0, 4, YARD)} == {120.0}  # and ten feet is what is bought


def test_ten_feet_give_two_of_54_in_with_12_in_waste_and_eight_feet_one():
    (board,) = boards_for(54.0, 2, by_the_foot(8, 10))
    assert (board.stock_length_in, board.leftover_in) == (120.0, 12.0)
    assert [board.leftover_in for board in boards_for(54.0, 2, by_the_foot(8))] == [42.0, 42.0]


def test_ten_feet_give_three_of_36_in_with_12_in_waste():
    (board,) = boards_for(36.0, 3, by_the_foot(8, 10))
    assert (board.stock_length_in, board.leftover_in) == (120.0, 12.0)


def test_for_two_of_36_in_the_eight_feet_are_chosen():
    (board,) = boards_for(36.0, 2, by_the_foot(8, 10))
    assert (board.stock_length_in, board.leftover_in) == (96.0, 24.0)


def test_for_a_board_of_9_ft_2_in_the_ten_feet_are_chosen_not_the_twenty():
    (board,) = boards_for(110.0, 1, YARD)
    assert (board.stock_length_in, board.leftover_in) == (120.0, 10.0)


def test_for_two_of_them_ten_feet_each_or_twenty_for_both_cost_the_same():
    # The text has no rule for such a tie; ours is the fewest boards.
    assert sum(board.stock_length_in for board in boards_for(110.0, 2, YARD)) == 240.0


def test_four_uprights_and_two_posts_take_four_lengths_of_ten_feet():
    # Four of 5'-1" and two of 3'-7".
    pieces = (a_piece("S1", 61.0, 4), a_piece("S2", 43.0, 2))
    assert len(cut(LumberProblem(pieces=pieces, offers=by_the_foot(10), kerf_in=0.0)).boards) == 4


def test_six_blocks_of_22_and_a_half_come_out_of_twelve_feet_with_the_kerf():
    # 6 x 22-1/2 and 5 cuts of 1/8 are 135-5/8 in: derived.
    problem = LumberProblem(pieces=(a_piece("EB1", 22.5, 18),), offers=by_the_foot(12), kerf_in=0.125)
    assert len(cut(problem).boards) == 3


# fmt: off
PAPER = (
    (1380, 22), (1520, 25), (1560, 12), (1710, 14), (1820, 18), (1880, 18), (1930, 20), (2000, 10), (2050, 12),
    (2100, 14), (2140, 16), (2150, 18), (2200, 20),
)
# fmt: on
CHVATAL = ((45, 97), (36, 610), (31, 395), (14, 211))


@pytest.mark.parametrize(
    ("sizes", "stock", "least"),
    [pytest.param(PAPER, 5600, 73, id="paper machine"), pytest.param(CHVATAL, 100, 453, id="chvatal")],
)
def test_the_bound_is_no_more_than_the_published_optimum_and_the_fit_near_it(sizes, stock, least):
    pieces = tuple(a_piece(f"S{number}", size, qty) for number, (size, qty) in enumerate(sizes, start=1))
    offer = Offer(profile="2x4", grade="stud", length_in=stock, price_usd=1.0)
    cutting = cut(LumberProblem(pieces=pieces, offers=(offer,), kerf_in=0.0))
    assert cutting.bound_usd <= least <= cutting.cost_usd
    assert cutting.cost_usd <= 1.13 * least  # pieces near a third of the stock are the worst for a plain fit


@pytest.mark.parametrize(
    ("length_in", "width_in", "qty", "sheets"),
    [
        pytest.param(32.0, 48.0, 6, 2, id="three across a sheet"),
        pytest.param(96.0, 20.0, 10, 5, id="two strips a sheet"),
    ],
)
def test_sheets_of_equal_panels_are_those_of_the_construction(length_in, width_in, qty, sheets):
    pieces = (a_panel_piece("F1", length_in, width_in, qty),)
    cutting = cut_sheets(SheetProblem(pieces=pieces, offers=sheets_on_sale((96.0, 14.0)), kerf_in=0.125))
    assert len(cutting.sheets) == cutting.area_bound == sheets


@pytest.mark.parametrize(
    ("profile", "length_ft", "qty", "board_feet"),
    [
        pytest.param("3x10", 20, 1, 50, id="pocketbook-3x10"),
        pytest.param("2x10", 18, 1, 30, id="pocketbook-2x10"),
        pytest.param("1x4", 8, 14, 37 + 1 / 3, id="en5155-1x4"),  # printed 37 1/3
    ],
)
def test_board_feet_on_the_order_are_those_of_the_worked_examples(profile, length_ft, qty, board_feet):
    pieces = (a_piece("H1", 12.0 * length_ft, qty, role="header", profile=profile, grade="no2"),)
    offers = by_the_foot(length_ft, profile=profile, grade="no2")
    (line,) = order_lines(
        pieces=pieces,
        lumber=cut(LumberProblem(pieces=pieces, offers=offers, kerf_in=0.125)),
        sheets=NO_SHEETS,
        hardware=(),
        waste={"headers": 0.0},
        prices=PriceList(()),
        species="spf",
    )
    assert line.board_feet == pytest.approx(board_feet, rel=1e-12)
