"""The book as the plan asks for it: whose it is, on what paper, and which pages it has; and the order as a message."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from itertools import pairwise

import pytest

from takeoff.model.takeoff import BookSettings, Takeoff
from takeoff.sheets.crew_book import crew_book_pdf
from takeoff.sheets.order_text import order_txt
from takeoff.sheets.sheet_drawings import sheet_drawings


def pages(takeoff: Takeoff, book: BookSettings) -> list[tuple[str, tuple[float, float]]]:
    from pypdf import PdfReader

    set_so = replace(takeoff, settings=replace(takeoff.settings, book=book))
    reader = PdfReader(BytesIO(crew_book_pdf(set_so, sheet_drawings(set_so))))
    return [(p.extract_text(), (round(float(p.mediabox.width)), round(float(p.mediabox.height)))) for p in reader.pages]


def test_builder_and_revision_stand_on_every_page(hip_takeoff: Takeoff) -> None:
    book = BookSettings(company="Sandpiper & Daughters", revision="C")
    assert all("Sandpiper & Daughters" in text and "rev. C" in text for text, _ in pages(hip_takeoff, book))


@pytest.mark.parametrize(
    ("paper", "size"),
    [("letter", (612, 792)), ("tabloid", (792, 1224)), ("a4", (595, 842))],  # ANSI/ASME Y14.1, ISO 216, in points
)
def test_paper_is_as_asked(hip_takeoff: Takeoff, paper: str, size: tuple[int, int]) -> None:
    assert {found for _, found in pages(hip_takeoff, BookSettings(paper=paper))} == {size}


def test_pages_not_asked_for_are_left_out_and_the_cautions_never(hip_takeoff: Takeoff) -> None:
    few = [text for text, _ in pages(hip_takeoff, BookSettings(pages=("boards",)))]
    assert "Cautions" in few[0]
    assert any("Board cutting, load 2" in text for text in few[1:])
    assert not any("layout marks" in text.lower() or "roof framing plan\n" in text for text in few[1:])


def test_the_book_follows_the_order_of_the_loads(cabin_takeoff: Takeoff) -> None:
    titles = [
        "cabin: south wall", "Layout marks, load 1", "Board cutting, load 1", "cabin: roof framing plan",
        "R1 common rafter", "Layout marks, load 2", "Board cutting, load 2", "cabin: sheathing maps",
        "Sheathing, cdx-5/8", "Board cutting, load 4", "Findings and assumptions",
    ]  # fmt: skip
    texts = [text for text, _ in pages(cabin_takeoff, BookSettings())]
    first = [
        next((n, text.index(title)) for n, text in enumerate(texts) if f"\n{title}" in text and "\nSheets" not in text)
        for title in titles
    ]
    assert all(a < b for a, b in pairwise(first))


def test_the_message_has_every_line_of_the_order_under_its_load(cabin_takeoff: Takeoff) -> None:
    said = order_txt(cabin_takeoff).decode().splitlines()
    counted = [line for line in said if line and line.lstrip()[0].isdigit()]
    for line, ordered in zip(counted, cabin_takeoff.order, strict=True):
        quantity, words = line.split(None, 1)
        unit = "" if ordered.unit == "each" else f"{ordered.unit} "
        assert quantity == str(ordered.qty_order)
        assert words.startswith(f"{unit}{ordered.item}")
    assert sum(line.startswith("Load ") for line in said) == len({line.load for line in cabin_takeoff.order})
