"""Boards on the sheets: where each piece begins, and what is known of how cheap the cutting is."""

from __future__ import annotations

import io
from dataclasses import replace
from math import sqrt

import openpyxl
import pytest

from takeoff.model.stock import Board, CostProof, Cut
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.board_list import board_lists
from takeoff.sheets.crew.figures import Figures
from takeoff.sheets.cutting_words import proof_words
from takeoff.sheets.workbook import order_xlsx


def proof(cost: float, bound: float, *, proven: bool = False) -> CostProof:
    return CostProof(load=2, profile="2x10", grade="no2", cost_usd=cost, bound_usd=bound, proven=proven)


NESTED = Board(
    stock_id="2A1",
    load=2,
    profile="2x10",
    grade="no2",
    stock_length_in=192.0,
    cuts=(Cut(mark="J2", length_in=80.0), Cut(mark="J2", length_in=80.0, lap_in=4.0)),
    kerf_in=0.125,
    trim_in=1.0,
)


def test_a_piece_in_the_slant_of_the_one_before_begins_where_the_board_says(hand_takeoff: Takeoff) -> None:
    lumber = replace(hand_takeoff.lumber, boards=(NESTED,))
    (row,) = board_lists(lumber, Figures(16))[0].boards
    # 1 of trim, 80 and a saw cut of 1/8 are 81-1/8; 4 back into the slant: 77-1/8; 80 on: 157-1/8
    assert [(cut.begins, cut.reads_inches) for cut in row.cuts] == [("", '81"'), ("6'-5 1/8\"", '157 1/8"')]
    assert row.trim == '1"'


def cells(takeoff: Takeoff, sheet: str) -> list[tuple[object, ...]]:
    """Rows of a sheet of the workbook."""
    return list(openpyxl.load_workbook(io.BytesIO(order_xlsx(takeoff)))[sheet].iter_rows(values_only=True))


def test_the_workbook_says_where_a_piece_in_a_slant_begins(hand_takeoff: Takeoff) -> None:
    nested = replace(hand_takeoff, lumber=replace(hand_takeoff.lumber, boards=(NESTED,)))
    words = "1 J2 at 6'-8\"; 1 J2 at 6'-8\" beginning at 6'-5 1/8\""
    assert any(words in row for row in cells(nested, "Board cutting"))


def test_boards_on_hand_are_listed_apart_from_those_to_buy(hand_takeoff: Takeoff) -> None:
    lumber = replace(hand_takeoff.lumber, boards=(NESTED, replace(NESTED, stock_id="2A2", on_hand=True)))
    rows = board_lists(lumber, Figures(16))[0].boards
    assert [(row.ids, row.on_hand) for row in rows] == [("2A1", False), ("2A2", True)]


@pytest.mark.parametrize(
    ("known", "words"),
    [
        (proof(100.0, 100.0, proven=True), "cheapest possible"),
        (proof(100.41, 100.0), "within 0.5 % of the cheapest possible"),  # never told better than it is
        (proof(102.0, 100.0), "within 2 % of the cheapest possible"),
        (proof(100.0, 0.0), ""),  # nothing known
        (proof(0.0, 0.0), ""),  # no price
    ],
)
def test_a_proof_is_said_in_words_its_gap_rounded_up(known: CostProof, words: str) -> None:
    assert proof_words(known) == words


def test_what_is_known_stands_on_the_board_list_and_among_the_assumptions(hand_takeoff: Takeoff) -> None:
    proofs = (proof(5.0, 5.0, proven=True), replace(proof(5.0, 4.0), grade="no1"), proof(0.0, 0.0))
    lumber = replace(hand_takeoff.lumber, proofs=proofs)
    load_2 = next(boards for boards in board_lists(lumber, Figures(16)) if boards.load == 2)
    assert load_2.proofs == ("cheapest possible: 2x10 no2", "within 25 % of the cheapest possible: 2x10 no1")
    rows = cells(replace(hand_takeoff, lumber=lumber), "Assumptions")
    assert [row[:2] for row in rows if str(row[0]).startswith("Load")] == [
        ("Load 2, 2x10 no2", "cheapest possible"),
        ("Load 2, 2x10 no1", "within 25 % of the cheapest possible"),
    ]


def test_a_proof_whose_gap_is_a_whole_tenth_isn_t_rounded_past_it() -> None:
    assert proof_words(proof(100.3, 100.0)) == "within 0.3 % of the cheapest possible"
    assert proof_words(proof(100.0 + sqrt(2) / 10, 100.0)) == "within 0.2 % of the cheapest possible"


def test_rests_worth_keeping_are_listed_with_their_stock_the_longest_first(hand_takeoff: Takeoff) -> None:
    def board(length: float) -> Board:
        return replace(NESTED, stock_length_in=96.0, trim_in=0.0, cuts=(Cut(mark="R1", length_in=length),))

    lumber = replace(hand_takeoff.lumber, boards=(board(60.0), board(40.0), board(90.0), board(40.0)))
    (kept,) = board_lists(lumber, Figures(16), least_in=24.0)[0].kept
    # 96 less the piece and a kerf of an eighth; the rest beside the longest piece is under two feet
    assert (kept.stock, kept.rests) == ("2x10 no2", "2 of 4'-7 7/8\", 2'-11 7/8\"")
    assert board_lists(lumber, Figures(16))[0].kept == ()
