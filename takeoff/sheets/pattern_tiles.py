"""The full-size pattern of a rafter on sheets of letter paper, to be joined at their crosses.

+-----------+-----------+   the stick is cut into windows that meet at the crosses;
|  /:       |           |   lines run on a little past them, so that one sheet is laid
| /_:_____  |  nothing  |   over the next. Windows in which nothing is cut are left out:
+-----------+-----------+   there the edges run straight.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from takeoff.geometry.polygon import corners
from takeoff.measure import format_length
from takeoff.sheets.cheek_lines import cheek_lines
from takeoff.sheets.clipping import clipped_line, clipped_ring
from takeoff.sheets.drawing import DIMENSIONS, GUIDE, LAYOUT, MM_PER_IN, OUTLINE, Drawing, Item, Line, Point, Text, View
from takeoff.sheets.rafter_points import RafterPoints

if TYPE_CHECKING:
    from takeoff.model.member import Member

PAGE_MM = (263.4, 199.9)
"""A letter sheet on its side, less what printers leave white [mm]."""

WINDOW_IN = (9.5, 6.5)
"""What of the stick goes on one sheet, along and across [in]."""

RULER_IN = 6.0

_OVER_IN = 0.25
_CROSS_IN = 0.3
_EDGE_IN = 0.5  # white around the stick
_LEFT_MM, _LOW_MM = 11.0, 26.0
_WORDS_MM = 3.2


@dataclass(frozen=True, slots=True)
class _Window:
    """A part of the stick: its lower left corner [in], in the stick's axes."""

    x: float
    y: float

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """With what is drawn past the crosses."""
        wide, high = WINDOW_IN
        return self.x - _OVER_IN, self.y - _OVER_IN, self.x + wide + _OVER_IN, self.y + high + _OVER_IN

    def holds(self, point: Point) -> bool:
        """Whether a point is in it."""
        return self.x <= point[0] <= self.x + WINDOW_IN[0] and self.y <= point[1] <= self.y + WINDOW_IN[1]


def pattern_tiles(member: Member, *, denominator: int = 16) -> tuple[Drawing, ...]:
    """The sheets of a rafter's pattern, from its lower end up.

    Args:
        member: a member with a ``rafter``.
        denominator: figures are shown to one over this of an inch.

    Raises:
        ValueError: the member is no rafter.
    """
    if member.rafter is None:
        raise ValueError(f"{member.name} is no rafter")
    ring, lines = corners(member.side), tuple(_lines(member))
    spots = [*ring, *(point for line in lines for point in (line.a, line.b))]
    windows = [window for window in _windows(ring) if any(map(window.holds, spots))]
    return tuple(
        _tile(member, window, (number, len(windows)), ring, lines, denominator)
        for number, window in enumerate(windows, start=1)
    )


def _lines(member: Member) -> Iterator[Line]:
    """Lines to be marked on the stick besides its outline."""
    rafter = member.rafter
    assert rafter is not None
    points = RafterPoints(rafter)
    if rafter.stands_on_plate:
        yield Line(points.corner, points.heel_top, GUIDE)
    x0, _, x1, _ = member.side.bounds
    yield from (item for item in cheek_lines(member, x0, x1) if isinstance(item, Line))


def _windows(ring: Sequence[Point]) -> list[_Window]:
    """As many as the stick needs, column by column."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    x0, y0 = min(xs) - _EDGE_IN, min(ys) - _EDGE_IN
    columns, rows = (
        ceil((high - low + _EDGE_IN) / size)
        for low, high, size in ((x0, max(xs), WINDOW_IN[0]), (y0, max(ys), WINDOW_IN[1]))
    )
    return [_Window(x0 + c * WINDOW_IN[0], y0 + r * WINDOW_IN[1]) for c in range(columns) for r in range(rows)]


def _tile(
    member: Member,
    window: _Window,
    number: tuple[int, int],
    ring: Sequence[Point],
    lines: Sequence[Line],
    denominator: int,
) -> Drawing:
    along, up = (format_length(value, denominator=denominator) for value in (window.x, window.y))
    title = f"{member.mark}, sheet {number[0]} of {number[1]}"
    said = f"{title}: lower left cross {along} along from the top of the lower cut, {up} over the bottom edge"
    items: list[Item] = [*clipped_ring(ring, window.bounds, OUTLINE, member.mark)]
    items += [part for line in lines for part in clipped_line(line, window.bounds)]
    items += [
        *_crosses(window),
        *_ruler(window),
        Text(at=(window.x + 0.45, window.y - 0.42), words=said, height_mm=_WORDS_MM),
    ]
    origin = (_LEFT_MM - window.x * MM_PER_IN, _LOW_MM - window.y * MM_PER_IN)
    return Drawing(
        name=f"tile-{member.mark}-{number[0]}",
        title=f"{title}: full-size pattern",
        description="A part of the outline at full size; the ruler must measure 6 inches before it is used.",
        width_mm=PAGE_MM[0],
        height_mm=PAGE_MM[1],
        views=(View(name="tile", one_to=1.0, items=tuple(items), origin_mm=origin),),
    )


def _crosses(window: _Window) -> Iterator[Line]:
    """At the corners, to be laid over those of the next sheet."""
    for x in (window.x, window.x + WINDOW_IN[0]):
        for y in (window.y, window.y + WINDOW_IN[1]):
            yield Line((x - _CROSS_IN, y), (x + _CROSS_IN, y), DIMENSIONS)
            yield Line((x, y - _CROSS_IN), (x, y + _CROSS_IN), DIMENSIONS)


def _ruler(window: _Window) -> Iterator[Item]:
    """Six inches to check the print by."""
    x, y = window.x, window.y - 0.82
    yield Line((x, y), (x + RULER_IN, y), LAYOUT)
    for inch in range(round(RULER_IN) + 1):
        yield Line((x + inch, y), (x + inch, y + (0.2 if inch % RULER_IN else 0.28)), LAYOUT)
    words = "check: 6 inches; print at actual size"
    yield Text(at=(x + RULER_IN + 0.15, y), words=words, height_mm=2.0)
