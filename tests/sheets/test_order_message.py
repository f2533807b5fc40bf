"""The order as a message to a yard, and the weights that book and workbook show."""

from __future__ import annotations

import io
from dataclasses import replace

import openpyxl

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.lifting import lifts
from takeoff.sheets.order_text import order_txt
from takeoff.sheets.workbook import order_xlsx


def test_the_message_says_what_a_line_is_used_for_unless_its_grade_does(cabin_takeoff: Takeoff) -> None:
    said = order_txt(cabin_takeoff).decode()
    assert "2x10 no2, 14'-0\" [rafters]\n" in said
    assert "2x6 stud, 7'-8 5/8\"\n" in said
    assert "cdx-5/8 sheet, 4'-0\" x 8'-0\" [roof]" in said


def test_loads_weigh_the_same_in_the_message_and_in_the_workbook(cabin_takeoff: Takeoff) -> None:
    book = openpyxl.load_workbook(io.BytesIO(order_xlsx(cabin_takeoff)), data_only=True)
    rows = [row for row in book["Weights"].iter_rows(values_only=True) if isinstance(row[0], int)]
    assert len(rows) == 4
    said = order_txt(cabin_takeoff).decode()
    assert all(f"Load {load}, {words} ({weight:,.0f} lb):" in said for load, words, _, weight, *_ in rows)


def test_limits_of_truck_and_lift_stand_by_each_load(cabin_takeoff: Takeoff) -> None:
    limited = replace(cabin_takeoff, settings=replace(cabin_takeoff.settings, truck_lb=3000.0, lift_lb=400.0))
    book = openpyxl.load_workbook(io.BytesIO(order_xlsx(limited)), data_only=True)
    rows = [row for row in book["Weights"].iter_rows(values_only=True) if isinstance(row[0], int)]
    assert [(row[4], row[5], row[7], row[8]) for row in rows] == [
        (3000, 1, 400, "nothing"),
        (3000, 1, 400, "the lift"),  # the ridge beam
        (3000, 2, 400, "the truck at once"),
        (3000, 1, 400, "nothing"),
    ]
    assert "lb, 2 trips at the least):" in order_txt(limited).decode()


def test_beams_weigh_the_same_in_the_book_and_in_the_workbook(cabin_takeoff: Takeoff) -> None:
    book = openpyxl.load_workbook(io.BytesIO(order_xlsx(cabin_takeoff)), data_only=True)
    rows = book["Weights"].iter_rows(values_only=True)
    shown = {row[0]: f"{row[5]:,.0f} lb" for row in rows if isinstance(row[5], float)}
    told = {row.mark: row.weight for row in lifts(cabin_takeoff)}
    assert told
    assert told.items() <= shown.items()
