"""Whether a drawing's lettering is legible: on the paper, and over no other lettering and no line."""

from __future__ import annotations

from collections.abc import Iterator

from shapely import LineString, Polygon, STRtree, box

from takeoff.sheets.drawing import Drawing, View
from takeoff.sheets.extent import lines_of, texts_of
from takeoff.sheets.free_space import Point
from takeoff.sheets.lettering import text_box

HAIR_MM = 0.1
"""Boxes are those of ascenders and descenders: what comes a hair into one touches no letter."""


def illegible(drawing: Drawing) -> list[tuple[str, str]]:
    """Lettering that runs over other lettering, over a line or off the paper, each with what it runs over."""
    boxes = list(_letterings(drawing))
    shapes = [shape.buffer(-HAIR_MM) for _, shape in boxes]
    tree = STRtree(shapes)
    found = []
    for one, other in tree.query(shapes, predicate="intersects").T.tolist():
        if one < other:
            found.append((boxes[one][0], boxes[other][0]))
    _, over = tree.query(list(_lines(drawing)), predicate="intersects")
    found += [(boxes[k][0], "a line") for k in sorted(set(over.tolist()))]
    paper = box(0.0, 0.0, drawing.width_mm, drawing.height_mm).buffer(0.01)
    return found + [(words, "the edge of the paper") for words, shape in boxes if not paper.contains(shape)]


def _letterings(drawing: Drawing) -> Iterator[tuple[str, Polygon]]:
    for view in drawing.views:
        for text in texts_of(view.items, view.one_to):
            if text.words:
                yield text.words, Polygon(_on_paper(view, text_box(text, view.one_to)))


def _lines(drawing: Drawing) -> Iterator[LineString]:
    for view in drawing.views:
        yield from (LineString(_on_paper(view, line)) for line in lines_of(view.items, view.one_to))


def _on_paper(view: View, points: tuple[Point, ...]) -> list[Point]:
    return [view.to_paper(point) for point in points]
