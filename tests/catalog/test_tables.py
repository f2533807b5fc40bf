"""The tables as they stand, and the loader's refusals."""

from __future__ import annotations

import csv
from importlib import resources

import pytest

from takeoff.catalog.table import HOW_KNOWN, Row, TableError, data_text, read_table, rows_of

TABLES = sorted(
    entry.name.removesuffix(".csv")
    for entry in resources.files("takeoff.catalog").joinpath("data").iterdir()
    if entry.name.endswith(".csv")
)
FACTS = [name for name in TABLES if name != "prices"]  # prices have the columns of a builder's list


def a_row(**cells: str) -> Row:
    return Row(table="made", line=2, columns=tuple(cells), cells=tuple(cells.values()))


@pytest.mark.parametrize("name", FACTS)
def test_every_row_of_every_table_has_a_source_and_says_how_it_is_known(name):
    rows = read_table(name)
    assert rows
    assert all(row.source and row.how_known in HOW_KNOWN for row in rows)


def test_every_built_in_price_says_that_it_is_a_placeholder():
    rows = list(csv.DictReader(data_text("prices").splitlines()))
    assert rows
    assert {row["source"] for row in rows} == {"placeholder, not a quotation"}


@pytest.mark.parametrize("name", FACTS)
def test_a_fact_of_common_practice_names_no_code_section(name):
    for row in read_table(name):
        if row.how_known == "practice" and "section" in row.columns:
            assert row.optional("section") == ""


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        ("name,source,how_known\na,,seen\n", "no source"),
        ("name,how_known\na,seen\n", "no column 'source'"),
        ("name,source,how_known\na,a book,heard\n", "how_known is 'heard'"),
        ("name,source,how_known\na,a book\n", "2 cells under 3 columns"),
    ],
)
def test_a_row_that_does_not_say_where_it_comes_from_is_refused(text, complaint):
    with pytest.raises(TableError, match=complaint):
        rows_of("made", text)


def test_cells_are_read_as_what_they_are_asked_for():
    row = a_row(share="1/150", count="3", size="11-7/8", names="a; b;", yes="yes", blank="")
    assert row.number("share") == 1 / 150
    assert row.whole("count") == 3
    assert row.inches("size") == 11.875
    assert row.names("names") == ("a", "b")
    assert row.flag("yes") is True
    assert row.optional("blank") == ""


@pytest.mark.parametrize(
    ("ask", "complaint"),
    [
        (lambda row: row.text("blank"), "made.csv:2: blank is blank"),
        (lambda row: row.number("word"), "word is 'two', not a number"),
        (lambda row: row.number("nothing"), "not a number"),
        (lambda row: row.whole("half"), "not a whole number"),
        (lambda row: row.inches("word"), "not a length"),
        (lambda row: row.flag("word"), "not one of yes, no"),
        (lambda row: row.optional("other"), "no column 'other'"),
    ],
)
def test_a_cell_that_is_something_else_is_refused_with_its_place(ask, complaint):
    with pytest.raises(TableError, match=complaint):
        ask(a_row(blank="", word="two", nothing="1/0", half="1.5"))
