"""What is lifted: every beam by the stick, and what is built up of several as a whole."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import dot
from takeoff.order.weights import member_weight_lb
from takeoff.sheets.crew.alike import by_number
from takeoff.sheets.crew.figures import Figures
from takeoff.sheets.crew.marked import Marked, PieceRow, by_mark, piece_row, short_words

if TYPE_CHECKING:
    from takeoff.model.member import Member
    from takeoff.model.takeoff import Takeoff

_PLY = " ply"
_PARALLEL = 0.999


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftRow:
    """A beam and its weight."""

    mark: str
    words: str
    count: int
    stock: str
    length: str
    weight: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WholeRow:
    """A beam of several plies: it goes up ply by ply, or nailed together."""

    words: str
    plies: str
    """Its sticks: ``2 GI1, 2 GI2``."""
    length: str
    heaviest: str
    """Weight of its heaviest stick."""
    weight: str
    """Of all of it."""


def lifts(takeoff: Takeoff) -> tuple[LiftRow, ...]:
    """Beams with the weight of one stick, for the lift."""
    figures = Figures(takeoff.settings.denominator)
    built_up = {member.mark for beam in _built_up(takeoff) for member in beam}
    return tuple(
        LiftRow(
            mark=marked.member.mark,
            words=_words(marked.member, built_up),
            count=marked.count,
            stock=f"{marked.member.profile.name} {marked.member.grade}",
            length=figures.length(marked.member.length_in),
            weight=_pounds(member_weight_lb(marked.member, takeoff.settings.species)),
        )
        for marked in by_mark(takeoff.buildings, _is_beam)
    )


def wholes(takeoff: Takeoff) -> tuple[WholeRow, ...]:
    """Beams of which several sticks lie side by side, each kind once."""
    figures = Figures(takeoff.settings.denominator)
    return tuple(dict.fromkeys(_whole(beam, takeoff.settings.species, figures) for beam in _built_up(takeoff)))


def _built_up(takeoff: Takeoff) -> Iterator[tuple[Member, ...]]:
    for building in takeoff.buildings:
        beams = _beams([member for member in building.members if _is_beam(member)])
        yield from (beam for beam in beams if len(beam) > 1)


def _words(member: Member, built_up: Container[str]) -> str:
    """What a beam's stick is: a ply where there are more beside it."""
    words = short_words(member.role).removesuffix(_PLY)
    return f"{words}{_PLY}" if member.mark in built_up else words


def _is_beam(member: Member) -> bool:
    return member.role.category == "beams"


def heavy_rows(marks: Iterable[Marked], species: str, figures: Figures) -> tuple[PieceRow, ...]:
    """Rows of pieces with what one weighs."""
    return tuple(
        piece_row(marked, figures, weight=_pounds(member_weight_lb(marked.member, species))) for marked in marks
    )


def _pounds(weight: float) -> str:
    return f"{weight:,.0f} lb"


def _whole(beam: Sequence[Member], species: str, figures: Figures) -> WholeRow:
    weights = [member_weight_lb(member, species) for member in beam]
    marks = [member.mark for member in beam]
    reach = [dot(point, beam[0].placement.x) for member in beam for point in member.centre_line]
    return WholeRow(
        words=short_words(beam[0].role).removesuffix(_PLY),
        plies=", ".join(f"{marks.count(mark)} {mark}" for mark in by_number(set(marks))),
        length=figures.length(max(reach) - min(reach)),
        heaviest=_pounds(max(weights)),
        weight=_pounds(sum(weights)),
    )


def _beams(sticks: Sequence[Member]) -> Iterator[tuple[Member, ...]]:
    """Sticks that lie side by side against each other, together."""
    group = list(range(len(sticks)))
    for one, other in combinations(range(len(sticks)), 2):
        if _side_by_side(sticks[one], sticks[other]):
            group = [group[one] if g == group[other] else g for g in group]
    for known in dict.fromkeys(group):
        yield tuple(stick for stick, g in zip(sticks, group, strict=True) if g == known)


def _side_by_side(one: Member, other: Member) -> bool:
    """One's wide face lies on the other's, over some of their length."""
    if one.role.name != other.role.name or abs(dot(one.placement.x, other.placement.x)) < _PARALLEL:
        return False
    ends = [one.placement.from_world(point) for point in other.centre_line]
    _, y, z = ends[0]
    level = abs(y - one.profile.depth_in / 2) < TOLERANCE.mark
    apart = (one.profile.thickness_in + other.profile.thickness_in) / 2
    low, high = sorted(x for x, _, _ in ends)
    return level and abs(abs(z) - apart) < TOLERANCE.mark and min(high, one.length_in) - max(low, 0.0) > TOLERANCE.mark
