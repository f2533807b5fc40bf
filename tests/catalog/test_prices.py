"""Price lists, good and bad."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeoff.catalog.grades import grades
from takeoff.catalog.hardware import hardware_items
from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.nails import nails
from takeoff.catalog.price_reader import builtin_prices, read_price_file, read_prices
from takeoff.catalog.prices import PriceRow
from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_products
from takeoff.findings import PlanError

HEAD = "item,grade,length_in,unit,price\n"


def findings_of(text: str) -> list[tuple[str, int, int]]:
    """Rule, line and column of each finding."""
    with pytest.raises(PlanError) as caught:
        read_prices(text, file="yard.csv")
    assert all(finding.place.file == "yard.csv" for finding in caught.value.findings)
    return [(finding.rule, finding.place.line, finding.place.column) for finding in caught.value.findings]


def test_the_built_in_list_is_marked_as_placeholder_money():
    assert builtin_prices().is_placeholder


ALL = ("2x4", "2x6", "2x8", "2x10", "2x12", "4x4", "4x6", "6x6")
COMMONLY_ORDERED = {"stud": ALL[:2], "no2": ALL, "treated": ALL, "trim": ("1x4", "1x6", "1x8", *ALL[:5])}


@pytest.mark.parametrize(
    ("grade", "size"), [(grade, size) for grade, sizes in COMMONLY_ORDERED.items() for size in sizes]
)
def test_the_built_in_list_prices_what_is_commonly_ordered_in_every_length(grade, size):
    for length in stock_lengths(profile(size), grade):
        assert builtin_prices().lookup(size, grade, length)


def test_longer_boards_cost_more():
    lengths = stock_lengths(profile("2x10"), "no2")
    prices = [builtin_prices().lookup("2x10", "no2", length) or 0.0 for length in lengths]
    assert prices == sorted(prices)
    assert prices[-1] / lengths[-1] > prices[0] / lengths[0]  # and more a foot


def test_the_built_in_list_prices_every_sheet_in_every_size_and_all_hardware():
    for product in sheet_products():
        for _, length in product.sizes:
            assert builtin_prices().lookup(product.name, "", length)
    for item in hardware_items():
        assert builtin_prices().lookup(item.name, "", 12.0)
    for nail in nails():
        assert builtin_prices().lookup(nail.name)


def test_every_built_in_item_and_grade_is_in_the_catalog():
    others = {known.name for known in (*sheet_products(), *hardware_items(), *nails())}
    for row in builtin_prices().rows:
        assert row.item in others or profile(row.item).name == row.item
        assert row.grade in {"", *(known.name for known in grades())}


def test_a_beam_is_priced_by_the_foot():
    beams = read_prices(HEAD + "5 1/2 X 14,glulam,,ft,24\n", file="yard.csv")
    assert beams.lookup("5-1/2x14", "glulam", 31 * 12) == 24 * 31
    assert beams.lookup("5-1/2x14", "glulam") is None  # no length, no price


def test_a_price_by_the_thousand_board_feet():
    # 2x10, 18 ft: 30 board feet; at $900 a thousand, $27
    assert read_prices(HEAD + "2x10,no2,,mbf,900\n", file="").lookup("2x10", "no2", 216) == pytest.approx(27.0)


def test_the_most_exact_row_holds():
    text = HEAD + "2x6,,,ft,1\n2x6,,96,each,7.50\n2x6,no2,,ft,2\n2x6,no2,96,each,9\n"
    prices = read_prices(text, file="yard.csv")
    assert prices.lookup("2x6", "no2", 96) == 9
    assert prices.lookup("2x6", "no2", 120) == 20
    assert prices.lookup("2x6", "no1", 96) == 7.5
    assert prices.lookup("2x6", "no1", 120) == 10
    assert prices.lookup("2x8", "no2", 96) is None
    assert not prices.is_placeholder


def test_lengths_agree_within_float_noise():
    assert read_prices(HEAD + "2x6,stud,92-5/8,each,5\n", file="").lookup("2x6", "stud", 92.625 + 1e-9) == 5


def test_a_list_as_a_spreadsheet_saves_it_is_taken():
    text = 'Price,Item,Grade,Length_In,Unit\r\n6.25,"2X6",No. 2,"8\'",\r\n3.5,2x4,stud,96",each\r\n,,,,\r\n'
    prices = read_prices(text, file="yard.csv")
    assert prices.lookup("2x6", "no2", 96) == 6.25
    assert prices.lookup("2x4", "stud", 96) == 3.5


@pytest.mark.parametrize(
    ("row", "rule", "column"),
    [
        ("2x6,no2,96,each,", "prices.bad-price", 17),
        ("2x6,no2,96,each,-5", "prices.bad-price", 17),
        ("2x6,no2,96,each,ask", "prices.bad-price", 17),
        ("2x6,no2,96,each,$5", "prices.bad-price", 17),
        ("2x6,no2,96,each,nan", "prices.bad-price", 17),
        ("2x6,no2,96,each,1e3", "prices.bad-price", 17),
        ("2x6,no2,96,each,99999999", "prices.bad-price", 17),
        ("2x6,no2,long,each,5", "prices.bad-length", 9),
        ("2x6,no2,-96,each,5", "prices.bad-length", 9),
        ("2x6,no2,16,each,5", "prices.bad-length", 9),
        ("2x6,no2,96,dozen,5", "prices.unknown-unit", 12),
        ("cdx-5/8,,96,mbf,5", "prices.unknown-unit", 13),
        ("cdx-5/8,,96,lb,5", "prices.unknown-unit", 13),
        ("8d common,,,each,5", "prices.unknown-unit", 13),
        (",no2,96,each,5", "prices.missing-item", 1),
        ("2x6,no2,96,each", "prices.ragged-row", 1),
        ('"2x6,no2,96,each,5', "prices.bad-line", 0),
    ],
)
def test_a_bad_row_is_found_with_line_and_column(row, rule, column):
    assert findings_of(HEAD + "2x4,no2,96,each,4\n" + row + "\n") == [(rule, 3, column)]


def test_a_length_in_feet_is_told_how_to_write_it():
    with pytest.raises(PlanError, match="for feet write 16'"):
        read_prices(HEAD + "2x6,no2,16,each,9\n", file="yard.csv")


def test_all_faults_are_told_at_once_in_the_order_of_the_file():
    text = HEAD + "2x6,no2,96,each,-1\n2x6,no2,120,bunk,x\n2x8,no2,96,each,8\n2 X 8,NO2,8',each,9\n"
    assert findings_of(text) == [
        ("prices.bad-price", 2, 17),
        ("prices.unknown-unit", 3, 13),
        ("prices.bad-price", 3, 18),
        ("prices.duplicate-row", 5, 1),
    ]


def test_a_second_price_names_the_line_of_the_first():
    with pytest.raises(PlanError, match="as line 2"):
        read_prices(HEAD + "2x8,no2,96,each,8\n2x8,no2,96,ft,1\n", file="yard.csv")


@pytest.mark.parametrize(
    ("head", "expected"),
    [
        ("", [("prices.empty", 1, 0)]),
        ("item,grade,length_in,unit,price,colour\n", [("prices.unknown-column", 1, 33)]),
        ("item,grade,length_in,unit,price,price\n", [("prices.duplicate-column", 1, 33)]),
        ("item,grade,length_in,unit\n", [("prices.missing-column", 1, 1)]),
    ],
)
def test_a_bad_header_is_found(head, expected):
    assert findings_of(head) == expected


def test_a_file_that_is_not_there_or_not_text_is_a_finding(tmp_path):
    with pytest.raises(PlanError, match="can't be read"):
        read_price_file(tmp_path / "none.csv")
    (tmp_path / "utf16.csv").write_bytes((HEAD + "2x4,no2,96,each,4\n").encode("utf-16"))
    with pytest.raises(PlanError, match="UTF-8"):
        read_price_file(tmp_path / "utf16.csv")
    (tmp_path / "large.csv").write_bytes(b"x" * 4_000_001)
    with pytest.raises(PlanError, match="at most"):
        read_price_file(tmp_path / "large.csv")


def test_a_file_with_a_byte_order_mark_is_read(tmp_path):
    (tmp_path / "yard.csv").write_text(HEAD + "2x4,no2,96,each,4\n", encoding="utf-8-sig")
    assert read_price_file(tmp_path / "yard.csv").lookup("2x4", "no2", 96) == 4


@given(st.text(max_size=60), st.text(alphabet="2x46no,\"'96each.-\n", max_size=60))
def test_any_text_is_a_list_or_findings(free, likely):
    for text in (free, HEAD + free, HEAD + likely):
        try:
            read_prices(text, file="yard.csv")
        except PlanError as error:
            assert error.findings  # noqa: PT017  (no exception is as good a result)


@pytest.mark.parametrize(
    "wrong",
    [
        {"price_usd": -1.0},
        {"price_usd": float("nan")},
        {"unit": "box"},
        {"item": "osb-7/16", "unit": "mbf"},
        {"unit": "lb"},
    ],
)
def test_an_impossible_price_can_not_be_made(wrong):
    with pytest.raises(ValueError, match=r"price|board feet|pound"):
        PriceRow(**{"item": "2x4", "price_usd": 1.0, **wrong})
