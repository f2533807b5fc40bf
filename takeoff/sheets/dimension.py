"""A dimension taken apart into the lines and letters it is drawn with, the same for every kind of file.

        figure
    /-----------/      dimension line with slanting ticks, ``offset_mm`` off what is measured
    |   label   |      extension lines
    a           b
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees, hypot

from takeoff.measure import format_length
from takeoff.sheets.drawing import DIMENSIONS, LAYOUT, MM_PER_IN, Anchor, Dimension, Level, Line, Point, Text
from takeoff.sheets.lettering import DROP_SHARE, text_box, width_mm

FIGURE_MM = 2.8
"""Height of a dimension's figure on paper [mm]."""

LABEL_MM = 2.0
"""Height of what a dimension is called [mm]."""

_CLEAR_MM = 1.0  # between lettering and its line
_GAP_MM = 1.0  # between a point and its extension line
_PAST_MM = 1.2  # extension line past the dimension line
_TICK_MM = 0.9  # half a tick, along and up
_ROW_SHARE = 0.2  # how far along the line a row stands: low, so that rows of a chain keep out of what is over it
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
            lines=(Line(self.foot, self.head, DIMENSIONS), *self.extensions(), self.tick(self.foot), self.tick(self.head)),
            figure=texts[0],
            label=texts[1] if self.dimension.label else None,
        )

    def extensions(self) -> tuple[Line, ...]:
        reach = abs(self.dimension.offset_mm)
        if reach <= _GAP_MM:
            return ()
        return tuple(
            Line(self.moved(point, self.outward, _GAP_MM), self.moved(point, self.outward, reach + _PAST_MM), DIMENSIONS)
            for point in (self.dimension.a, self.dimension.b)
        )

    def tick(self, at: Point) -> Line:
        slant = (self.way[0] + self.left[0], self.way[1] + self.left[1])
        return Line(self.moved(at, slant, -_TICK_MM), self.moved(at, slant, _TICK_MM), LAYOUT)

    def along(self) -> tuple[Text, Text]:
        """Figure over the line, label under it; both outside where the figure is wider than the line is long."""
        reading = self.way if (self.way[0], self.way[1]) > (-1e-9, 0) else (-self.way[0], -self.way[1])
        up = (-reading[1], reading[0])
        turned = degrees(atan2(reading[1], reading[0]))
        anchor: Anchor = "middle"
        at = self.middle
        if self.needed_mm() > self.length / self.k - 2 * _CLEAR_MM:
            at, out = (self.foot, -1.0) if self.dimension.outside_at_a else (self.head, 1.0)
            at = self.moved(at, self.way, 2 * out)
            anchor = "start" if out * (self.way[0] * reading[0] + self.way[1] * reading[1]) > 0 else "end"
        over, under = self.moved(at, up, _CLEAR_MM), self.moved(at, up, -_CLEAR_MM)
        return (
            Text(at=over, words=self.words, height_mm=FIGURE_MM, anchor=anchor, level="base", turned_deg=turned),
            Text(at=under, words=self.dimension.label, height_mm=LABEL_MM, anchor=anchor, level="top", turned_deg=turned),
        )

    def needed_mm(self) -> float:
        return max(width_mm(self.words, FIGURE_MM), width_mm(self.dimension.label, LABEL_MM))

    def beside(self) -> tuple[Text, Text]:
        """Level lettering off the middle of the line, on the side away from what is measured."""
        return self.block(self.middle, self.outward, 1.5 * _CLEAR_MM)

    def row(self) -> tuple[Text, Text]:
        """Figure and label on one line, to the left or right of the dimension line near its start."""
        (x0, y0), (x1, y1) = self.foot, self.head
        near = (x0 + _ROW_SHARE * (x1 - x0), y0 + _ROW_SHARE * (y1 - y0))
        at = self.moved(near, self.outward, 1.5 * _CLEAR_MM + FIGURE_MM / 2 * abs(self.outward[1]))
        before = width_mm(self.words if self.outward[0] < 0 else self.dimension.label, FIGURE_MM) + 2 * _CLEAR_MM
        next_to = self.moved(at, (-1.0 if self.outward[0] < 0 else 1.0, 0.0), before)
        figure_at, label_at = (at, next_to) if self.outward[0] < 0 else (next_to, at)
        anchor: Anchor = "end" if self.outward[0] < 0 else "start"
        return (
            Text(at=figure_at, words=self.words, height_mm=FIGURE_MM, anchor=anchor, level="middle"),
            Text(at=label_at, words=self.dimension.label, height_mm=LABEL_MM, anchor=anchor, level="middle"),
        )

    def after(self) -> tuple[Text, Text]:
        """Level lettering past the end of the line."""
        return self.block(self.head, self.way, 2.5 * _CLEAR_MM)

    def block(self, near: Point, push: Point, clear_mm: float) -> tuple[Text, Text]:
        """Figure over label, level, pushed off ``near`` until its box stands clear."""
        high = FIGURE_MM + (_CLEAR_MM + LABEL_MM if self.dimension.label else 0.0)
        sideways = abs(push[0]) > _LEVEL_ENOUGH
        anchor: Anchor = "middle" if not sideways else "start" if push[0] > 0 else "end"
        at = self.moved(near, push, clear_mm + (high / 2) * abs(push[1]))
        top = self.moved(at, (0.0, 1.0), high / 2)
        level: Level = "top"
        label_at = self.moved(top, (0.0, -1.0), FIGURE_MM + _CLEAR_MM)
        return (
            Text(at=top, words=self.words, height_mm=FIGURE_MM, anchor=anchor, level=level),
            Text(at=label_at, words=self.dimension.label, height_mm=LABEL_MM, anchor=anchor, level=level),
        )
