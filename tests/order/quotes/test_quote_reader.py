"""Answers read back, in whatever state they come."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest
from openpyxl.worksheet.worksheet import Worksheet
from shop import CABIN

from takeoff.findings import PlanError
from takeoff.model.takeoff import Takeoff
from takeoff.order.quotes.asked import AskedItem, asked_items
from takeoff.order.quotes.reader import read_quote_file
from takeoff.pipeline import price_request, take_off


@pytest.fixture(scope="module")
def cabin() -> Takeoff:
    return take_off(CABIN)


@pytest.fixture(scope="module")
def asked(cabin: Takeoff) -> tuple[AskedItem, ...]:
    return asked_items(cabin.order)


@pytest.fixture
def answer(cabin: Takeoff, tmp_path: Path) -> Callable[[Callable[[Worksheet], object]], Path]:
    """A request filled in by a function, saved by another program than wrote it."""

    def filled(fill: Callable[[Worksheet], object]) -> Path:
        file = tmp_path / "answer.xlsx"
        file.write_bytes(price_request(cabin))
        book = openpyxl.load_workbook(file)
        sheet = book.active
        assert isinstance(sheet, Worksheet)
        fill(sheet)
        book.save(file)
        return file

    return filled


def head(sheet: Worksheet) -> int:
    return next(row for row in range(1, 20) if sheet.cell(row, 1).value == "Code")


def prices_in(sheet: Worksheet, count: int, price: object = 4.25) -> None:
    for row in range(head(sheet) + 1, head(sheet) + 1 + count):
        sheet.cell(row, 3).value = price


def test_quantities_are_protected_and_prices_are_not(cabin: Takeoff, answer: Callable[..., Path]) -> None:
    sheet = openpyxl.load_workbook(answer(lambda _: None)).active
    assert isinstance(sheet, Worksheet)
    assert sheet.protection.sheet
    first = head(sheet) + 1
    assert not sheet.cell(first, 3).protection.locked
    assert all(sheet.cell(first, column).protection.locked for column in (1, 2, 4, 5))
    assert sheet.cell(first, 3).value is None


def test_the_request_asks_for_each_item_of_the_order_once(cabin: Takeoff, asked: tuple[AskedItem, ...]) -> None:
    assert len({item.code for item in asked}) == len({item.text for item in asked}) == len(asked)
    ordered = sum(line.qty_order for line in cabin.order)
    assert sum(item.quantity for item in asked) == ordered


def test_what_is_filled_in_comes_back(answer: Callable[..., Path], asked: tuple[AskedItem, ...]) -> None:
    def fill(sheet: Worksheet) -> None:
        prices_in(sheet, 2, "$ 1,004.50")
        sheet["C5"], sheet["C7"] = "Dunlin Yard", "40"

    quote, findings = read_quote_file(answer(fill), asked)
    assert (quote.yard, quote.delivery, quote.delivery_told) == ("Dunlin Yard", 40.0, True)
    assert dict(quote.prices) == {item.code: 1004.5 for item in asked[:2]}
    assert findings == ()


def test_blank_is_not_offered_and_the_files_name_stands_for_the_yards(
    answer: Callable[..., Path], asked: tuple[AskedItem, ...]
) -> None:
    quote, _ = read_quote_file(answer(lambda sheet: prices_in(sheet, 1)), asked)
    assert (quote.yard, dict(quote.prices), quote.delivery_told) == ("answer", {asked[0].code: 4.25}, False)


def test_an_answer_without_any_price_is_refused(answer: Callable[..., Path], asked: tuple[AskedItem, ...]) -> None:
    with pytest.raises(PlanError, match="no price stands under this heading"):
        read_quote_file(answer(lambda _: None), asked)


def test_moved_columns_and_sorted_rows_are_found_by_their_headings(
    answer: Callable[..., Path], asked: tuple[AskedItem, ...]
) -> None:
    def fill(sheet: Worksheet) -> None:
        prices_in(sheet, 3)
        sheet.insert_cols(1, 2)
        sheet.insert_rows(1, 4)
        row = next(row for row in range(1, 30) if sheet.cell(row, 3).value == "Code") + 1
        one, other = ([sheet.cell(r, column).value for column in range(3, 12)] for r in (row, row + 2))
        for column, (a, b) in enumerate(zip(one, other, strict=True), start=3):
            sheet.cell(row, column).value, sheet.cell(row + 2, column).value = b, a

    quote, _ = read_quote_file(answer(fill), asked)
    assert dict(quote.prices) == {item.code: 4.25 for item in asked[:3]}


def test_a_heading_merged_over_two_rows_is_one_heading(
    answer: Callable[..., Path], asked: tuple[AskedItem, ...]
) -> None:
    def fill(sheet: Worksheet) -> None:
        prices_in(sheet, 1)
        at = head(sheet)
        sheet.cell(at - 1, 3).value, sheet.cell(at, 3).value = "Your", "price"
        sheet.merge_cells(start_row=at - 1, end_row=at, start_column=1, end_column=1)
        sheet.cell(at - 1, 1).value = "Code"

    quote, _ = read_quote_file(answer(fill), asked)
    assert dict(quote.prices) == {asked[0].code: 4.25}


def test_codes_that_are_gone_are_made_up_for_by_the_description(
    answer: Callable[..., Path], asked: tuple[AskedItem, ...]
) -> None:
    def fill(sheet: Worksheet) -> None:
        prices_in(sheet, 2)
        sheet.delete_cols(1)

    quote, _ = read_quote_file(answer(fill), asked)
    assert dict(quote.prices) == {item.code: 4.25 for item in asked[:2]}


def test_a_line_that_isnt_in_the_order_and_a_changed_quantity_are_told(
    answer: Callable[..., Path], asked: tuple[AskedItem, ...]
) -> None:
    def fill(sheet: Worksheet) -> None:
        prices_in(sheet, 2)
        row = head(sheet) + 1
        sheet.cell(row, 1).value, sheet.cell(row, 2).value = "ZZZZ", "4x4 posts"
        sheet.cell(row + 1, 5).value = 3

    quote, findings = read_quote_file(answer(fill), asked)
    assert dict(quote.prices) == {asked[1].code: 4.25}
    assert [finding.rule for finding in findings] == ["quotes.stranger", "quotes.quantity"]
    assert "'4x4 posts' isn't in this order" in findings[0].message


def test_a_price_that_cant_be_read_is_named_with_its_cell(
    answer: Callable[..., Path], asked: tuple[AskedItem, ...]
) -> None:
    rows: list[int] = []

    def fill(sheet: Worksheet) -> None:
        prices_in(sheet, 1, "about 12")
        rows.append(head(sheet) + 1)

    with pytest.raises(PlanError, match=r"cell C\d+: .*found 'about 12'") as error:
        read_quote_file(answer(fill), asked)
    assert error.value.findings[0].place.line == rows[0]


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "no row with the headings"),
        (b"\x00\x01\x02garbage", "save it as"),
        (b"PK\x03\x04 torn", "save it as|headings"),
    ],
)
def test_what_is_no_quotation_is_refused_in_words(
    tmp_path: Path, asked: tuple[AskedItem, ...], content: bytes, words: str
) -> None:
    file = tmp_path / "answer.xlsx"
    file.write_bytes(content)
    with pytest.raises(PlanError, match=words):
        read_quote_file(file, asked)


def test_an_answer_saved_as_csv_is_read_too(tmp_path: Path, asked: tuple[AskedItem, ...]) -> None:
    file = tmp_path / "dunlin.csv"
    file.write_text(f"Yard;Dunlin Yard\n\nItem;Unit price\n{asked[0].text};12,50\n")
    quote, _ = read_quote_file(file, asked)
    assert (quote.yard, dict(quote.prices)) == ("Dunlin Yard", {asked[0].code: 12.5})


def test_an_empty_cell_may_stand_between_a_label_and_what_is_said(
    answer: Callable[..., Path], asked: tuple[AskedItem, ...]
) -> None:
    def fill(sheet: Worksheet) -> None:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.value == "Delivery, each load [$]":
                    sheet.cell(cell.row, cell.column + 2).value = "$ 60.00"
                elif cell.value == asked[0].code:
                    sheet.cell(cell.row, 3).value = "4.25/ea"

    quote, _ = read_quote_file(answer(fill), asked)
    assert (quote.delivery, quote.delivery_told) == (60.0, True)
