"""Sheet "Lay-ups": the ways the sheets could be laid and what each would cost, beside what is laid."""

from __future__ import annotations

from takeoff.model.stock import LayUpTried
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.grade_words import grade_words
from takeoff.sheets.workbook.order_sheet import ASK
from takeoff.sheets.workbook.page import Cell, Heading, Page
from takeoff.sheets.workbook.styles import Style

NAME = "Lay-ups"

_HEADINGS = (
    Heading("Building"),
    Heading("Faces", most=36),
    Heading("Tried for", least=16),
    Heading("Courses, from the eave up", most=64),
    Heading("Sheets", is_number=True),
    Heading("Cost [$]", is_number=True, least=10),
)


def write_lay_ups(page: Page, takeoff: Takeoff) -> None:
    """Write what the split of grades saves, then one row a way that was reckoned through."""
    page.line("Sheets and cost are of all faces that share products, fitted quickly: the sheets to buy may be fewer.")
    for words in grade_words(takeoff):
        page.line(words)
    page.headings(_HEADINGS, held=True)
    first = page.next_row
    for tried in takeoff.sheets.tried:
        page.add(_cells(tried))
    page.filter(range(first, page.next_row), len(_HEADINGS))


def _cells(tried: LayUpTried) -> tuple[Cell, ...]:
    words = tried.words.removeprefix(f"{tried.kind}: ")
    return (
        Cell(tried.building, Style.TEXT),
        Cell(tried.faces, Style.WRAP),
        Cell(str(tried.kind), Style.TEXT),
        Cell("" if words == tried.kind else words, Style.WRAP),
        Cell(tried.sheets, Style.COUNT),
        Cell(ASK if tried.cost_usd is None else tried.cost_usd, Style.MONEY),
    )
