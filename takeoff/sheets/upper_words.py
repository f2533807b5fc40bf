"""What the upper end of a stick is called, all that it is cut to named."""

from __future__ import annotations

from typing import TYPE_CHECKING

from takeoff.sheets.rafter_tops import RIDGE_TOP
from takeoff.sheets.stick_end import SQUARE_DEG, stick_ends

if TYPE_CHECKING:
    from takeoff.model.member import EndCut, Member
    from takeoff.sheets.rafter_tops import Top


def upper_words(member: Member, top: Top) -> str:
    """``hip``, ``ridge``; ``hip and ridge`` of a jack that one cut brings to the hip, the other to the ridge."""
    _, upper = stick_ends(member)
    names = dict.fromkeys(cut_words(member, cut, top) for cut in upper.cuts)
    return " and ".join(names)


def cut_words(member: Member, cut: EndCut, top: Top) -> str:
    """What one cut of an upper end is made to: the blade upright, a hip jack is cut to the ridge."""
    upright = abs(cut.bevel_deg) < SQUARE_DEG
    return RIDGE_TOP.name if upright and member.role.name == "hip-jack" else top.name
