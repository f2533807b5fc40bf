"""The full-size pattern of a rafter: its outline at 1:1, to be plotted or cut, with what proves the plot true."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.geometry.polygon import corners
from takeoff.measure import Pitch, format_length
from takeoff.sheets.cheek_lines import cheek_lines
from takeoff.sheets.drawing import (
    GUIDE,
    LAYOUT,
    MM_PER_IN,
    OUTLINE,
    Dimension,
    Drawing,
    Item,
    Line,
    Polyline,
    Text,
    View,
)
from takeoff.sheets.extent import extent
from takeoff.sheets.rafter_points import RafterPoints
from takeoff.sheets.second_mouth import second_mouth

if TYPE_CHECKING:
    from takeoff.model.member import Member

CHECK_IN = 12.0
"""Side of the square drawn beside the pattern, to be measured on the plot [in]."""

_LETTER_MM = 12.0
_SMALL_MM = 8.0
_LINE_MM = 16.0
_ENLARGED = 3.0
_MARGIN_MM = 25.0


def rafter_pattern(member: Member, *, denominator: int = 16) -> Drawing:
    """Pattern of a rafter at full size: outline, heel plumb line, crown arrow, notes, and a square to check it by.

    Args:
        member: a member with a ``rafter``.
        denominator: figures are shown to one over this of an inch.

    Raises:
        ValueError: the member is no rafter.
    """
    if member.rafter is None:
        raise ValueError(f"{member.name} is no rafter")
    items = tuple(_items(member, denominator))
    x0, y0, x1, y1 = (mm * MM_PER_IN for mm in extent(items, 1.0))
    origin = (_MARGIN_MM - x0, _MARGIN_MM - y0)
    return Drawing(
        name=f"pattern-{member.mark}",
        title=f"{member.mark}: full-size pattern of {member.role.words}, {member.profile.name} {member.grade}",
        description="Outline at full size; the square beside it must measure 12 inches both ways before it is used.",
        width_mm=x1 - x0 + 2 * _MARGIN_MM,
        height_mm=y1 - y0 + 2 * _MARGIN_MM,
        views=(View(name="pattern", one_to=1.0, items=items, origin_mm=origin),),
    )


def _items(member: Member, denominator: int) -> Iterator[Item]:
    rafter = member.rafter
    assert rafter is not None
    points = RafterPoints(rafter)
    x0, _, x1, _ = member.side.bounds
    yield Polyline(corners(member.side), OUTLINE, closed=True, mark=member.mark)
    if rafter.stands_on_plate:
        yield Line(points.corner, points.heel_top, GUIDE)
    if second := second_mouth(rafter):
        yield Line(second.corner, second.heel_top, GUIDE)
    yield from _arrow((x0 + x1) / 2, rafter.depth)
    yield from cheek_lines(member, x0, x1)
    yield from _notes(member, (points.line_start[0] + rafter.depth, rafter.depth * 0.62), denominator)
    yield Dimension(a=(x0, 0.0), b=(x1, 0.0), offset_mm=-_MARGIN_MM, denominator=denominator, enlarged=_ENLARGED)
    yield from _check_square(x0, -4.0 - CHECK_IN, denominator)


def _arrow(x: float, depth: float) -> Iterator[Item]:
    low, high = 0.25 * depth, 0.65 * depth
    yield Line((x, low), (x, high), LAYOUT)
    yield Polyline(((x - 0.5, high - 0.8), (x, high), (x + 0.5, high - 0.8)), LAYOUT)
    yield Text(at=(x + 1.0, (low + high) / 2), words="crown up", height_mm=_SMALL_MM, level="middle")


def _notes(member: Member, at: tuple[float, float], denominator: int) -> Iterator[Item]:
    rafter = member.rafter
    assert rafter is not None
    yield Text(at=at, words=f"{member.mark}  {member.role.words}", height_mm=_LETTER_MM, level="top", bold=True)
    lines = (
        f"{member.profile.name} {member.grade}, pitch {Pitch(12 * rafter.slope)}, plumb cut {rafter.plumb_deg:.1f}°",
        f"long point to long point {format_length(member.length_in, denominator=denominator)}",
    )
    for number, words in enumerate(lines, start=1):
        line_at = (at[0], at[1] - number * _LINE_MM / MM_PER_IN)
        yield Text(at=line_at, words=words, height_mm=_SMALL_MM, level="top")


def _check_square(x: float, y: float, denominator: int) -> Iterator[Item]:
    """A square of a foot, dimensioned both ways: a plot that shrank shows at once."""
    side = CHECK_IN
    yield Polyline(((x, y), (x + side, y), (x + side, y + side), (x, y + side)), LAYOUT, closed=True)
    for end, offset_mm in (((x + side, y), 20.0), ((x, y + side), -20.0)):
        yield Dimension(a=(x, y), b=end, offset_mm=offset_mm, denominator=denominator, enlarged=_ENLARGED)
    beside = (x + side + 1.0, y + side / 2)
    yield Text(at=beside, words="check: 12 inches both ways", height_mm=_SMALL_MM, level="middle")
