"""How much paper a list of items covers, lettering included, and where its texts stand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from math import cos, radians, sin

from takeoff.sheets.dimension import dimension_parts
from takeoff.sheets.drawing import Arc, Dimension, Hatch, Item, Line, Point, Polyline, Text
from takeoff.sheets.lettering import text_box

Box = tuple[float, float, float, float]


def texts_of(items: Iterable[Item], one_to: float) -> Iterator[Text]:
    """All lettering, that of dimensions included."""
    for item in items:
        if isinstance(item, Text):
            yield item
        elif isinstance(item, Dimension):
            yield from dimension_parts(item, one_to).texts


def lines_of(items: Iterable[Item], one_to: float) -> Iterator[tuple[Point, Point]]:
    """All straight lines, each from end to end, those of dimensions included."""
    for item in items:
        match item:
            case Line(a, b, _):
                yield a, b
            case Polyline():
                yield from pairwise((*item.points, item.points[0]) if item.closed else item.points)
            case Dimension():
                yield from ((line.a, line.b) for line in dimension_parts(item, one_to).lines)


def extent(items: Iterable[Item], one_to: float) -> Box:
    """Least x and y, greatest x and y of what is drawn, in the axes of its view [in]."""
    points = [point for item in items for point in _points(item, one_to)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _points(item: Item, one_to: float) -> Iterator[Point]:
    match item:
        case Line(a, b, _):
            yield from (a, b)
        case Polyline() | Hatch():
            yield from item.points
        case Arc((x, y), radius, start, end):
            turns = (radians(start + (end - start) * step / 8) for step in range(9))
            yield from ((x + radius * cos(turn), y + radius * sin(turn)) for turn in turns)
        case Text():
            yield from text_box(item, one_to)
        case Dimension():
            parts = dimension_parts(item, one_to)
            drawn: tuple[Item, ...] = (*parts.lines, *parts.texts)
            yield from (point for part in drawn for point in _points(part, one_to))
