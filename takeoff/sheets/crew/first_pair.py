"""What to cut first and try on the building: a pair where two meet that are cut alike, else one."""

from __future__ import annotations

from collections.abc import Iterable
from math import dist, hypot
from typing import TYPE_CHECKING

from takeoff.sheets.crew.alike import by_number
from takeoff.sheets.rafter_words import FOLDS

if TYPE_CHECKING:
    from takeoff.model.building import FramedBuilding
    from takeoff.model.member import Member
    from takeoff.sheets.crew.marked import Marked

ONE_ALONE = "It is the only one: try it on the building before it is nailed."
ONE_FIRST = "Cut one and try it on the building before cutting the rest."
PAIR_FIRST = "Cut one pair and try it on the building before cutting the rest."
LONGEST_FIRST = "Cut the longest and try it on the building before cutting the rest."

_MEET_IN = 9.0
"""How far apart the upper ends of two rafters may be that meet: a ridge stands between them [in]."""
_OPPOSITE = 0.5
"""Cosine of the angle in plan, under which two that meet are a pair."""


def first_words(marked: Marked, buildings: Iterable[FramedBuilding]) -> str:
    """What to cut first of one mark."""
    partners = _partners(marked.member, buildings)
    if marked.member.role.name in FOLDS:  # a hip and another that goes on from it are no pair
        partners = [mark for mark in partners if mark == marked.member.mark]
    if marked.count == 1:
        return f"There is one, and it meets one {partners[0]}: try them as a pair." if partners else ONE_ALONE
    if marked.member.mark in partners:
        return PAIR_FIRST
    if partners:
        return f"Cut one, and one {partners[0]} that it meets, and try them as a pair before cutting the rest."
    return ONE_FIRST


def first_of_series(series: Iterable[Marked], rows: Iterable[tuple[str, str]]) -> str:
    """What to cut first of a series of jacks, of whose lengths there are marks for the left and for the right hand."""
    if sum(marked.count for marked in series) == 1:
        return ONE_ALONE
    return PAIR_FIRST if any(left and right for left, right in rows) else LONGEST_FIRST


def _partners(member: Member, buildings: Iterable[FramedBuilding]) -> list[str]:
    """Marks of the rafters of its kind that its like meet at their upper ends."""
    found: set[str] = set()
    for building in buildings:
        kind = [(m.mark, *_upper(m)) for m in building.members if m.role.name == member.role.name]
        own = [(spot, toward) for mark, spot, toward in kind if mark == member.mark]
        found |= {
            mark
            for mark, spot, toward in kind
            for at, way in own
            if dist(spot, at) < _MEET_IN and toward[0] * way[0] + toward[1] * way[1] < _OPPOSITE
        }
    return by_number(found)


def _upper(member: Member) -> tuple[tuple[float, float], tuple[float, float]]:
    """Its upper end in plan, and the way it runs there."""
    (x0, y0, z0), (x1, y1, z1) = member.centre_line
    if z0 > z1:
        x0, y0, x1, y1 = x1, y1, x0, y0
    run = hypot(x1 - x0, y1 - y0) or 1.0
    return (x1, y1), ((x1 - x0) / run, (y1 - y0) / run)
