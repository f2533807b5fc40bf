from __future__ import annotations

import dataclasses

import pytest
from stock_shop import a_piece, by_the_foot

from takeoff.cutting.fitting import fit
from takeoff.cutting.lumber import LumberProblem, Offer, cut
from takeoff.cutting.stop import MaxRounds
from takeoff.model.stock import Stop


def lengths(cutting):
    return sorted(board.stock_length_in / 12 for board in cutting.boards)


def marks(board):
    return [one.mark for one in board.cuts]


def test_the_saw_takes_its_kerf_between_pieces():
    # Two of 48 in and a cut of 1/8 in don't come out of 96 in; by hand.
    pieces, offers = (a_piece("C1", 48.0, 8),), by_the_foot(8)
    assert len(cut(LumberProblem(pieces=pieces, offers=offers, kerf_in=0.125)).boards) == 8
    assert len(cut(LumberProblem(pieces=pieces, offers=offers, kerf_in=0.0)).boards) == 4


def test_a_precut_stud_fills_its_stick():
    offers = (*by_the_foot(8, 10, 16), Offer(profile="2x4", grade="stud", length_in=92.625, price_usd=7.0))
    cutting = cut(LumberProblem(pieces=(a_piece("S1", 92.625, 12),), offers=offers, kerf_in=0.125))
    assert [board.stock_length_in for board in cutting.boards] == [92.625] * 12
    assert {board.leftover_in for board in cutting.boards} == {0.0}
    assert cutting.cost_usd == 84.0
    assert cutting.stopped_by is Stop.PROVEN


def test_the_cheapest_sticks_are_chosen_not_the_longest():
    offers = (
        Offer(profile="2x4", grade="stud", length_in=96.0, price_usd=4.0),
        Offer(profile="2x4", grade="stud", length_in=192.0, price_usd=9.0),
    )
    cutting = cut(LumberProblem(pieces=(a_piece("C1", 47.0, 4),), offers=offers, kerf_in=0.125))
    assert lengths(cutting) == [8, 8]
    assert cutting.cost_usd == 8.0


def test_each_board_is_the_cheapest_that_holds_its_pieces():
    offers = (*by_the_foot(8), *by_the_foot(16, usd_a_foot=1.1))
    cutting = cut(LumberProblem(pieces=(a_piece("C1", 90.0, 3),), offers=offers, kerf_in=0.125))
    assert lengths(cutting) == [8, 8, 8]


def test_longest_pieces_stand_first_and_equal_ones_together():
    pieces = (a_piece("C2", 20.0, 2), a_piece("C1", 40.0, 2), a_piece("C3", 20.0, 1))
    (board,) = cut(LumberProblem(pieces=pieces, offers=by_the_foot(16), kerf_in=0.125)).boards
    assert marks(board) == ["C1", "C1", "C2", "C2", "C3"]


def test_pieces_share_a_stick_only_within_load_profile_and_grade():
    pieces = (
        a_piece("C1", 20.0),
        a_piece("EB1", 20.0, load=2),
        a_piece("C2", 20.0, profile="2x6"),
        a_piece("SL1", 20.0, grade="no2"),
    )
    offers = (*by_the_foot(8), *by_the_foot(8, profile="2x6"), *by_the_foot(8, grade="no2"))
    cutting = cut(LumberProblem(pieces=pieces, offers=offers, kerf_in=0.125))
    assert [(b.load, b.profile, b.grade, marks(b)) for b in cutting.boards] == [
        (1, "2x4", "no2", ["SL1"]),
        (1, "2x4", "stud", ["C1"]),
        (1, "2x6", "stud", ["C2"]),
        (2, "2x4", "stud", ["EB1"]),
    ]


def test_pieces_of_several_buildings_share_sticks():
    pieces = (a_piece("C1", 40.0, building="hut"), a_piece("C1", 40.0, building="barn"))
    assert len(cut(LumberProblem(pieces=pieces, offers=by_the_foot(8), kerf_in=0.125)).boards) == 1


def test_a_piece_too_long_is_listed_on_a_special_stick_of_its_own():
    pieces = (a_piece("BP1", 250.0, 2), a_piece("C1", 40.0))
    cutting = cut(LumberProblem(pieces=pieces, offers=by_the_foot(8, 20), kerf_in=0.125))
    assert [(b.stock_length_in, b.special, marks(b)) for b in cutting.boards] == [
        (252.0, True, ["BP1"]),
        (252.0, True, ["BP1"]),
        (96.0, False, ["C1"]),
    ]


def test_a_special_stick_costs_what_it_is_offered_for():
    special = Offer(profile="2x4", grade="stud", length_in=252.0, price_usd=40.0, special=True)
    problem = LumberProblem(pieces=(a_piece("BP1", 250.0),), offers=(*by_the_foot(20), special), kerf_in=0.125)
    cutting = cut(problem)
    assert (cutting.cost_usd, cutting.bound_usd, cutting.stopped_by) == (40.0, 40.0, Stop.PROVEN)


def test_a_profile_with_nothing_on_sale_is_ordered_specially():
    (board,) = cut(LumberProblem(pieces=(a_piece("PO1", 95.0),), offers=(), kerf_in=0.125)).boards
    assert (board.stock_length_in, board.special) == (96.0, True)


def test_without_prices_the_least_length_is_bought_and_nothing_is_proven():
    offers = tuple(dataclasses.replace(offer, price_usd=None) for offer in by_the_foot(8, 10, 12))
    cutting = cut(LumberProblem(pieces=(a_piece("S1", 96.0, 3),), offers=offers, kerf_in=0.125))
    assert lengths(cutting) == [8, 8, 8]
    assert (cutting.cost_usd, cutting.bound_usd, cutting.stopped_by) == (0.0, 0.0, Stop.FITTED)


def test_a_length_nobody_priced_is_not_preferred():
    offers = (
        Offer(profile="2x4", grade="stud", length_in=96.0, price_usd=4.0),
        Offer(profile="2x4", grade="stud", length_in=192.0, price_usd=None),
    )
    cutting = cut(LumberProblem(pieces=(a_piece("C1", 47.0, 4),), offers=offers, kerf_in=0.125))
    assert lengths(cutting) == [8, 8]


def test_a_plain_fit_that_is_stopped_early_says_so():
    problem = LumberProblem(pieces=(a_piece("C1", 50.0, 4),), offers=by_the_foot(8, 10, 12, 14), kerf_in=0.125)
    assert fit(problem, stop=MaxRounds(1)).stopped_by is Stop.OUT_OF_TIME
    assert fit(problem, stop=MaxRounds()).stopped_by is Stop.FITTED


def test_no_pieces_need_no_boards():
    cutting = cut(LumberProblem(pieces=(), offers=(), kerf_in=0.125))
    assert (cutting.boards, cutting.cost_usd, cutting.stopped_by) == ((), 0.0, Stop.PROVEN)


def test_impossible_problems_are_refused():
    with pytest.raises(ValueError, match="kerf"):
        LumberProblem(pieces=(), offers=(), kerf_in=-0.1)
    with pytest.raises(ValueError, match="stick"):
        Offer(profile="2x4", grade="stud", length_in=0.0, price_usd=1.0)
