"""Guillotine problems in two dimensions whose least number of sheets is known, cut in rows without turning a piece.

Sources
    cgcut: Christofides and Whitlock, An algorithm for two-dimensional cutting problems, Operations Research 25 (1977).
    gcut: Beasley, Algorithms for unconstrained two-dimensional guillotine cutting, JORS 36 (1985); each piece once.
    Data of both were read in a public collection of such problems. They were posed for the value on one sheet; as bin
    packing, the least numbers of sheets are those reported by Lodi, Martello and Vigo, and are recalled, not read.
    thirds, strips, pinwheel: derived, beside each.
    squared: Moron's rectangle (1925), the least of nine different squares; recalled. It is no guillotine pattern.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from takeoff.cutting.sheet.block import blocks_of
from takeoff.cutting.sheet.columns import Job
from takeoff.cutting.sheet.dual_feasible import fewest_sheets
from takeoff.cutting.sheet.pack import packed
from takeoff.cutting.sheet.pricing import Source, Stock
from takeoff.cutting.sheet.shape import Shape

Sizes = list[tuple[int, int, int]]
"""Length, width and how many."""

SHEET_CENTS = 100
FILE = Path(__file__).parent / "data" / "sheet_instances.csv"


def cut(length: int, width: int, sizes: Sizes) -> tuple[int, int]:
    """Sheets, and how few the bound allows."""
    shapes = [Shape(along, across, (), False) for along, across, _ in sizes]
    stock = Stock(blocks=blocks_of(shapes, 0, length), sources=(Source(length, width, SHEET_CENTS),))
    wanted = tuple(qty for *_, qty in sizes)
    found = packed(Job(stocks=(stock,), wanted=wanted, most=wanted))
    assert found.cost == SHEET_CENTS * len(found.patterns)
    return len(found.patterns), -(-found.bound // SHEET_CENTS)


def instance(name: str) -> tuple[int, int, Sizes]:
    with FILE.open(encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["instance"] == name]
    sizes = [(int(row["piece_length"]), int(row["piece_width"]), int(row["qty"])) for row in rows]
    return int(rows[0]["length"]), int(rows[0]["width"]), sizes


@pytest.mark.parametrize(
    ("name", "least", "gap"),
    [
        # One over: rows are ripped along one side only, and nothing stands on another piece within a row.
        pytest.param("cgcut1", 2, 1, id="cgcut1"),
        pytest.param("cgcut2", 2, 0, id="cgcut2"),
        pytest.param("cgcut3", 23, 0, id="cgcut3"),
        pytest.param("gcut1", 5, 0, id="gcut1"),
        pytest.param("gcut2", 6, 0, id="gcut2"),
        pytest.param("gcut4", 14, 0, id="gcut4"),
    ],
)
def test_sheets_are_over_the_published_least_by_the_stated_gap(name: str, least: int, gap: int) -> None:
    sheets, bound = cut(*instance(name))
    assert sheets == least + gap
    assert bound <= sheets


@pytest.mark.parametrize(
    ("name", "least", "bound"),
    [
        # Least as above; the bound of Fekete and Schepers' and Carlier's functions, ours, is at most that.
        pytest.param("cgcut1", 2, 2, id="cgcut1"),
        pytest.param("cgcut2", 2, 2, id="cgcut2"),
        pytest.param("cgcut3", 23, 23, id="cgcut3"),
        pytest.param("gcut1", 5, 4, id="gcut1"),
        pytest.param("gcut2", 6, 6, id="gcut2"),
        pytest.param("gcut4", 14, 14, id="gcut4"),
    ],
)
def test_no_cutting_at_all_goes_below_the_bound_by_dual_feasible_functions(name: str, least: int, bound: int) -> None:
    length, width, sizes = instance(name)
    shapes = [Shape(along, across, (), False) for along, across, _ in sizes]
    area = sum(along * across * qty for along, across, qty in sizes)
    found = fewest_sheets(shapes, [qty for *_, qty in sizes], (length, width))
    assert -(-area // (length * width)) <= found == bound <= least


@pytest.mark.parametrize(
    ("length", "width", "sizes", "least"),
    [
        # three of 32 across a sheet of 96: six fill two
        pytest.param(96, 48, [(32, 48, 6)], 2, id="thirds"),
        # two strips of 20 from a sheet of 48, the rest too narrow
        pytest.param(96, 48, [(96, 20, 10)], 5, id="strips"),
        # round a middle: 25 of 25, but no cut goes through
        pytest.param(5, 5, [(2, 3, 2), (3, 2, 2), (1, 1, 1)], 2, id="pinwheel"),
        pytest.param(33, 32, [(k, k, 1) for k in (18, 15, 14, 10, 9, 8, 7, 4, 1)], 2, id="squared"),
    ],
)
def test_sheets_of_a_known_least_number_are_no_more(length: int, width: int, sizes: Sizes, least: int) -> None:
    assert cut(length, width, sizes) == (least, least)
