from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import openpyxl
import pytest
from calculator import assert_same, calculated, formulas, needs_calculator, opened
from openpyxl.worksheet.worksheet import Worksheet

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.workbook import order_xlsx

NAMES = [
    "Order by load",
    "Totals",
    "Prices",
    "Allowances",
    "Board cutting",
    "Sheathing",
    "Lay-ups",
    "Weights",
    "Assumptions",
]


def sheet(book: openpyxl.Workbook, name: str) -> Worksheet:
    found = book[name]
    assert isinstance(found, Worksheet)
    return found


def row_with(page: Worksheet, text: str) -> int:
    """First row that has a cell with this text."""
    return next(cell.row for cells in page.iter_rows() for cell in cells if cell.value == text)


def cell_under(page: Worksheet, heading: str, row: int) -> object:
    """What stands in a row under a heading."""
    column = next(cell.column for cells in page.iter_rows() for cell in cells if cell.value == heading)
    return page.cell(row, column).value


def test_sheets_stand_in_the_order_they_are_used(hand_takeoff: Takeoff) -> None:
    assert opened(order_xlsx(hand_takeoff)).sheetnames == NAMES


def test_same_takeoff_gives_the_same_bytes_with_a_fixed_date(hand_takeoff: Takeoff) -> None:
    content = order_xlsx(hand_takeoff)
    assert content == order_xlsx(hand_takeoff)
    with zipfile.ZipFile(io.BytesIO(content)) as parts:
        assert {part.date_time for part in parts.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_sums_of_the_order_are_those_of_its_lines(hand_takeoff: Takeoff) -> None:
    page = sheet(opened(order_xlsx(hand_takeoff)), "Order by load")
    # Load 1: 110 x 5.15 + 2 x 27.49; load 2: 5 x 27.49 + 2 x 210.60 + 4 x 0.67; load 3: 3 x 41.35.
    by_load = {"Sum of load 1": 621.48, "Sum of load 2": 561.33, "Sum of load 3": 124.05, "Sum of all loads": 1306.86}
    shown = {words: cell_under(page, "Cost [$]", row_with(page, words)) for words in by_load}
    assert shown == pytest.approx(by_load)


def test_item_ordered_for_two_loads_is_one_line_of_the_totals(hand_takeoff: Takeoff) -> None:
    page = sheet(opened(order_xlsx(hand_takeoff)), "Totals")
    row = row_with(page, "2x10 no2, 14'-0\"")
    assert [cell_under(page, heading, row) for heading in ("Net", "To order")] == [5, 7]
    assert cell_under(page, "Cost [$]", row) == pytest.approx(7 * 27.49)


def test_missing_price_is_an_empty_cell_and_shows_as_ask(hand_takeoff: Takeoff) -> None:
    book = opened(order_xlsx(hand_takeoff))
    beam = "glulam 5-1/2x14, 40'-0\""
    prices, totals, order = sheet(book, "Prices"), sheet(book, "Totals"), sheet(book, "Order by load")
    assert cell_under(prices, "Price each [$]", row_with(prices, beam)) is None
    assert cell_under(totals, "Cost [$]", row_with(totals, beam)) == "ask"
    assert cell_under(order, "Unit price [$]", row_with(order, f"{beam} (special order)")) == "ask"
    assert row_with(order, "1 without a price: not in the cost")


def test_category_with_two_allowances_has_two_rows(hand_takeoff: Takeoff) -> None:
    page = sheet(opened(order_xlsx(hand_takeoff)), "Allowances")
    shares = {row[0].value: row[1].value for row in page.iter_rows(min_row=4)}
    assert (shares["rafters"], shares["rafters 2"]) == (0.03, 0)


def test_every_formula_has_its_value_beside_it(hand_takeoff: Takeoff) -> None:
    content = order_xlsx(hand_takeoff)
    values = opened(content)
    found = list(formulas(content))
    assert len(found) > 50
    assert [(name, at) for name, at, _ in found if values[name][at].value is None] == []


def test_text_of_a_plan_never_becomes_a_formula(hand_takeoff: Takeoff) -> None:
    evil = '=HYPERLINK("x","y")'
    building = replace(hand_takeoff.buildings[0], name=evil)
    pieces = tuple(replace(piece, building=evil) for piece in hand_takeoff.pieces)
    findings = tuple(replace(finding, message=evil, building="") for finding in hand_takeoff.findings)
    content = order_xlsx(replace(hand_takeoff, buildings=(building,), pieces=pieces, findings=findings))
    assert [text for _, _, text in formulas(content) if "HYPERLINK" in text] == []
    assert row_with(sheet(opened(content), "Weights"), evil)


def test_each_sheet_prints_on_landscape_letter_with_its_heads_repeated(hand_takeoff: Takeoff) -> None:
    for page in opened(order_xlsx(hand_takeoff)):
        assert isinstance(page, Worksheet)
        assert page.page_setup.orientation == "landscape"
        assert page.page_setup.paperSize == 1
        assert page.sheet_properties.pageSetUpPr
        assert page.sheet_properties.pageSetUpPr.fitToPage
        assert page.page_setup.fitToWidth in (None, 1)  # 1 is what a file that doesn't say it means
        assert page.page_setup.fitToHeight == 0
        assert page.oddHeader
        assert page.oddHeader.left
        assert "Curlew && Plover" in str(page.oddHeader.left.text)
        if page.title != "Assumptions":
            assert page.print_title_rows
            assert page.freeze_panes


def test_placeholder_money_is_said_wherever_money_stands(hand_takeoff: Takeoff) -> None:
    def said(takeoff: Takeoff) -> list[str]:
        book = opened(order_xlsx(takeoff))
        return [name for name in NAMES if any("laceholder" in text for text in _texts(sheet(book, name)))]

    assert said(hand_takeoff) == ["Order by load", "Totals", "Prices", "Lay-ups", "Assumptions"]
    quoted = replace(hand_takeoff, settings=replace(hand_takeoff.settings, placeholder_prices=False))
    assert said(quoted) == []


def _texts(page: Worksheet) -> Iterator[str]:
    for cells in page.iter_rows():
        yield from (str(cell.value) for cell in cells)


def test_cuts_and_beams_are_told_in_words(hand_takeoff: Takeoff) -> None:
    book = opened(order_xlsx(hand_takeoff))
    assert row_with(sheet(book, "Board cutting"), "1 R1 at 13'-7 13/16\"")
    assert row_with(sheet(book, "Sheathing"), "4 X1 at 2'-0\" x 4'-0\"")
    weights = sheet(book, "Weights")
    # 5-1/2 x 14 is 77 sq in; over 144, times 30 ft and the density of the glulam.
    density = 35
    assert cell_under(weights, "Weight each [lb]", row_with(weights, "RB1")) == pytest.approx(77 / 144 * 30 * density)


@needs_calculator
def test_calculating_anew_gives_the_values_that_stand_there(hand_takeoff: Takeoff, tmp_path: Path) -> None:
    content = order_xlsx(hand_takeoff)
    (anew,) = calculated([content], tmp_path)
    assert_same(content, anew)


@needs_calculator
def test_changed_price_and_allowance_are_followed_everywhere(hand_takeoff: Takeoff, tmp_path: Path) -> None:
    book = opened(order_xlsx(hand_takeoff), values=False)
    prices, allowances = sheet(book, "Prices"), sheet(book, "Allowances")
    prices.cell(row_with(prices, "glulam 5-1/2x14, 40'-0\""), 6).value = 1000.005
    prices.cell(row_with(prices, "2x10 no2, 14'-0\""), 6).value = 30
    allowances.cell(row_with(allowances, "rafters"), 2).value = 0.5
    changed = io.BytesIO()
    book.save(changed)
    (anew,) = calculated([changed.getvalue()], tmp_path)
    order, totals, weights = sheet(anew, "Order by load"), sheet(anew, "Totals"), sheet(anew, "Weights")
    # Rafters: 4 and a half of it are 6; with the header's 2 that makes 8 at $30. Beams: 2 at 1000.005 are 2000.01.
    assert cell_under(totals, "To order", row_with(totals, "2x10 no2, 14'-0\"")) == 8
    assert cell_under(totals, "Cost [$]", row_with(totals, "2x10 no2, 14'-0\"")) == pytest.approx(240)
    assert cell_under(totals, "Cost [$]", row_with(totals, "glulam 5-1/2x14, 40'-0\"")) == pytest.approx(2000.01)
    expected = 110 * 5.15 + 8 * 30 + 2 * 210.6 + 2000.01 + 4 * 0.67 + 3 * 41.35
    for page, words in ((order, "Sum of all loads"), (totals, "All items")):
        assert cell_under(page, "Cost [$]", row_with(page, words)) == pytest.approx(expected)
    assert cell_under(weights, "Weight [lb]", row_with(weights, "beams and roof frame")) == pytest.approx(
        6 * 39.6 + 2 * 122.5 + 2 * 732 + 4 * 0.2
    )
