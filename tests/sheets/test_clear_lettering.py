"""Lettering of every drawing of every sample plan: on the paper, and over no other lettering and no line."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import combinations

import pytest
from shapely import LineString, Polygon, STRtree, box
from shop import SAMPLES

from takeoff.model.takeoff import Takeoff
from takeoff.pipeline import take_off
from takeoff.sheets.drawing import Drawing, Point, View
from takeoff.sheets.extent import lines_of, texts_of
from takeoff.sheets.lettering import text_box
from takeoff.sheets.sheet_drawings import sheet_drawings
from takeoff.sheets.title_block import titled

PLANS = pytest.mark.parametrize("plan", sorted(path.name for path in SAMPLES.glob("*.yaml")))
HAIR_MM = 0.1
"""Boxes are those of ascenders and descenders: what comes a hair into one touches no letter."""


@cache
def drawings(plan: str) -> tuple[Drawing, ...]:
    takeoff: Takeoff = take_off(SAMPLES / plan)
    return tuple(titled(drawing, takeoff) for drawing in sheet_drawings(takeoff).all())


def on_paper(view: View, points: tuple[Point, ...]) -> list[Point]:
    return [view.to_paper(point) for point in points]


def letterings(drawing: Drawing) -> Iterator[tuple[str, Polygon]]:
    for view in drawing.views:
        for text in texts_of(view.items, view.one_to):
            if text.words:
                yield text.words, Polygon(on_paper(view, text_box(text, view.one_to)))


def lines(drawing: Drawing) -> Iterator[LineString]:
    for view in drawing.views:
        yield from (LineString(on_paper(view, line)) for line in lines_of(view.items, view.one_to))


@PLANS
def test_no_two_texts_overlap(plan: str) -> None:
    for drawing in drawings(plan):
        boxes = [(words, shape.buffer(-HAIR_MM)) for words, shape in letterings(drawing)]
        over = [(one, other) for (one, a), (other, b) in combinations(boxes, 2) if a.intersects(b)]
        assert over == [], drawing.name


@PLANS
def test_no_text_lies_over_a_line(plan: str) -> None:
    for drawing in drawings(plan):
        boxes = [(words, shape.buffer(-HAIR_MM)) for words, shape in letterings(drawing)]
        tree = STRtree([shape for _, shape in boxes])
        over = {boxes[k][0] for line in lines(drawing) for k in tree.query(line, predicate="intersects").tolist()}
        assert over == set(), drawing.name


@PLANS
def test_all_lettering_is_on_the_paper(plan: str) -> None:
    for drawing in drawings(plan):
        paper = box(0.0, 0.0, drawing.width_mm, drawing.height_mm).buffer(0.01)
        assert [words for words, shape in letterings(drawing) if not paper.contains(shape)] == [], drawing.name
