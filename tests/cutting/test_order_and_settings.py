"""The order boards are cut in, and the settings that the cutting hears: trim, leftovers, effort."""

from __future__ import annotations

from dataclasses import replace

import pytest
from cutting_checker import check_boards
from stock_shop import a_piece, by_the_foot

from takeoff.catalog.prices import PriceList, PriceRow
from takeoff.cutting.lumber import LumberProblem, cut
from takeoff.cutting.offers import offers_for
from takeoff.cutting.stop import JOB_ROUNDS, MaxRounds
from takeoff.model.stock import Stop

PRICED = PriceList(
    (
        PriceRow(item="2x4", grade="stud", length_in=92.625, price_usd=3.0),
        *(PriceRow(item="2x4", grade="stud", length_in=12.0 * ft, price_usd=0.5 * ft) for ft in (8, 9, 10)),
    )
)


def a_job(*pieces, offers, **more):
    return LumberProblem(pieces=pieces, offers=offers, kerf_in=0.125, **more)


def test_boards_stand_by_load_then_profile_then_longest_first():
    offers = (
        *by_the_foot(8, 10, 12),
        *by_the_foot(10, 16, profile="2x10", grade="no2"),
        *by_the_foot(8, 12, profile="2x6", grade="no2"),
    )
    pieces = (
        a_piece("S1", 90.0, 2),
        a_piece("S2", 118.0),
        a_piece("S3", 143.0),
        a_piece("BP1", 100.0, profile="2x6", grade="no2"),
        a_piece("R1", 190.0, 1, load=2, profile="2x10", grade="no2"),
        a_piece("R2", 110.0, 1, load=2, profile="2x10", grade="no2"),
        a_piece("H1", 119.0, profile="2x10", grade="no2"),
    )
    boards = cut(a_job(*pieces, offers=offers)).boards
    assert [(b.load, b.profile, b.stock_length_in) for b in boards] == [
        (1, "2x4", 144.0),
        (1, "2x4", 120.0),
        (1, "2x4", 96.0),
        (1, "2x4", 96.0),
        (1, "2x6", 144.0),
        (1, "2x10", 120.0),
        (2, "2x10", 192.0),
        (2, "2x10", 120.0),
    ]


def test_ends_are_trimmed_of_boards_sold_by_the_foot_and_not_of_precut_studs():
    offers = offers_for((a_piece("S1", 92.625),), PRICED, trim_in=0.5)
    assert {offer.trim_in for offer in offers if offer.length_in % 12 == 0} == {0.5}
    assert {offer.trim_in for offer in offers if offer.length_in % 12} == {0.0}
    (stud,) = cut(a_job(a_piece("S1", 92.625), offers=offers)).boards
    assert (stud.stock_length_in, stud.starts_in) == (92.625, (0.0,))


def test_a_piece_as_long_as_the_longest_board_needs_a_longer_one_once_ends_are_trimmed():
    piece = a_piece("FA1", 240.0, profile="2x6", grade="no2")
    longest = max(offer.length_in for offer in offers_for((piece,), PRICED) if not offer.special)
    piece = replace(piece, length_in=longest)
    (board,) = cut(a_job(piece, offers=offers_for((piece,), PRICED, trim_in=0.25))).boards
    assert (board.special, board.stock_length_in, board.trim_in) == (True, longest + 12.0, 0.25)
    assert board.starts_in == (0.25,)


@pytest.mark.parametrize("effort", ["quick", "normal", "long"])
def test_every_effort_makes_all_pieces_and_no_dearer_than_less_effort(effort):
    pieces = tuple(a_piece(f"S{n}", 20.0 + 7.3 * n, 3 + n % 4) for n in range(7))
    problem = a_job(*pieces, offers=by_the_foot(8, 10, 12, 14, 16))
    cutting = cut(problem, effort=effort)
    check_boards(problem, cutting)
    assert cutting.cost_usd <= cut(problem, effort="quick").cost_usd
    assert cutting.bound_usd <= cutting.cost_usd


def test_at_the_end_of_the_effort_the_best_found_is_given_with_its_gap():
    pieces = tuple(a_piece(f"S{n}", 20.0 + 7.3 * n, 3 + n % 4) for n in range(7))
    problem = a_job(*pieces, offers=by_the_foot(8, 10, 12, 14, 16))
    cutting = cut(problem, stop=MaxRounds(1))
    check_boards(problem, cutting)
    assert cutting.stopped_by is Stop.OUT_OF_TIME
    assert 0.0 < cutting.proofs[0].gap_usd == pytest.approx(cutting.cost_usd - cutting.bound_usd)


def test_more_effort_has_more_rounds():
    assert JOB_ROUNDS["quick"] < JOB_ROUNDS["normal"] < JOB_ROUNDS["long"]
