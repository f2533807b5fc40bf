"""The drawing of a rafter mark: the whole stick to one scale, over enlarged details to their own."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from takeoff.measure import Pitch, format_length
from takeoff.sheets.drawing import MM_PER_IN, Drawing, Item, Text, View
from takeoff.sheets.extent import extent
from takeoff.sheets.rafter_details import Detail
from takeoff.sheets.rafter_whole import WholeRafter

if TYPE_CHECKING:
    from takeoff.model.member import Member

WIDTH_MM = 190.0
"""Width of the drawing: a letter page less its margins [mm]."""

_SCALES = (1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 24.0, 32.0, 48.0, 64.0, 96.0, 128.0)
_PAGE_SHARE_MM = 146.0  # of the height of a letter page, the rest being for tables
_MOUTH_WIDTH_MM, _ENDS_HEIGHT_MM = 118.0, 60.0
_LEAST_DETAIL_MM, _MOST_DETAIL_MM = 60.0, 88.0
_WHOLE_HEIGHT_MM = 110.0  # what it comes to is mostly lettering, the same at any scale
_GAP_MM = 6.0
_MARGIN_MM = 1.0
_CAPTION_MM = 2.4

_Build = Callable[[float], tuple[Item, ...]]
_Part = tuple[str, str, _Build]
_Parts = tuple[_Part, _Part]
"""Names, captions and makers of the tail and the ridge end."""


@dataclass(frozen=True, slots=True)
class _Block:
    """Items at a scale, with the paper they cover [mm, from their own origin]."""

    view: View
    left: float
    low: float
    right: float
    high: float

    @property
    def wide(self) -> float:
        return self.right - self.left

    @property
    def tall(self) -> float:
        return self.high - self.low

    def placed(self, left: float, top: float) -> View:
        """Its view, its upper left corner at that point of the paper [mm]."""
        return replace(self.view, origin_mm=(left - self.left, top - self.high))


_Placed = list[tuple[_Block, float, float]]
"""Blocks with where their upper left corners stand, right of and over the paper's upper left [mm]."""


def rafter_drawing(member: Member, *, denominator: int = 16) -> Drawing:
    """The drawing of a rafter, lying level as it lies on the horses.

    Args:
        member: a member with a ``rafter`` to read its cuts from.
        denominator: figures are shown to one over this of an inch.

    Raises:
        ValueError: the member is no rafter, or too long for any scale.
    """
    if member.rafter is None:
        raise ValueError(f"{member.name} is no rafter")
    whole = _whole(member, denominator)
    room = max(_LEAST_DETAIL_MM, min(_MOST_DETAIL_MM, _PAGE_SHARE_MM - whole.tall - _GAP_MM))
    details = _details(member, denominator, room)
    blocks: _Placed = [(whole, 0.0, 0.0)]
    blocks += [(block, x, y - whole.tall - _GAP_MM) for block, x, y in details]
    height = 2 * _MARGIN_MM - min(y - block.tall for block, _, y in blocks)
    return Drawing(
        name=f"rafter-{member.mark}",
        title=f"{member.mark}: {member.role.words}, {member.profile.name} {member.grade}",
        description=_description(member, denominator),
        width_mm=WIDTH_MM,
        height_mm=height,
        views=tuple(block.placed(x, height - _MARGIN_MM + y) for block, x, y in blocks),
    )


def _description(member: Member, denominator: int) -> str:
    rafter = member.rafter
    assert rafter is not None
    return (
        f"Pitch {Pitch(12 * rafter.slope)}, plumb cut {rafter.plumb_deg:.2f} degrees, "
        f"line length {format_length(rafter.line_length, denominator=denominator)}, "
        f"long-point length {format_length(member.length_in, denominator=denominator)}."
    )


def _whole(member: Member, denominator: int) -> _Block:
    def build(one_to: float) -> tuple[Item, ...]:
        return tuple(WholeRafter(member, one_to, denominator).items())

    assert member.rafter is not None
    start = "heel plumb line" if member.rafter.seat else "outside of wall"
    caption = f'{member.mark} whole; ticks: steps of 12" run from the {start}'
    return _fitted("whole", caption, build, WIDTH_MM, _WHOLE_HEIGHT_MM)


