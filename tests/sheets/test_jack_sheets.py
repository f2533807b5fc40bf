"""Sheets of hip and valley roofs: jacks by the series, saw cuts in words, the figures a hip is laid out by."""

from __future__ import annotations

from io import BytesIO

import pytest

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.alike import by_number
from takeoff.sheets.crew.steps import common_step
from takeoff.sheets.crew_book import Book, book, crew_book_pdf
from takeoff.sheets.rafter_words import JACKS, has_notch
from takeoff.sheets.sheet_drawings import sheet_drawings
from takeoff.sheets.tables.rafters import RAFTERS


@pytest.fixture(scope="module")
def hip_book(hip_takeoff: Takeoff) -> Book:
    return book(hip_takeoff, sheet_drawings(hip_takeoff))


@pytest.fixture(scope="module")
def ell_book(ell_takeoff: Takeoff) -> Book:
    return book(ell_takeoff, sheet_drawings(ell_takeoff))


def test_a_series_states_the_common_difference_of_the_steel_square(hip_book: Book) -> None:
    series = hip_book.jacks[0]
    # 16 inches of run at 6/12: 16 * 1.1180 = 17.889, the printed 17 7/8
    assert (series.headline[0].label, series.headline[0].figure) == ("common difference", "1'-5 7/8\"")
    assert len(series.rows) == 5


def test_left_and_right_jacks_of_one_length_stand_in_one_row(hip_book: Book) -> None:
    # Two of each hand for each of the long sides, and on the hip ends beside the middle jack: four hips, eight jacks.
    for row in hip_book.jacks[0].rows:
        assert [marks.split(" ")[0] for marks in (row.left, row.right)] == ["4", "4"]
        assert row.neither == ""


def test_long_point_centre_line_and_short_point_are_told(hip_book: Book) -> None:
    shortest = hip_book.jacks[0].rows[0]
    # Run to the hip's centre 16, less 1.061 of hip, and 16 of overhang: 30.939 * 1.1180 = 34.591; cheek 0.839 each way
    assert (shortest.long_point, shortest.centre_line, shortest.short_point) == (
        "2'-11 7/16\"",
        "2'-10 9/16\"",
        "2'-9 3/4\"",
    )


def test_saw_and_square_are_set_from_the_planes_of_a_jack(hip_book: Book) -> None:
    hip_end, tail = hip_book.jacks[0].cuts
    assert (hip_end.end, hip_end.miter, hip_end.blade) == ("hip end", "26.6°", "45.0°")
    assert (hip_end.plumb, hip_end.side) == ("6 and 12", "12 and 13 7/16")
    assert (tail.end, tail.blade, tail.side) == ("tail", "upright", "square")


def test_a_hip_is_laid_out_with_16_97_on_the_body(hip_book: Book) -> None:
    hip = next(sheet for sheet in hip_book.rafters if sheet.words == "hip rafter")
    figures = {entry.label: entry.figure for entry in hip.table}
    assert figures["pitch"] == "6 in 16.97"
    assert figures["pitch of slopes"] == "6/12"
    assert figures["run of the hip"] == "11'-3 3/4\""  # 8 feet of common run: 8 * 16.97 = 135.76
    assert figures["drop, already in"] == '1/4"'
    assert 'step off 8 steps of 16.97" run and 0" over' in hip.step_off
    # a double cheek alike on both faces, at both ends
    assert [(row.end, row.shorter, row.blade) for row in hip.cuts] == [
        ("ridge end", "each", "45.0°"),
        ("tail", "each", "45.0°"),
    ]


def test_every_jack_stands_in_one_series_and_no_other_rafter_does(ell_takeoff: Takeoff, ell_book: Book) -> None:
    counted = sum(sheet.count for sheet in ell_book.jacks)
    members = [m for b in ell_takeoff.buildings for m in b.members if m.rafter is not None]
    assert counted == sum(member.role.name in JACKS for member in members)
    assert counted + sum(sheet.count for sheet in ell_book.rafters) == len(members)


