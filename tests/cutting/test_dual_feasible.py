"""The bound on the number of sheets: its functions are dual feasible, and it is never more than what is cut."""

from __future__ import annotations

from hypothesis import example, given
from hypothesis import strategies as st

from takeoff.cutting.sheet.dual_feasible import duals, fewest_sheets, inner_rectangle
from takeoff.cutting.sheet.shape import Shape, shape_of

SHEET = (1536, 768)
"""96 by 48 inches in sixteenths."""


def rectangle(length: int, width: int) -> Shape:
    return Shape(length, width, (), False)


@given(whole=st.integers(2, 200), sizes=st.lists(st.integers(1, 100), min_size=1, max_size=8))
@example(whole=6, sizes=[3, 3])
@example(whole=9, sizes=[3, 3, 3])
def test_what_fits_into_the_whole_is_worth_no_more_than_it(whole: int, sizes: list[int]) -> None:
    while sum(sizes) > whole:
        sizes = sizes[1:]
    for function, worth in duals(whole, [*sizes, 1 + whole // 3]):
        assert sum(map(function, sizes)) <= worth


def test_the_area_is_one_of_the_bounds() -> None:
    # 5 halves of a sheet
    assert fewest_sheets([rectangle(768, 768)], [5], SHEET) == 3


def test_pieces_that_can_not_stand_beside_each_other_take_a_sheet_each() -> None:
    # 49 by 25 in: each is over a half both ways; their area would fit on three sheets of ten.
    assert fewest_sheets([rectangle(784, 400)], [10], SHEET) == 10


def test_pieces_that_go_beside_each_other_one_way_only() -> None:
    # 40 x 25 in: two along the sheet, one across it.
    assert fewest_sheets([rectangle(640, 400)], [9], SHEET) == 5


def test_nothing_takes_no_sheets() -> None:
    assert fewest_sheets([], [], SHEET) == 0


def test_a_kerf_wider_than_the_gap_counts() -> None:
    half = rectangle(768, 768)
    assert fewest_sheets([half], [4], SHEET) == 2
    assert fewest_sheets([half], [4], SHEET, excess=1) == 4


def test_a_slanted_piece_counts_as_a_rectangle_in_it() -> None:
    # A triangle of 96 by 48 in: the largest rectangle in it is half as long and half as wide.
    triangle, _ = shape_of([(0.0, 0.0), (96.0, 0.0), (0.0, 48.0)], flips=True)
    assert inner_rectangle(triangle) == (768, 384)
    # A trapezoid of 60 in below and 48 above: 48 over its whole height.
    trapezoid, _ = shape_of([(0.0, 0.0), (60.0, 0.0), (48.0, 48.0), (0.0, 48.0)], flips=True)
    assert inner_rectangle(trapezoid) == (768, 768)
