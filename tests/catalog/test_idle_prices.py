"""Rows of a price list that price nothing are told, each with its line."""

from __future__ import annotations

import pytest

from takeoff.catalog.idle_prices import idle_rows
from takeoff.catalog.price_reader import builtin_prices, read_prices

HEAD = "item,grade,length_in,unit,price\n"


@pytest.mark.parametrize(
    ("row", "words"),
    [
        ("2x11,no2,14',each,20", "no item '2x11' is known; did you mean"),
        ("cdx-58,,,each,30", "did you mean 'cdx-5/8'"),
        ("2x10,no22,14',each,20", "no grade 'no22' is known"),
        ("2x10,no2,13',each,20", "no 2x10 no2 is sold 13'-0\" long"),
        ("2x10,,11.5',each,20", "no 2x10 is sold 11'-6\" long"),
    ],
)
def test_a_row_that_prices_nothing_is_noted_with_its_line(row, words):
    (note,) = idle_rows(read_prices(f"{HEAD}2x4,no2,96,each,4\n{row}\n", file="yard.csv"), "yard.csv")
    assert words in note.message
    assert (note.place.file, note.place.line, str(note.severity)) == ("yard.csv", 3, "note")


def test_rows_for_what_is_on_sale_are_not_noted():
    rows = "2x10,no2,14',each,20\n2x4,stud,92-5/8,each,4\n5-1/2x14,glulam,,ft,23\ncdx-5/8,,,each,30\n2x6,,12',each,9\n"
    assert idle_rows(read_prices(HEAD + rows, file="yard.csv"), "yard.csv") == ()


def test_nothing_in_the_built_in_list_is_idle():
    assert idle_rows(builtin_prices(), "prices") == ()
