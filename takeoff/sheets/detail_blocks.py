"""Where the enlarged details of a rafter with square faces stand: bird's mouths, tail and upper end."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from takeoff.sheets.blocks import GAP_MM, SCALES, WIDTH_MM, Block, Part, Placed, block, fitted
from takeoff.sheets.drawing import Item
from takeoff.sheets.rafter_details import Detail
from takeoff.sheets.rafter_words import PLATE, has_notch, lower_words
from takeoff.sheets.second_mouth import second_mouth
from takeoff.sheets.upper_words import upper_words

if TYPE_CHECKING:
    from takeoff.model.member import Member
    from takeoff.sheets.rafter_tops import Top

_MOUTH_WIDTH_MM, _ENDS_HEIGHT_MM = 118.0, 60.0
_LEAST_MOUTH_SCALE, _LEAST_END_SCALE = 6.0, 16.0  # what the lettering of two bird's mouths and of their ends bears

TAIL, RIDGE = "tail", "ridge"
"""Names of the views of a lower and an upper end from the side."""

_Parts = tuple[Part, Part]
"""The tail and the ridge end."""


def mouth_part(member: Member, denominator: int, base: str = PLATE) -> Part:
    """The bird's mouth of a rafter."""

    def build(one_to: float) -> tuple[Item, ...]:
        return Detail(member, one_to, denominator, base).mouth()

    return Part("mouth", "Bird's mouth", build)


def tail_part(member: Member, denominator: int) -> Part:
    """The lower end of a rafter, seen from the side."""

    def build(one_to: float) -> tuple[Item, ...]:
        return Detail(member, one_to, denominator).tail()

    return Part(TAIL, lower_words(member), build)


def notch_part(member: Member, denominator: int) -> Part | None:
    """The level notch at the foot of a jack that reaches over the plate, if it has one."""
    assert member.rafter is not None

    def build(one_to: float) -> tuple[Item, ...]:
        return Detail(member, one_to, denominator).notch()

    return Part("notch", "Level notch of the foot", build) if has_notch(member.rafter) else None


def upper_mouth_part(member: Member, denominator: int) -> Part | None:
    """The second bird's mouth of a rafter, if it has one."""
    assert member.rafter is not None
    second = second_mouth(member.rafter)

    def build(one_to: float) -> tuple[Item, ...]:
        return Detail(member, one_to, denominator).upper_mouth()

    return None if second is None else Part("upper-mouth", f"Bird's mouth over the {second.under}", build)


def ridge_part(member: Member, denominator: int, top: Top) -> Part:
    """The upper end of a rafter, seen from the side."""

    def build(one_to: float) -> tuple[Item, ...]:
        return Detail(member, one_to, denominator).ridge()

    return Part(RIDGE, f"{upper_words(member, top).capitalize()} end", build)


def detail_blocks(member: Member, denominator: int, top: Top, room_mm: float, base: str = PLATE) -> list[Placed]:
    """Details of a rafter, the row's top being 0 [mm].

    Args:
        member: a rafter whose ends are square across.
        denominator: figures are shown to one over this of an inch.
        top: words for its upper end.
        room_mm: height there is for the bird's mouth.
        base: what it is seated on.
    """
    assert member.rafter is not None
    ends = (tail_part(member, denominator), ridge_part(member, denominator, top))
    mouths = [mouth_part(member, denominator, base)] if member.rafter.stands_on_plate else []
    second = upper_mouth_part(member, denominator)
    if second is not None:
        mouths.append(second)
    if not mouths:
        return _pair(ends, 0.0)
    if len(mouths) == 2:
        return _two_mouths((mouths[0], mouths[1]), _ends_apart(member, ends), room_mm)
    large = fitted(mouths[0], _MOUTH_WIDTH_MM, room_mm)
    side_by_side = [placed for placed in (_row(large, ends), _column(large, ends, room_mm)) if placed]
    if side_by_side:
        return min(side_by_side, key=lambda placed: placed[-1].block.view.one_to)
    return [Placed(large, 0.0, 0.0), *_pair(ends, -large.tall - GAP_MM)]


def _ends_apart(member: Member, ends: _Parts) -> tuple[Part, ...]:
    """Those ends that no view of a bird's mouth shows."""
    assert member.rafter is not None
    second = second_mouth(member.rafter)
    return ends[:1] if second is not None and second.holds_the_end else ends


def _pair(ends: _Parts, top: float) -> list[Placed]:
    """Both ends side by side."""
    half = (WIDTH_MM - GAP_MM) / 2
    blocks = _alike(ends, lambda tail, ridge: max(tail.wide, ridge.wide) <= half and tail.tall <= _ENDS_HEIGHT_MM)
    if blocks is None:
        raise ValueError("the ends are too large for any scale")
    return [Placed(blocks[0], 0.0, top), Placed(blocks[1], half + GAP_MM, top)]


