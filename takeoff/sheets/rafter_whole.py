"""A rafter from end to end, lying level as it lies on the horses: what is measured along it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos
from typing import TYPE_CHECKING

from takeoff.geometry.polygon import cleaned, corners
from takeoff.measure import format_length
from takeoff.sheets.cheek_lines import cheek_lines
from takeoff.sheets.drawing import (
    GUIDE,
    HIDDEN,
    LAYOUT,
    MM_PER_IN,
    OUTLINE,
    WASTE,
    Dimension,
    Hatch,
    Item,
    Line,
    Point,
    Polyline,
    Text,
)
from takeoff.sheets.lettering import width_mm
from takeoff.sheets.rafter_points import RafterPoints
from takeoff.sheets.rafter_words import PLATE, eave_overhang, start_words
from takeoff.sheets.second_mouth import second_mouth
from takeoff.sheets.spread import spread
from takeoff.sheets.stick_end import has_cheeks

if TYPE_CHECKING:
    from takeoff.model.member import Member
    from takeoff.sheets.rafter_tops import Top

STEP_RUN_IN = 12.0
"""Level run of one step of the square, along a rafter that runs square to its eave [in]."""

_CROWN = "crown up"
_RUNNING_MM = 2.3
_RUNNING_PITCH_MM = 3.4
_CHAIN_MM = 7.0
_NEXT_CHAIN_MM = 9.6


@dataclass(frozen=True, slots=True, kw_only=True)
class WholeWords:
    """What a whole stick is lettered with."""

    top: Top
    """Words for its upper end."""
    base: str = PLATE
    """What it is seated on."""
    step_in: float = STEP_RUN_IN
    """Level length of one step of the square along it [in]."""


class WholeRafter:
    """Records the whole stick for one scale. ``k`` is inches of the stick to a millimetre of paper."""

    def __init__(self, member: Member, one_to: float, denominator: int, words: WholeWords) -> None:
        assert member.rafter is not None
        self.member = member
        self.rafter = member.rafter
        self.points = RafterPoints(member.rafter)
        self.k = one_to / MM_PER_IN
        self.denominator = denominator
        self.top = words.top
        self.base = words.base
        self.step_in = words.step_in
        self.second = second_mouth(member.rafter)
        self.x0, _, self.x1, _ = member.side.bounds

    def items(self) -> Iterator[Item]:
        """All of it, its outline last, so that it lies over what falls away."""
        yield from self.waste()
        yield from self.layout_ticks()
        yield from self.running_dimensions()
        yield from self.chain_above()
        yield from self.chain_below()
        yield from self.lettering()
        yield from cheek_lines(self.member, self.x0, self.x1)
        yield Polyline(corners(self.member.side), OUTLINE, closed=True, mark=self.member.mark)

    def waste(self) -> Iterator[Item]:
        """What is cut away of the stock, between its ends."""
        from shapely import box

        stock = box(self.x0, 0.0, self.x1, self.rafter.depth)
        yield Line((self.x0, 0.0), (self.x1, 0.0), HIDDEN)
        for part in cleaned(stock.difference(self.member.side)):
            yield Hatch(corners(part), WASTE)

    def layout_ticks(self) -> Iterator[Item]:
        """Heel plumb lines, and each step of the square from it up the top edge."""
        if self.rafter.stands_on_plate:
            yield Line(self.points.heel_low, self.points.heel_top, GUIDE)
        if self.second:
            yield Line(self.second.heel_low, self.second.heel_top, GUIDE)
        along = self.step_in / cos(self.rafter.angle)
        x, y = self.points.line_start
        for _ in range(int((self.points.ridge_top[0] - x) / along)):
            x += along
            if any(abs(x - pocket.centre) < pocket.width / 2 for pocket in self.rafter.pockets):
                continue  # the mark would be cut away
            yield Line((x, y), (x, y - 1.6 * self.k), LAYOUT)

    def running_dimensions(self) -> Iterator[Item]:
        """Along the top edge from the tail cut: to both edges of each pocket, heel plumb lines, upper cut."""
        if not self.rafter.pockets:
            return
        y, stations = self.rafter.depth, self.stations()
        apart = spread([x for x, _ in stations], _RUNNING_PITCH_MM * self.k)
        for (x, words), away in zip(stations, apart, strict=True):
            up = [y + mm * self.k for mm in (1, 2, 4, 5)]
            yield Polyline(((x, up[0]), (x, up[1]), (away, up[2]), (away, up[3])), LAYOUT)
            at = (away, y + 5.5 * self.k)
            yield Text(at=at, words=words, height_mm=_RUNNING_MM, level="middle", turned_deg=90.0)

    def stations(self) -> list[tuple[float, str]]:
        """Where the running dimensions are read, in order, each with its words."""
        edges = [(p.centre + side * p.width / 2, "") for p in self.rafter.pockets for side in (-1, 1)]
        ends = [(0.0, ""), (self.points.heel_top[0], "heel"), (self.rafter.top_edge, "")]
        if self.second:
            edges.append((self.second.heel_top[0], f"{self.second.name} heel"))
        return [
            (x, f"{format_length(x, denominator=self.denominator)} {words}".strip())
            for x, words in sorted([*edges, *(ends if self.rafter.stands_on_plate else ends[::2])])
        ]

    def running_room_mm(self) -> float:
        """Height of the running dimensions over the top edge [mm]."""
        if not self.rafter.pockets:
            return 0.0
        return 6.5 + max(width_mm(words, _RUNNING_MM) for _, words in self.stations())

    def chain_above(self) -> Iterator[Item]:
        """Tail and line length, parted at the heel plumb line; over them the top edge.

        With a second bird's mouth the line length stands over its two parts, and the top edge is told in the table.
        """
        y = self.rafter.depth + self.running_room_mm() * self.k
        tops = (self.points.tail_top, self.points.line_start, self.points.ridge_top)
        tail, heel, ridge = ((x, y) for x, _ in tops)
        if self.second:
            middle = (self.second.heel_top[0], y)
            yield self.dimension(heel, middle, _CHAIN_MM, f"to {self.second.name} heel plumb line")
            yield self.dimension(middle, ridge, _CHAIN_MM, f"to {self.top.cut}")
        if eave_overhang(self.rafter):
            yield self.dimension(tail, heel, _CHAIN_MM, "tail", outside_at_a=True)
            # With pockets it is the last of the running dimensions; with cheeks each face has its own.
            if not (self.second or self.rafter.pockets or has_cheeks(self.member)):
                yield self.dimension(tail, ridge, _CHAIN_MM + _NEXT_CHAIN_MM, "top edge")
        start = start_words(self.rafter, self.base)
        high = _CHAIN_MM + (_NEXT_CHAIN_MM if self.second else 0.0)
        yield self.dimension(heel, ridge, high, f"line length, {start} to {self.top.cut}")

    def chain_below(self) -> Iterator[Item]:
        """Rip of the tail, and the length over the long points."""
        low = -_CHAIN_MM
        if self.points.ripped:
            foot, end = self.points.tail_foot, self.points.tail_at_heel
            yield self.dimension((self.x0, 0.0), (end[0] - foot[0] + self.x0, 0.0), low, "rip")
            low -= _NEXT_CHAIN_MM
        yield self.dimension((self.x0, 0.0), (self.x1, 0.0), low, "length, long point to long point")

    def dimension(self, a: Point, b: Point, offset_mm: float, label: str, *, outside_at_a: bool = False) -> Dimension:
        """A dimension along the stick."""
        return Dimension(
            a=a, b=b, offset_mm=offset_mm, label=label, outside_at_a=outside_at_a, denominator=self.denominator
        )

    def lettering(self) -> Iterator[Item]:
        """The mark and the crown arrow, inside the stick and under its pockets; its words where there is room."""
        depth_mm = self.rafter.depth / self.k
        height = min(3.0, 0.45 * depth_mm)
        x, y = (self.points.line_start[0] + self.points.ridge_foot[0]) / 2, 0.42 * self.rafter.depth
        half, head = height / 2 * self.k, 0.45 * height * self.k
        yield Line((x, y - half), (x, y + half), LAYOUT)
        yield Polyline(((x - head / 2, y + half - head), (x, y + half), (x + head / 2, y + half - head)), LAYOUT)
        if self.points.ridge_foot[0] - x > (2 + width_mm(_CROWN, 0.8 * height)) * self.k:
            yield Text(at=(x + 2 * self.k, y), words=_CROWN, height_mm=0.8 * height, level="middle")
        mark_at = (x - 4 * self.k, y)
        yield Text(at=mark_at, words=self.member.mark, height_mm=height, anchor="end", level="middle", bold=True)
