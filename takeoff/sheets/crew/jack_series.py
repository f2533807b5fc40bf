"""Jack rafters that are cut alike but for their length, gathered from both hands into series."""

from __future__ import annotations

from collections.abc import Hashable, Iterable

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.sheets.crew.alike import alike
from takeoff.sheets.crew.marked import Marked, by_mark
from takeoff.sheets.rafter_words import JACKS
from takeoff.sheets.stick_end import stick_ends, top_lengths

OTHER_HAND = {"left": "right", "right": "left", "": ""}


def jack_series(buildings: Iterable[FramedBuilding]) -> tuple[tuple[Marked, ...], ...]:
    """Series of jacks, each from the shortest up, in the order of their first marks.

    A series has one set of saw cuts. Along one hip or valley jacks differ by a constant: those that follow one another
    on a slope are one series, together with their mirror images.
    """
    built = tuple(buildings)
    jacks = by_mark(built, lambda member: member.rafter is not None and member.role.name in JACKS)
    series = []
    for family in alike(jacks, lambda marked: _cut_key(marked.member)):
        series += [sorted(group, key=_order) for group in _together(family, _runs(built, family))]
    numbered = {marked.member.mark: place for place, marked in enumerate(jacks)}
    series.sort(key=lambda group: min(numbered[marked.member.mark] for marked in group))
    return tuple(tuple(group) for group in series)


def hand(member: Member) -> str:
    """The longer face of its upper end, or of its lower end if the upper one has none: ``left``, ``right`` or none."""
    lower, upper = stick_ends(member)
    return upper.hand or lower.hand


def _order(marked: Marked) -> tuple[float, str]:
    return (round(top_lengths(marked.member).centre_line / TOLERANCE.mark), hand(marked.member))


def _cut_key(member: Member) -> Hashable:
    """What all jacks of a series have in common, whichever hand they are."""
    rafter = member.rafter
    assert rafter is not None
    seated = (rafter.seat, rafter.overhang, rafter.tail_depth_cut, rafter.height_above_plate)
    sizes = (rafter.slope, *(seated if rafter.foot is None else ()))
    ends = tuple(tuple(sorted(_mirrored(cut.normal) for cut in end.cuts)) for end in stick_ends(member))
    return (member.role.name, member.profile.name, member.grade, tuple(round(size, 3) for size in sizes), ends)


def _mirrored(normal: tuple[float, float, float]) -> tuple[float, float, float]:
    return (round(normal[0], 4), round(normal[1], 4), round(abs(normal[2]), 4))


def _runs(buildings: tuple[FramedBuilding, ...], family: tuple[Marked, ...]) -> list[set[str]]:
    """Marks that follow one another along a hip or valley, and marks that are each other's mirror image."""
    marks = {marked.member.mark for marked in family}
    along: dict[tuple[str, str, str], set[str]] = {}
    for building in buildings:
        for member in building.members:
            if member.mark in marks:
                along.setdefault((building.name, member.face, hand(member)), set()).add(member.mark)
    mirrored = [
        {one.member.mark, other.member.mark}
        for index, one in enumerate(family)
        for other in family[index + 1 :]
        if _are_mirrored(one.member, other.member)
    ]
    return [*along.values(), *mirrored]


def _are_mirrored(one: Member, other: Member) -> bool:
    apart = abs(top_lengths(one).centre_line - top_lengths(other).centre_line)
    return apart < TOLERANCE.mark and hand(one) == OTHER_HAND[hand(other)]


def _together(family: tuple[Marked, ...], runs: list[set[str]]) -> list[list[Marked]]:
    """The family in the fewest groups that tear no run apart."""
    groups = [{marked.member.mark} for marked in family]
    for run in runs:
        touched = [group for group in groups if group & run]
        groups = [group for group in groups if not group & run] + [set().union(*touched)]
    return [[marked for marked in family if marked.member.mark in group] for group in groups]
