"""The drawing of a rafter mark: the whole stick to one scale, over enlarged details to their own."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
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
_PAGE_SHARE_MM = 136.0  # of the height of a letter page, the rest being for tables
_MOUTH_WIDTH_MM, _ENDS_HEIGHT_MM = 118.0, 60.0
_LEAST_DETAIL_MM, _MOST_DETAIL_MM = 60.0, 88.0
_WHOLE_HEIGHT_MM = 110.0  # what it comes to is mostly lettering, the same at any scale
_GAP_MM = 6.0
_CAPTION_MM = 2.4

Build = Callable[[float], tuple[Item, ...]]


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
    blocks = [(whole, 0.0, 0.0)]
    blocks += [(block, x, y - whole.tall - _GAP_MM) for block, x, y in details]
    height = -min(y - block.tall for block, _, y in blocks)
    return Drawing(
        name=f"rafter-{member.mark}",
        title=f"{member.mark}: {member.role.words}, {member.profile.name} {member.grade}",
        description=_description(member, denominator),
        width_mm=WIDTH_MM,
        height_mm=height,
        views=tuple(block.placed(x, height + y) for block, x, y in blocks),
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
    caption = f"{member.mark} whole; ticks: steps of 12\" run from the {start}"
    return _fitted("whole", caption, build, WIDTH_MM, _WHOLE_HEIGHT_MM)


def _details(member: Member, denominator: int, room_mm: float) -> list[tuple[_Block, float, float]]:
    """Blocks with their upper left corners, the row's top being 0 [mm].

    With a bird's mouth that detail is large and the two ends stand in a column to its right, else side by side.
    """
    def tail(one_to: float) -> tuple[Item, ...]:
        return Detail(member, one_to, denominator).tail()

    def mouth(one_to: float) -> tuple[Item, ...]:
        return Detail(member, one_to, denominator).mouth()

    def ridge(one_to: float) -> tuple[Item, ...]:
        return Detail(member, one_to, denominator).ridge()

    assert member.rafter is not None
    ends = (("ridge", "Ridge end", ridge), ("tail", "Tail", tail))
    if not member.rafter.seat:
        half = (WIDTH_MM - _GAP_MM) / 2
        right, left = _alike(ends, lambda blocks: max(b.wide for b in blocks) <= half and blocks[0].tall <= _ENDS_HEIGHT_MM)
        return [(left, 0.0, 0.0), (right, half + _GAP_MM, 0.0)]
    large = _fitted("mouth", "Bird's mouth", mouth, _MOUTH_WIDTH_MM, room_mm)
    wide, tall = WIDTH_MM - large.wide - _GAP_MM, max(large.tall, room_mm)
    upper, lower = _alike(
        ends, lambda blocks: max(b.wide for b in blocks) <= wide and sum(b.tall for b in blocks) + _GAP_MM <= tall
    )
    column = WIDTH_MM - max(upper.wide, lower.wide)
    return [(large, 0.0, 0.0), (upper, column, 0.0), (lower, column, -upper.tall - _GAP_MM)]


def _alike(parts: Sequence[tuple[str, str, Build]], fits: Callable[[Sequence[_Block]], bool]) -> Sequence[_Block]:
    """Blocks at the largest scale that all of them go in at."""
    for one_to in _SCALES:
        blocks = [_block(name, caption, one_to, build(one_to)) for name, caption, build in parts]
        if fits(blocks):
            return blocks
    raise ValueError("the ends are too large for any scale")


def _fitted(name: str, caption: str, build: Build, width_mm: float, height_mm: float) -> _Block:
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
