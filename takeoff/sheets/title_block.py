"""The strip under a drawing that stands alone: job, title, builder and revision, and the caution that goes with it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.sheets.cautions import DRAWING_CAUTION
from takeoff.sheets.drawing import EDGE, MM_PER_IN, Drawing, Item, Line, Point, Text, View

if TYPE_CHECKING:
    from takeoff.model.takeoff import Takeoff

STRIP_MM = 14.0
_FIRST_MM, _SECOND_MM, _LINE_MM = 6.0, 1.5, 11.5
_TITLE_MM, _WORDS_MM = 2.6, 1.9


def titled(drawing: Drawing, takeoff: Takeoff) -> Drawing:
    """The drawing with its strip below it."""
    raised = [replace(view, origin_mm=(view.origin_mm[0], view.origin_mm[1] + STRIP_MM)) for view in drawing.views]
    # At a scale of the drawing's own, so that a file for drafting has the strip as large as the figures.
    one_to = max(view.one_to for view in drawing.views)
    strip = View(name="title", one_to=one_to, items=_strip(drawing, takeoff, one_to / MM_PER_IN))
    return replace(drawing, height_mm=drawing.height_mm + STRIP_MM, views=(*raised, strip))


def _strip(drawing: Drawing, takeoff: Takeoff, k: float) -> tuple[Item, ...]:
    book, wide = takeoff.settings.book, drawing.width_mm

    def at(x_mm: float, y_mm: float) -> Point:
        return (x_mm * k, y_mm * k)

    right = " · ".join(part for part in (book.company, f"rev. {book.revision}" if book.revision else "") if part)
    items: list[Item] = [
        Line(at(0.0, _LINE_MM), at(wide, _LINE_MM), EDGE),
        Text(at=at(0.0, _FIRST_MM), words=f"{takeoff.job} · {drawing.title}", height_mm=_TITLE_MM, bold=True),
        Text(at=at(0.0, _SECOND_MM), words=DRAWING_CAUTION, height_mm=_WORDS_MM),
    ]
    if right:
        items.append(Text(at=at(wide, _FIRST_MM), words=right, height_mm=_TITLE_MM, anchor="end"))
    return tuple(items)