def test_jacks_that_follow_other_hips_are_a_series_of_their_own(ell_book: Book) -> None:
    # 30 and 32 feet less multiples of 16 inches: the jacks of some hips stand half a bay off those of the others.
    hip_jacks = [sheet for sheet in ell_book.jacks if sheet.words == "hip jack" and len(sheet.rows) > 1]
    assert len(hip_jacks) == 2
    assert {sheet.headline[0].figure for sheet in hip_jacks} == {"1'-7 1/4\""}  # 16 * 1.2019 = 19.230


def test_a_jack_that_stands_on_a_valley_has_no_figures_of_a_wall(ell_book: Book) -> None:
    for sheet in ell_book.jacks:
        if sheet.words != "hip jack":
            labels = {entry.label for entry in (*sheet.headline, *sheet.table)}
            assert not any(word in label for label in labels for word in ("seat", "heel", "tail", "overhang", "plate"))


def test_kinds_are_named_plainly(ell_takeoff: Takeoff) -> None:
    kinds = {row["kind"] for row in RAFTERS.objects(ell_takeoff)}
    assert {"common", "hip", "valley", "hip jack", "valley jack"} <= kinds
    assert not any("-" in str(kind) for kind in kinds)


def test_every_sheet_of_a_hip_or_a_series_fits_on_one_page(hip_takeoff: Takeoff, hip_book: Book) -> None:
    from pypdf import PdfReader

    pages = [
        page.extract_text()
        for page in PdfReader(BytesIO(crew_book_pdf(hip_takeoff, sheet_drawings(hip_takeoff)))).pages
    ]
    titles = [f"{sheet.mark} {sheet.words}" for sheet in hip_book.rafters]
    titles += [f"{sheet.marks} {sheet.words}" for sheet in hip_book.jacks]
    starts = [next(n for n, page in enumerate(pages) if n > 1 and f"\n{title}" in page[:200]) for title in titles]
    assert starts == list(range(starts[0], starts[0] + len(titles)))
    assert "Roof: other pieces" in pages[starts[-1] + 1]


def test_the_step_of_a_series_is_the_one_that_most_neighbours_have() -> None:
    assert common_step([10.0, 20.0, 30.0, 35.0], 16) == 10.0
    assert common_step([10.0, 20.0], 16) is None
    assert common_step([], 16) is None


def test_marks_count_on_past_nine() -> None:
    assert by_number(["J10", "J9", "VJ1", "J1"]) == ["J1", "J9", "J10", "VJ1"]


def test_ends_of_jacks_are_named_by_what_they_meet(ell_book: Book) -> None:
    named = {(sheet.words, row.end) for sheet in ell_book.jacks for row in sheet.cuts}
    assert ("valley jack", "ridge end") in named
    assert ("valley jack", "foot at the valley") in named
    assert ("cripple jack", "hip end") in named
    assert not [end for words, end in named if words == "valley jack" and end.startswith("hip")]


def test_a_jack_that_meets_hip_and_ridge_says_which_cut_is_which(ell_takeoff: Takeoff, ell_book: Book) -> None:
    both = [sheet for sheet in ell_book.jacks if {"hip end", "ridge end"} <= {row.end for row in sheet.cuts}]
    for sheet in both:
        blades = {row.end: row.blade for row in sheet.cuts}
        assert blades["ridge end"] == "upright"
        assert blades["hip end"] != "upright"


def test_a_valley_jack_whose_foot_reaches_over_the_plate_shows_its_level_notch(ell_takeoff: Takeoff) -> None:
    drawings = sheet_drawings(ell_takeoff)
    notched = {m.mark for b in ell_takeoff.buildings for m in b.members if m.rafter is not None and has_notch(m.rafter)}
    for mark, drawing in drawings.rafters.items():
        assert ("notch" in {view.name for view in drawing.views}) == (mark in notched)
