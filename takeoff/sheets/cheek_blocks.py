"""Where the details of a rafter with cheek cuts stand: from the side, its cheek ends from above."""

from __future__ import annotations

from typing import TYPE_CHECKING

from takeoff.sheets.blocks import GAP_MM, SCALES, WIDTH_MM, Block, Part, Placed, block, fitted
from takeoff.sheets.cheek_view import TopView
from takeoff.sheets.detail_blocks import RIDGE, TAIL, mouth_part, notch_part, ridge_part, tail_part, upper_mouth_part
from takeoff.sheets.drawing import Item
from takeoff.sheets.rafter_words import PLATE, lower_words
from takeoff.sheets.stick_end import StickEnd, stick_ends
from takeoff.sheets.upper_words import upper_words

if TYPE_CHECKING:
    from takeoff.model.member import Member
    from takeoff.sheets.rafter_tops import Top

_LEFT_WIDTH_MM = 100.0
_NOTCH_HEIGHT_MM = 50.0
_MOUTH_SHARE = 0.6  # of the height, the rest being for the tail under it
_LEAST_SCALE = 2.0  # a cheek to its full size would fill the page
_SIDE_SCALES = (6.0, 12.0)  # largest and smallest that a tail is drawn to, for its lettering


def cheek_blocks(member: Member, denominator: int, top: Top, room_mm: float, base: str = PLATE) -> list[Placed]:
    """Details of a rafter with cheek cuts, the row's top being 0 [mm]; a second bird's mouth in a row of its own.

    Args:
        member: a rafter of whose ends at least one has a cheek.
        denominator: figures are shown to one over this of an inch.
        top: words for its upper end.
        room_mm: height there is.
        base: what it is seated on.
    """
    placed = _ends_and_mouth(member, denominator, top, room_mm, base)
    second = upper_mouth_part(member, denominator)
    if second is None:
        return placed
    low = min(one.y - one.block.tall for one in placed)
    return [*placed, Placed(fitted(second, WIDTH_MM, room_mm), 0.0, low - GAP_MM)]


def _ends_and_mouth(member: Member, denominator: int, top: Top, room_mm: float, base: str) -> list[Placed]:
    rafter = member.rafter
    assert rafter is not None
    lower, upper = stick_ends(member)
    upper_from_above = f"{upper_words(member, top).capitalize()} end from above"
    upper_part = (
        _top_part(upper_from_above, "upper-top", upper, denominator)
        if upper.is_cheek
        else ridge_part(member, denominator, top)
    )
    tail = tail_part(member, denominator)
    from_above = _top_part(f"{lower_words(member)} from above", "lower-top", lower, denominator)
    lower_part = from_above if lower.is_cheek else tail
    if not rafter.stands_on_plate:
        return _on_valley([lower_part, upper_part], notch_part(member, denominator))
    if lower_part is tail:
        mouth = fitted(mouth_part(member, denominator, base), _LEFT_WIDTH_MM, room_mm)
        left = mouth.wide + 2 * GAP_MM
        return [Placed(mouth, 0.0, 0.0), *_stacked([upper_part, tail], left, max(room_mm, mouth.tall))]
    return _both_cheeks(mouth_part(member, denominator, base), tail, room_mm, [upper_part, from_above])


def _both_cheeks(of_mouth: Part, of_tail: Part, room_mm: float, views: list[Part]) -> list[Placed]:
    """Mouth over tail, and to their right both ends from above."""
    mouth = fitted(of_mouth, _LEFT_WIDTH_MM, room_mm * _MOUTH_SHARE)
    tail = _side_view(of_tail, _LEFT_WIDTH_MM, room_mm - mouth.tall - GAP_MM)
    left = max(mouth.wide, tail.wide) + 2 * GAP_MM
    below = -mouth.tall - GAP_MM
    return [Placed(mouth, 0.0, 0.0), Placed(tail, 0.0, below), *_stacked(views, left, max(room_mm, tail.tall - below))]


def _top_part(caption: str, name: str, end: StickEnd, denominator: int) -> Part:
    def build(one_to: float) -> tuple[Item, ...]:
        return tuple(TopView(end, one_to, denominator).items())

    return Part(name, caption, build)


def _view(part: Part, wide: float, tall: float) -> Block:
    if part.name in (TAIL, RIDGE):
        return _side_view(part, wide, tall)
    return fitted(part, wide, tall, least=_LEAST_SCALE)


def _side_view(part: Part, wide: float, tall: float) -> Block:
    """As large as goes in, but no smaller than its lettering bears: it may then be taller than asked."""
    largest, smallest = _SIDE_SCALES
    for one_to in SCALES:
        made = block(part, one_to)
        if one_to >= smallest or (one_to >= largest and made.wide <= wide and made.tall <= tall):
            return made
    raise AssertionError("the scales run on past the smallest")


def _on_valley(ends: list[Part], notch: Part | None) -> list[Placed]:
    """Both ends side by side, and under the lower one its level notch."""
    half = (WIDTH_MM - GAP_MM) / 2
    blocks = [_view(part, half, half) for part in ends]
    placed = [Placed(made, index * (half + GAP_MM), 0.0) for index, made in enumerate(blocks)]
    if notch is None:
        return placed
    below = fitted(notch, half, _NOTCH_HEIGHT_MM, least=_LEAST_SCALE)
    return [*placed, Placed(below, 0.0, -blocks[0].tall - GAP_MM)]


def _stacked(parts: list[Part], left: float, tall: float) -> list[Placed]:
    """Under one another; each has its share of the height."""
    share = (tall - (len(parts) - 1) * GAP_MM) / len(parts)
    placed: list[Placed] = []
    y = 0.0
    for part in parts:
        made = _view(part, WIDTH_MM - left, share)
        placed.append(Placed(made, left, y))
        y -= made.tall + GAP_MM
    return placed