def _details(member: Member, denominator: int, room_mm: float) -> _Placed:
    """Blocks with their upper left corners, the row's top being 0 [mm]."""

    def tail(one_to: float) -> tuple[Item, ...]:
        return Detail(member, one_to, denominator).tail()

    def mouth(one_to: float) -> tuple[Item, ...]:
        return Detail(member, one_to, denominator).mouth()

    def ridge(one_to: float) -> tuple[Item, ...]:
        return Detail(member, one_to, denominator).ridge()

    assert member.rafter is not None
    ends = (("tail", "Tail", tail), ("ridge", "Ridge end", ridge))
    if not member.rafter.seat:
        return _pair(ends, 0.0)
    large = _fitted("mouth", "Bird's mouth", mouth, _MOUTH_WIDTH_MM, room_mm)
    side_by_side = [placed for placed in (_row(large, ends), _column(large, ends, room_mm)) if placed]
    if side_by_side:
        return min(side_by_side, key=lambda placed: placed[-1][0].view.one_to)
    return [(large, 0.0, 0.0), *_pair(ends, -large.tall - _GAP_MM)]


def _pair(ends: _Parts, top: float) -> _Placed:
    """Both ends side by side."""
    half = (WIDTH_MM - _GAP_MM) / 2
    blocks = _alike(ends, lambda tail, ridge: max(tail.wide, ridge.wide) <= half and tail.tall <= _ENDS_HEIGHT_MM)
    if blocks is None:
        raise ValueError("the ends are too large for any scale")
    return [(blocks[0], 0.0, top), (blocks[1], half + _GAP_MM, top)]


def _row(large: _Block, ends: _Parts) -> _Placed:
    """Tail, bird's mouth and ridge end as they follow on the stick; nothing where they don't go in."""
    wide = WIDTH_MM - large.wide - 2 * _GAP_MM
    blocks = _alike(
        ends, lambda tail, ridge: tail.wide + ridge.wide <= wide and max(tail.tall, ridge.tall) <= large.tall
    )
    if blocks is None:
        return []
    tail, ridge = blocks
    return [(large, tail.wide + _GAP_MM, 0.0), (tail, 0.0, 0.0), (ridge, WIDTH_MM - ridge.wide, 0.0)]


def _column(large: _Block, ends: _Parts, room_mm: float) -> _Placed:
    """The bird's mouth, and to its right the ridge end over the tail; nothing where they don't go in."""
    wide, tall = WIDTH_MM - large.wide - _GAP_MM, max(large.tall, room_mm)
    blocks = _alike(
        ends, lambda tail, ridge: max(tail.wide, ridge.wide) <= wide and tail.tall + ridge.tall + _GAP_MM <= tall
    )
    if blocks is None:
        return []
    tail, ridge = blocks
    x = WIDTH_MM - max(tail.wide, ridge.wide)
    return [(large, 0.0, 0.0), (ridge, x, 0.0), (tail, x, -ridge.tall - _GAP_MM)]


def _alike(ends: _Parts, fits: Callable[[_Block, _Block], bool]) -> tuple[_Block, _Block] | None:
    """Both ends at the largest scale that they go in at; none where they don't at any."""
    for one_to in _SCALES:
        tail, ridge = (_block(name, caption, one_to, build(one_to)) for name, caption, build in ends)
        if fits(tail, ridge):
            return tail, ridge
    return None


def _fitted(name: str, caption: str, build: _Build, width_mm: float, height_mm: float) -> _Block:
    """The block at the largest scale at which it goes into that much paper."""
    for one_to in _SCALES:
        block = _block(name, caption, one_to, build(one_to))
        if block.wide <= width_mm and block.tall <= height_mm:
            return block
    raise ValueError(f"{name} is too large for any scale")


def _block(name: str, caption: str, one_to: float, items: tuple[Item, ...]) -> _Block:
    k = one_to / MM_PER_IN
    x0, y0, _, _ = extent(items, one_to)
    at = (x0, y0 - 4.0 * k)
    words = f"{caption}, 1:{one_to:.0f}"
    captioned = (*items, Text(at=at, words=words, height_mm=_CAPTION_MM, level="top", bold=True))
    box: Iterable[float] = (mm / k for mm in extent(captioned, one_to))
    return _Block(View(name=name, one_to=one_to, items=captioned), *box)
