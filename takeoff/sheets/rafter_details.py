"""Enlarged ends and bird's mouth of a rafter, each cut out of the stick between two break lines."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, dist
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.sheets.cheek_lines import cheek_lines
from takeoff.sheets.drawing import (
    BREAK,
    DIMENSIONS,
    FIGURE_MM,
    GUIDE,
    HIDDEN,
    LABEL_MM,
    MM_PER_IN,
    OUTLINE,
    Arc,
    Dimension,
    Item,
    Lettering,
    Line,
    Point,
    Polyline,
    Text,
)
from takeoff.sheets.rafter_points import RafterPoints
from takeoff.sheets.rafter_words import PLATE, eave_overhang
from takeoff.sheets.second_mouth import SecondMouth, second_mouth
from takeoff.sheets.stick_end import SQUARE_DEG

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

    from takeoff.model.member import Member

_OFFSET_MM = 6.0
_LEAST_HEEL_IN = 1 / 4  # a heel shorter than this is told in the table alone
_LEAST_HEEL_MM = 4.5  # a heel shorter than this on paper has no height for its lettering
_HEEL_OFFSET_MM = 2.5
_PAST_OTHER_MM = 28.0  # clear of the lettering of the dimension inside
_PAST_STOCK_MM = 10.0  # clear of the corner of the stock that a notch takes off
_UPPER_LEFT_MM = 26.0  # of the stick on the left of a second bird's mouth
_ARC_SHARE = 0.72  # of the depth, so that the arc crosses the wedge where it is wide


class Detail:
    """Records details for one scale. ``k`` is inches of the stick to a millimetre of paper."""

    def __init__(self, member: Member, one_to: float, denominator: int, base: str = PLATE) -> None:
        assert member.rafter is not None
        self.member = member
        self.rafter = member.rafter
        self.points = RafterPoints(member.rafter)
        self.k = one_to / MM_PER_IN
        self.denominator = denominator
        self.base = base

    def tail(self) -> tuple[Item, ...]:
        """Tail cut: its angle, the depth of the tail, what is ripped off under it."""
        return tuple(self._tail())

    def mouth(self) -> tuple[Item, ...]:
        """Bird's mouth: seat, heel on the stock, heel as cut, height above plate."""
        return tuple(self._mouth())

    def upper_mouth(self) -> tuple[Item, ...]:
        """Second bird's mouth: seat, heel, height of the top edge over what carries it there.

        Raises:
            ValueError: it has none.
        """
        second = second_mouth(self.rafter)
        if second is None:
            raise ValueError(f"{self.member.mark} has no second bird's mouth")
        return tuple(self._upper_mouth(second))

    def notch(self) -> tuple[Item, ...]:
        """Level notch of a foot that reaches over the plate: its length and its height, on the longer face."""
        return tuple(self._notch())

    def ridge(self) -> tuple[Item, ...]:
        """Upper cut: its angle, its length, how far it is out of square."""
        return tuple(self._ridge())

    def _tail(self) -> Iterator[Item]:
        top, foot, drop = self.points.tail_top, self.points.tail_foot, self.rafter.tail_level_drop
        x0, _, _, _ = self.member.side.bounds
        x1 = 15 * self.k
        soffit = self.points.level_cut_length > TOLERANCE.mark
        if self.rafter.seat and not soffit:
            drop = None
        if soffit:
            x1 = max(x1, self.points.level_cut_inner[0] + 6 * self.k)
        yield from piece(self.member.side, x0 - 1.0, x1, self.k)
        yield from cheek_lines(self.member, x0, x1)
        lower_deg = self.points.lower_cut_deg
        yield from self._angle(top, top[1] - foot[1] if drop is None else drop * cos(self.rafter.angle), lower_deg)
        yield Text(at=(top[0], top[1] + 2 * self.k), words=_cut_figure(lower_deg), height_mm=FIGURE_MM, bold=True)
        if drop is not None:
            yield self._beside(self.points.level_cut, top, _OFFSET_MM, "plumb part", right=False)
        if soffit:
            words = f"level cut {self.rafter.seat_deg:.1f}°"
            yield self._dimension(self.points.level_cut, self.points.level_cut_inner, -_OFFSET_MM, words, "after")
        out = _OFFSET_MM if drop is None else _PAST_OTHER_MM
        if self.points.ripped:
            yield Line((x0, 0.0), (x1, 0.0), HIDDEN)
            yield self._beside((x0, 0.0), (x0, foot[1]), out, "rip off", right=False)
        if eave_overhang(self.rafter):
            yield self._beside((x0, foot[1]), (x0, top[1]), out, "tail depth", right=False)

    def _mouth(self) -> Iterator[Item]:
        points = self.points
        x1 = max(points.heel_top[0] + 10 * self.k, (points.heel_top[0] + points.corner[0]) / 2 + 33 * self.k)
        x0 = points.heel_low[0] - 32 * self.k
        yield from piece(self.member.side, x0, x1, self.k)
        yield Line((max(x0, points.tail_foot[0]), 0.0), (points.seat_inner[0], 0.0), HIDDEN)
        yield Line(points.heel_low, points.heel_top, GUIDE)
        yield self._beside(points.corner, points.heel_top, _OFFSET_MM, self._above_words(), right=True)
        seat = f"seat, level cut {self.rafter.seat_deg:.1f}°"
        yield self._dimension(points.corner, points.seat_inner, -_OFFSET_MM, seat, "after")
        yield from self._heels()

    def _notch(self) -> Iterator[Item]:
        rafter, inner = self.rafter, self.points.seat_inner
        corner = self.points.at(rafter.start, 0.0)
        stock = self.points.at(rafter.start, rafter.underside_at(rafter.start))
        x0, x1 = self.member.side.bounds[0], max(inner[0], 0.0) + 14 * self.k
        yield from piece(self.member.side, x0 - 1.0, x1, self.k)
        yield from cheek_lines(self.member, x0, x1)
        yield Polyline((corner, stock, inner), HIDDEN)
        yield self._beside(stock, corner, _OFFSET_MM, "off stock", right=False)
        yield self._dimension(corner, inner, -_PAST_STOCK_MM, f"level, cut {rafter.seat_deg:.1f}°", "after")

    def _above_words(self) -> str:
        return f"above {self.base}" if self.rafter.upper_heel is None else "above low plate"

    def _upper_mouth(self, second: SecondMouth) -> Iterator[Item]:
        low, top, corner = second.heel_low, second.heel_top, second.corner
        x0 = low[0] - _UPPER_LEFT_MM * self.k
        x1 = max(top[0] + 10 * self.k, (top[0] + corner[0]) / 2 + 33 * self.k)
        yield from piece(self.member.side, x0, x1, self.k)
        yield Line(low, (self._stock_end(second), 0.0), HIDDEN)
        yield Line(low, top, GUIDE)
        # Near the end there is no room for lettering on the right.
        yield self._beside(corner, top, _OFFSET_MM, f"above {second.under}", right=not second.holds_the_end)
        if second.holds_the_end:
            yield from self._upper_angle()
        words = f"seat, level cut {self.rafter.seat_deg:.1f}°"
        yield self._dimension(corner, second.seat_inner, -_OFFSET_MM, words, "after")
        if dist(low, corner) > _LEAST_HEEL_MM * self.k:
            yield self._heel(low, corner, "heel")
        else:  # lettered under the stick, for want of height inside it
            yield self._dimension(corner, low, -_HEEL_OFFSET_MM, "heel", "after")

    def _stock_end(self, second: SecondMouth) -> float:
        """How far the bottom edge of the uncut stock runs under a second bird's mouth."""
        return self.points.ridge_foot[0] if second.at_end else second.seat_inner[0]

    def _heels(self) -> Iterator[Item]:
        """Heel to mark on the stock, and where the tail is ripped, the heel that is left to cut."""
        points = self.points
        over = self.rafter.tail_underside_at_heel
        if not points.ripped:
            yield self._heel(points.heel_low, points.corner, "heel")
            return
        if abs(over) < _LEAST_HEEL_IN:
            yield self._heel(points.heel_low, points.corner, "heel on stock")
            return
        yield self._heel(points.heel_low, points.corner, "heel on stock", past_other=over < 0)
        low, high = sorted((points.corner, points.tail_at_heel), key=lambda point: point[1])
        yield self._heel(low, high, "heel cut")

    def _heel(self, low: Point, high: Point, label: str, *, past_other: bool = False) -> Dimension:
        # Where the two heels lie side by side the outer one stands clear of the inner one's lettering.
        return self._dimension(low, high, _PAST_OTHER_MM if past_other else _HEEL_OFFSET_MM, label, "row")

    def _ridge(self) -> Iterator[Item]:
        top, foot = self.points.end_top, self.points.end_foot
        yield from piece(self.member.side, foot[0] - 9 * self.k, top[0] + 1.0, self.k)
        yield from cheek_lines(self.member, foot[0], top[0])
        yield from self._upper_angle()
        if not self.rafter.square_head:
            yield self._dimension(foot, (top[0], foot[1]), -_OFFSET_MM, "off square")

    def _upper_angle(self) -> Iterator[Item]:
        top = self.points.end_top
        upper_deg = self.points.upper_cut_deg
        yield from self._angle(top, self.rafter.depth, upper_deg)
        beside = (top[0] + 2.5 * self.k, self.rafter.depth * 0.5)
        yield Text(at=beside, words=_cut_figure(upper_deg), height_mm=FIGURE_MM, bold=True)
        if not self.rafter.square_head:
            words = "on the main roof" if self.rafter.laid_head else "plumb cut"
            yield Text(at=(beside[0], beside[1] - self.k), words=words, height_mm=LABEL_MM, level="top")

    def _angle(self, top: Point, depth: float, cut_deg: float) -> Iterator[Item]:
        """Square line and the arc from a cut to it; nothing where the cut is square."""
        if abs(cut_deg) < SQUARE_DEG:
            return
        yield Line(top, (top[0], top[1] - depth - 2 * self.k), GUIDE)
        yield Arc(top, depth * _ARC_SHARE, 270 - cut_deg, 270, DIMENSIONS)

    def _beside(self, low: Point, high: Point, offset_mm: float, label: str, *, right: bool) -> Dimension:
        """Upright dimension, lettered level on its left or its right."""
        a, b = (high, low) if right else (low, high)  # measured downward, the reader's right is the line's left
        return self._dimension(a, b, offset_mm, label, "beside")

    def _dimension(self, a: Point, b: Point, offset_mm: float, label: str, lettering: Lettering = "along") -> Dimension:
        return Dimension(
            a=a,
            b=b,
            offset_mm=offset_mm,
            label=label,
            lettering=lettering,
            outside_at_a=True,
            denominator=self.denominator,
        )