def _two_mouths(mouths: _Parts, ends: tuple[Part, ...], room_mm: float) -> list[Placed]:
    """Both bird's mouths to one scale, the ends to their right, the upper one on top; under them where it is tight."""
    for one_to in SCALES:
        large = [block(part, one_to) for part in mouths]
        wide, tall = sum(one.wide + GAP_MM for one in large), max(one.tall for one in large)
        if wide > WIDTH_MM + GAP_MM:
            continue
        last = one_to >= _LEAST_MOUTH_SCALE
        at_right = _stacked(ends, WIDTH_MM - wide, room_mm) if tall <= room_mm else None
        low = (large[0].tall if len(ends) == 1 else tall) + GAP_MM  # a lone end stands in the first mouth's column
        below = None if at_right else _across(ends, room_mm - low, least=last)
        if at_right is None and below is None:
            continue
        placed = [Placed(large[0], 0.0, 0.0), Placed(large[1], large[0].wide + GAP_MM, 0.0)]
        return [*placed, *(at_right or ()), *(one.lowered(low) for one in below or ())]
    raise ValueError("the bird's mouths are too large for any scale")


def _stacked(ends: tuple[Part, ...], wide: float, room_mm: float) -> list[Placed] | None:
    """Ends over one another along the paper's right edge, the last on top; none where they don't go in."""
    for one_to in SCALES:
        blocks = [block(part, one_to) for part in reversed(ends)]
        tall = sum(one.tall + GAP_MM for one in blocks) - GAP_MM
        if max(one.wide for one in blocks) <= wide and tall <= room_mm:
            x = WIDTH_MM - max(one.wide for one in blocks)
            above = [sum(one.tall + GAP_MM for one in blocks[:index]) for index in range(len(blocks))]
            return [Placed(one, x, -down) for one, down in zip(blocks, above, strict=True)]
    return None


def _across(ends: tuple[Part, ...], room_mm: float, *, least: bool) -> list[Placed] | None:
    """Ends side by side, no smaller than their lettering bears; none where they don't go in.

    At the ``least`` scale they may be taller than the room.
    """
    half = (WIDTH_MM - GAP_MM) / 2
    for one_to in SCALES:
        blocks = [block(part, one_to) for part in ends]
        fits = max(one.wide for one in blocks) <= half and max(one.tall for one in blocks) <= room_mm
        if fits or (least and one_to >= _LEAST_END_SCALE):
            return [Placed(one, index * (half + GAP_MM), 0.0) for index, one in enumerate(blocks)]
        if one_to >= _LEAST_END_SCALE:
            return None
    return None


def _row(large: Block, ends: _Parts) -> list[Placed]:
    """Tail, bird's mouth and ridge end as they follow on the stick; nothing where they don't go in."""
    wide = WIDTH_MM - large.wide - 2 * GAP_MM
    blocks = _alike(
        ends, lambda tail, ridge: tail.wide + ridge.wide <= wide and max(tail.tall, ridge.tall) <= large.tall
    )
    if blocks is None:
        return []
    tail, ridge = blocks
    return [
        Placed(large, tail.wide + GAP_MM, 0.0),
        Placed(tail, 0.0, 0.0),
        Placed(ridge, WIDTH_MM - ridge.wide, 0.0),
    ]


def _column(large: Block, ends: _Parts, room_mm: float) -> list[Placed]:
    """The bird's mouth, and to its right the ridge end over the tail; nothing where they don't go in."""
    blocks = _column_of(ends, WIDTH_MM - large.wide - GAP_MM, max(large.tall, room_mm))
    return [Placed(large, 0.0, 0.0), *_at_right(*blocks)] if blocks else []


def _column_of(ends: _Parts, wide: float, tall: float) -> tuple[Block, Block] | None:
    """Both ends as large as they go over one another into that much paper; none where they don't."""
    return _alike(
        ends, lambda tail, ridge: max(tail.wide, ridge.wide) <= wide and tail.tall + ridge.tall + GAP_MM <= tall
    )


def _at_right(tail: Block, ridge: Block) -> tuple[Placed, Placed]:
    """The upper end over the tail, along the paper's right edge."""
    x = WIDTH_MM - max(tail.wide, ridge.wide)
    return Placed(ridge, x, 0.0), Placed(tail, x, -ridge.tall - GAP_MM)


def _alike(ends: _Parts, fits: Callable[[Block, Block], bool]) -> tuple[Block, Block] | None:
    """Both ends at the largest scale that they go in at; none where they don't at any."""
    for one_to in SCALES:
        tail, ridge = (block(part, one_to) for part in ends)
        if fits(tail, ridge):
            return tail, ridge
    return None
