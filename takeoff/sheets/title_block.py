"""The strip under a drawing that stands alone: job, title, builder and revision, and the caution that goes with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.sheets.blocks import WIDTH_MM
from takeoff.sheets.cautions import DRAWING_CAUTION
from takeoff.sheets.drawing import EDGE, MM_PER_IN, Drawing, Item, Line, Point, Text, View
from takeoff.sheets.lettering import width_mm

if TYPE_CHECKING:
    from takeoff.model.takeoff import Takeoff

STRIP_MM = 14.0
_FIRST_MM, _SECOND_MM, _LINE_MM = 6.0, 1.5, 11.5
_TITLE_MM, _WORDS_MM = 2.6, 1.9
_GAP_MM = 6.0


def titled(drawing: Drawing, takeoff: Takeoff) -> Drawing:
    """The drawing with its strip below it, on paper wide enough for the strip's words."""
    raised = [replace(view, origin_mm=(view.origin_mm[0], view.origin_mm[1] + STRIP_MM)) for view in drawing.views]
    # At a scale of the drawing's own, so that a file for drafting has the strip as large as the figures.
    one_to = max(view.one_to for view in drawing.views)
    job, book = f"{takeoff.job} · {drawing.title}", takeoff.settings.book
    firm = " · ".join(part for part in (book.company, f"rev. {book.revision}" if book.revision else "") if part)
    first = width_mm(job, _TITLE_MM, bold=True) + (_GAP_MM + width_mm(firm, _TITLE_MM) if firm else 0.0)
    wide = max(drawing.width_mm, min(WIDTH_MM, max(first, width_mm(DRAWING_CAUTION, _WORDS_MM))))
    high = _TITLE_MM * min(1.0, wide / first)  # a long name in smaller letters
    strip = View(name="title", one_to=one_to, items=tuple(_strip((job, firm), wide, high, one_to / MM_PER_IN)))
    return replace(drawing, width_mm=wide, height_mm=drawing.height_mm + STRIP_MM, views=(*raised, strip))


def _strip(words: tuple[str, str], wide: float, high: float, k: float) -> Iterator[Item]:
    def at(x_mm: float, y_mm: float) -> Point:
        return (x_mm * k, y_mm * k)

    job, firm = words
    yield Line(at(0.0, _LINE_MM), at(wide, _LINE_MM), EDGE)
    yield Text(at=at(0.0, _FIRST_MM), words=job, height_mm=high, bold=True)
    yield Text(at=at(0.0, _SECOND_MM), words=DRAWING_CAUTION, height_mm=_WORDS_MM)
    if firm:
        yield Text(at=at(wide, _FIRST_MM), words=firm, height_mm=high, anchor="end")
