"""The drawing of a rafter mark: the whole stick to one scale, over enlarged details to their own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from takeoff.measure import Pitch, format_length
from takeoff.sheets.blocks import GAP_MM, MARGIN_MM, WIDTH_MM, Block, Part, Placed, fitted, height_of
from takeoff.sheets.cheek_blocks import cheek_blocks
from takeoff.sheets.detail_blocks import detail_blocks
from takeoff.sheets.drawing import Drawing, Item
from takeoff.sheets.rafter_tops import Top, top_of
from takeoff.sheets.rafter_whole import STEP_RUN_IN, WholeRafter, WholeWords
from takeoff.sheets.rafter_words import PLATE, start_words
from takeoff.sheets.stick_end import has_cheeks

if TYPE_CHECKING:
    from takeoff.model.member import Member

_PAGE_SHARE_MM = 142.0  # of the height of a letter page, the rest being for tables
_CHEEK_SHARE_MM = 122.0  # the tables of a rafter with cheek cuts are longer
_LEAST_DETAIL_MM, _MOST_DETAIL_MM = 60.0, 88.0
_WHOLE_HEIGHT_MM = 110.0  # what it comes to is mostly lettering, the same at any scale
_CHEEK_WHOLE_MM = 66.0  # a short jack needn't fill the page


def rafter_drawing(
    member: Member, *, denominator: int = 16, step_in: float = STEP_RUN_IN, top: Top | None = None, base: str = PLATE
) -> Drawing:
    """The drawing of a rafter, lying level as it lies on the horses.

    Args:
        member: a member with a ``rafter`` to read its cuts from.
        denominator: figures are shown to one over this of an inch.
        step_in: level length of one step of the square along it [in].
        top: words for its upper end, where the member alone doesn't tell.
        base: what it is seated on.

    Raises:
        ValueError: the member is no rafter, or too long for any scale.
    """
    if member.rafter is None:
        raise ValueError(f"{member.name} is no rafter")
    top = top or top_of(member)
    compound = has_cheeks(member)
    words = WholeWords(top=top, base=base, step_in=step_in)
    whole = _whole(member, denominator, words, _CHEEK_WHOLE_MM if compound else _WHOLE_HEIGHT_MM)
    share = _CHEEK_SHARE_MM if compound else _PAGE_SHARE_MM
    room = max(_LEAST_DETAIL_MM, min(_MOST_DETAIL_MM, share - whole.tall - GAP_MM))
    details = (cheek_blocks if compound else detail_blocks)(member, denominator, top, room, base)
    blocks = [Placed(whole, 0.0, 0.0), *(one.lowered(whole.tall + GAP_MM) for one in details)]
    height = height_of(blocks)
    return Drawing(
        name=f"rafter-{member.mark}",
        title=f"{member.mark}: {member.role.words}, {member.profile.name} {member.grade}",
        description=_description(member, denominator),
        width_mm=WIDTH_MM,
        height_mm=height,
        views=tuple(one.block.placed(one.x, height - MARGIN_MM + one.y) for one in blocks),
    )


def _description(member: Member, denominator: int) -> str:
    rafter = member.rafter
    assert rafter is not None
    return (
        f"Pitch {Pitch(12 * rafter.slope)}, plumb cut {rafter.plumb_deg:.2f} degrees, "
        f"line length {format_length(rafter.line_length, denominator=denominator)}, "
        f"long-point length {format_length(member.length_in, denominator=denominator)}."
    )


def _whole(member: Member, denominator: int, words: WholeWords, height_mm: float) -> Block:
    def build(one_to: float) -> tuple[Item, ...]:
        return tuple(WholeRafter(member, one_to, denominator, words).items())

    assert member.rafter is not None
    step = f"{round(words.step_in, 2):g}"
    caption = f'{member.mark} whole; ticks: steps of {step}" run from the {start_words(member.rafter, words.base)}'
    return fitted(Part("whole", caption, build), WIDTH_MM, height_mm)
