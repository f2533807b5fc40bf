"""A dimension taken apart into the lines and letters it is drawn with, the same for every kind of file.

        figure
    /-----------/      dimension line with slanting ticks, ``offset_mm`` off what is measured
    |   label   |      extension lines
    a           b

All of it is in inches of the view, so that a writer only has to draw it.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees, hypot

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.sheets.drawing import (
    DIMENSIONS,
    FIGURE_MM,
    LABEL_MM,
    LAYOUT,
    MM_PER_IN,
    Anchor,
    Dimension,
    Level,
    Line,
    Point,
    Text,
)
from takeoff.sheets.lettering import DROP_SHARE, text_box, width_mm

_SPACES_MM = (1.0, 1.0, 1.2, 0.9)
"""From lettering to its line; from a point to its extension line; how far that runs past the dimension line; half a
tick, along and up."""
_ROW_SHARE = 0.18  # how far along the line a row stands: low, so that rows of a chain keep out of what is over it
_LEVEL_ENOUGH = 0.3  # a push this much sideways sets lettering beside, not above or below


@dataclass(frozen=True, slots=True, kw_only=True)
class DimensionParts:
    """What a dimension is drawn with, in the axes of its view [in]."""

    foot: Point
    """Where the dimension line starts, over ``a``."""
    head: Point
    """Where it ends, over ``b``."""
    lines: tuple[Line, ...]
    figure: Text
    label: Text | None

    @property
    def texts(self) -> tuple[Text, ...]:
        """Figure and label."""
        return (self.figure,) if self.label is None else (self.figure, self.label)

    def figure_middle(self, one_to: float) -> Point:
        """Middle of the figure, for writers that place lettering by it [in]."""
        (x0, y0), _, (x1, y1), (x3, y3) = text_box(self.figure, one_to)
        drop = DROP_SHARE / (1 + DROP_SHARE)  # of the box's height, from its foot to the line of the letters
        x0, y0 = x0 + (x3 - x0) * drop, y0 + (y3 - y0) * drop
        return ((x0 + x1) / 2, (y0 + y1) / 2)


def dimension_parts(dimension: Dimension, one_to: float) -> DimensionParts:
    """Lines and lettering of a dimension in a view of that scale.

    Raises:
        ValueError: its two points are one.
    """
    return _Drafter(dimension, one_to).parts()


class _Drafter:
    """Works in inches of the view; ``k`` is inches to a millimetre of paper."""

    def __init__(self, dimension: Dimension, one_to: float) -> None:
        self.dimension = dimension
        self.k = one_to / MM_PER_IN
        size = dimension.enlarged
        self.figure_mm, self.label_mm = FIGURE_MM * size, LABEL_MM * size
        self.clear_mm, self.gap_mm, self.past_mm, self.tick_mm = (mm * size for mm in _SPACES_MM)
        (ax, ay), (bx, by) = dimension.a, dimension.b
        self.length = hypot(bx - ax, by - ay)
        if not self.length:
            raise ValueError("a dimension between a point and itself")
        self.way = ((bx - ax) / self.length, (by - ay) / self.length)
        self.left = (-self.way[1], self.way[0])
        side = 1.0 if dimension.offset_mm >= 0 else -1.0
        self.outward = (self.left[0] * side, self.left[1] * side)
        self.foot = self.moved(dimension.a, self.left, dimension.offset_mm)
        self.head = self.moved(dimension.b, self.left, dimension.offset_mm)
        self.middle = ((self.foot[0] + self.head[0]) / 2, (self.foot[1] + self.head[1]) / 2)
        self.words = format_length(self.length, denominator=dimension.denominator)

    def moved(self, point: Point, direction: Point, mm: float) -> Point:
        return (point[0] + direction[0] * mm * self.k, point[1] + direction[1] * mm * self.k)

    def parts(self) -> DimensionParts:
        letter = {"along": self.along, "beside": self.beside, "row": self.row, "after": self.after}
        texts = letter[self.dimension.lettering]()
        return DimensionParts(
            foot=self.foot,
            head=self.head,
            lines=(Line(self.foot, self.head, DIMENSIONS), *self.extensions(), *map(self.tick, (self.foot, self.head))),
            figure=texts[0],
            label=texts[1] if self.dimension.label else None,
        )

    def extensions(self) -> tuple[Line, ...]:
        reach = abs(self.dimension.offset_mm)
        if reach <= self.gap_mm:
            return ()
        ends = (self.dimension.a, self.dimension.b)
        near, far = ([self.moved(end, self.outward, mm) for end in ends] for mm in (self.gap_mm, reach + self.past_mm))
        return tuple(Line(start, stop, DIMENSIONS) for start, stop in zip(near, far, strict=True))

    def tick(self, at: Point) -> Line:
        slant = (self.way[0] + self.left[0], self.way[1] + self.left[1])
        return Line(self.moved(at, slant, -self.tick_mm), self.moved(at, slant, self.tick_mm), LAYOUT)

    def along(self) -> tuple[Text, Text]:
        """Figure over the line, label under it; both outside where the figure is wider than the line is long."""
        upright = abs(self.way[0]) < TOLERANCE.length
        reading = self.way if (self.way[1] if upright else self.way[0]) > 0 else (-self.way[0], -self.way[1])
        up = (-reading[1], reading[0])
        turned = degrees(atan2(reading[1], reading[0]))
        anchor: Anchor = "middle"
        at = self.middle
        if self.needed_mm() > self.length / self.k - 2 * self.clear_mm:
            at, out = (self.foot, -1.0) if self.dimension.outside_at_a else (self.head, 1.0)
            at = self.moved(at, self.way, 2 * self.clear_mm * out)
            anchor = "start" if out * (self.way[0] * reading[0] + self.way[1] * reading[1]) > 0 else "end"
        label = self.dimension.label
        over, under = self.moved(at, up, self.clear_mm), self.moved(at, up, -self.clear_mm)
        return (
            Text(at=over, words=self.words, height_mm=self.figure_mm, anchor=anchor, turned_deg=turned),
            Text(at=under, words=label, height_mm=self.label_mm, anchor=anchor, level="top", turned_deg=turned),
        )

    def needed_mm(self) -> float:
        return max(width_mm(self.words, self.figure_mm), width_mm(self.dimension.label, self.label_mm))

    def beside(self) -> tuple[Text, Text]:
        """Level lettering off the middle of the line, on the side away from what is measured."""
        return self.block(self.middle, self.outward, 1.5 * self.clear_mm)

    def row(self) -> tuple[Text, Text]:
        """Figure and label on one line, to the left or right of the dimension line near its start."""
        (x0, y0), (x1, y1) = self.foot, self.head
        near = (x0 + _ROW_SHARE * (x1 - x0), y0 + _ROW_SHARE * (y1 - y0))
        at = self.moved(near, self.outward, 1.5 * self.clear_mm + self.figure_mm / 2 * abs(self.outward[1]))
        first = self.words if self.outward[0] < 0 else self.dimension.label
        before = width_mm(first, self.figure_mm) + 2 * self.clear_mm
        next_to = self.moved(at, (-1.0 if self.outward[0] < 0 else 1.0, 0.0), before)
        figure_at, label_at = (at, next_to) if self.outward[0] < 0 else (next_to, at)
        anchor: Anchor = "end" if self.outward[0] < 0 else "start"
        return (
            Text(at=figure_at, words=self.words, height_mm=self.figure_mm, anchor=anchor, level="middle"),
            Text(at=label_at, words=self.dimension.label, height_mm=self.label_mm, anchor=anchor, level="middle"),
        )

    def after(self) -> tuple[Text, Text]:
        """Level lettering past the end of the line."""
        return self.block(self.head, self.way, 2.5 * self.clear_mm)

    def block(self, near: Point, push: Point, clear_mm: float) -> tuple[Text, Text]:
        """Figure over label, level, pushed off ``near`` until its box stands clear."""
        high = self.figure_mm + (self.clear_mm + self.label_mm if self.dimension.label else 0.0)
        sideways = abs(push[0]) > _LEVEL_ENOUGH
        anchor: Anchor = "middle" if not sideways else "start" if push[0] > 0 else "end"
        at = self.moved(near, push, clear_mm + (high / 2) * abs(push[1]))
        top = self.moved(at, (0.0, 1.0), high / 2)
        level: Level = "top"
        label_at = self.moved(top, (0.0, -1.0), self.figure_mm + self.clear_mm)
        return (
            Text(at=top, words=self.words, height_mm=self.figure_mm, anchor=anchor, level=level),
            Text(at=label_at, words=self.dimension.label, height_mm=self.label_mm, anchor=anchor, level=level),
        )
