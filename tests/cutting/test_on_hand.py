"""The list of boards on the site."""

from __future__ import annotations

import pytest
from stock_shop import a_piece

from takeoff.cutting.on_hand import read_on_hand, read_on_hand_file, unused_notes
from takeoff.cutting.problem import Offer
from takeoff.findings import PlanError, Severity

HEADER = "profile,grade,length_in,qty\n"


def read(text):
    return read_on_hand(text, file="site.csv")


def rules(text):
    with pytest.raises(PlanError) as caught:
        read(text)
    return [(finding.rule, finding.place.line) for finding in caught.value.findings]


def test_each_line_becomes_boards_that_cost_nothing_and_run_out():
    one, two = read(HEADER + "2 X 6,No. 2,7'-3 1/2\",4\n\n2x4,stud,61,1\n")
    assert one.offer == Offer(profile="2x6", grade="no2", length_in=87.5, price_usd=0.0, limit=4, on_hand=True)
    assert (two.offer.length_in, two.offer.limit) == (61.0, 1)


def test_columns_may_stand_in_any_order():
    (board,) = read("qty,length_in,profile,grade\n3,96,2x4,stud\n")
    assert (board.qty, board.length_in) == (3, 96.0)


def test_all_that_is_wrong_is_told_at_once_with_its_line():
    text = HEADER + "2x7,stud,96,1\n2x4,oak,96,1\n2x4,stud,long,1\n2x4,stud,96,1.5\n2x4,stud,96\n2x4,stud,0,0\n"
    assert rules(text) == [
        ("on-hand.unknown-profile", 2),
        ("on-hand.unknown-grade", 3),
        ("on-hand.bad-length", 4),
        ("on-hand.bad-qty", 5),
        ("on-hand.ragged-row", 6),
        ("on-hand.bad-length", 7),
        ("on-hand.bad-qty", 7),
    ]


@pytest.mark.parametrize("qty", ["", "-2", "two", "1e2", "\u0661", "100001"])
def test_a_number_of_boards_is_a_plain_whole_number(qty):
    assert rules(f"{HEADER}2x4,stud,96,{qty}\n") == [("on-hand.bad-qty", 2)]


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        ("", "on-hand.empty"),
        ("\n", "on-hand.empty"),
        ("profile,grade,length_in\n", "on-hand.missing-column"),
        (HEADER[:-1] + ",colour\n", "on-hand.unknown-column"),
        (HEADER[:-1] + ",qty\n", "on-hand.duplicate-column"),
        ('"2x4,stud,96,1\n', "on-hand.bad-line"),
    ],
)
def test_a_list_without_its_header_is_refused(text, rule):
    assert [found for found, _ in rules(text)] == [rule]


def test_a_file_that_cannot_be_read_is_named(tmp_path):
    with pytest.raises(PlanError, match=r"nowhere\.csv"):
        read_on_hand_file(tmp_path / "nowhere.csv")
    picture = tmp_path / "picture.csv"
    picture.write_bytes(b"\x89PNG\xff")
    with pytest.raises(PlanError, match="UTF-8"):
        read_on_hand_file(picture)


def test_a_file_is_read_as_a_spreadsheet_saves_it(tmp_path):
    path = tmp_path / "site.csv"
    path.write_bytes(b"\xef\xbb\xbf" + HEADER.encode() + b"2x4,stud,96,2\r\n")
    (board,) = read_on_hand_file(path)
    assert (board.qty, str(board.place)) == (2, f"{path}:2")


def test_boards_that_no_piece_fits_into_are_noted_and_not_lost():
    boards = read(HEADER + "2x4,stud,20,3\n2x4,stud,30,1\n2x8,no2,96,1\n")
    short, other = unused_notes(boards, (a_piece("C1", 30.0), a_piece("S1", 92.0)))
    assert short.severity is other.severity is Severity.NOTE
    assert "the shortest piece of 2x4 stud is 2'-6\"" in short.message
    assert "no piece is of 2x8 no2" in other.message
    assert (short.place.line, other.place.line) == (2, 4)