def _cut_figure(cut_deg: float) -> str:
    """A cut as it is turned off square, or that it is square."""
    return "square" if abs(cut_deg) < SQUARE_DEG else f"{cut_deg:.1f}°"


def piece(side: Polygon, x0: float, x1: float, k: float) -> Iterator[Item]:
    """The outline between ``x0`` and ``x1``, with break lines where it runs on.

    Args:
        side: outline of the stick [in].
        x0: where the piece starts [in].
        x1: where it ends [in].
        k: inches to a millimetre of paper.
    """
    from shapely import LineString, box

    y0, y1 = side.bounds[1] - 1.0, side.bounds[3] + 1.0
    inside = side.exterior.intersection(box(x0, y0, x1, y1))
    yield from (Polyline(points, OUTLINE) for points in _runs(inside))
    for x in (x0, x1):
        for points in _runs(side.intersection(LineString([(x, y0), (x, y1)]))):
            yield _break_line(points[0], points[-1], k)


def _runs(lines: BaseGeometry) -> tuple[tuple[Point, ...], ...]:
    """Unbroken runs of a set of lines, in a fixed order."""
    from shapely import get_parts, line_merge

    merged = line_merge(lines) if lines.geom_type == "MultiLineString" else lines
    runs = [tuple((float(x), float(y)) for x, y in part.coords) for part in get_parts(merged) if part.length]
    return tuple(sorted(min(run, run[::-1]) for run in runs))


def _break_line(a: Point, b: Point, k: float) -> Polyline:
    """Line across the stick with one zigzag, run a little past its edges."""
    (x, y0), (_, y1) = sorted((a, b), key=lambda point: point[1])
    middle, past = (y0 + y1) / 2, 1.5 * k
    zigzag = ((x, middle - k), (x - 1.2 * k, middle - 0.4 * k), (x + 1.2 * k, middle + 0.4 * k), (x, middle + k))
    return Polyline(((x, y0 - past), *zigzag, (x, y1 + past)), BREAK)
