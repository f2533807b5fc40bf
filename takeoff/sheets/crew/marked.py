"""Members gathered by mark: how many, of what, cut how."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from takeoff.catalog.roles import Role, roles
from takeoff.geometry.polygon import corners
from takeoff.model.building import FramedBuilding
from takeoff.model.member import EndCut, Member
from takeoff.model.stock import Board
from takeoff.sheets.crew.figures import Figures, saw

_SQUARE_DEG = 0.05  # less than a saw's scale shows
_PLAIN_CORNERS = 4


@dataclass(frozen=True, slots=True)
class Marked:
    """One member of a mark to read from, and how many there are for each building, all its copies together."""

    member: Member
    counts: tuple[tuple[str, int], ...]

    @property
    def count(self) -> int:
        """In the whole job."""
        return sum(count for _, count in self.counts)


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceRow:
    """A row of a table of pieces."""

    mark: str
    words: str
    count: int
    stock: str
    length: str
    inches: str
    cuts: str
    weight: str
    """Of one, where it is lifted; empty where it is carried."""


def by_mark(buildings: Iterable[FramedBuilding], wanted: Callable[[Member], bool]) -> tuple[Marked, ...]:
    """Wanted members by mark, in the order of the catalog's roles and the marks' numbers."""
    first: dict[str, Member] = {}
    counts: dict[str, dict[str, int]] = {}
    for building in buildings:
        for member in filter(wanted, building.members):
            first.setdefault(member.mark, member)
            in_building = counts.setdefault(member.mark, {})
            in_building[building.name] = in_building.get(building.name, 0) + building.count
    members = sorted(first.values(), key=_order)
    return tuple(Marked(member, tuple(counts[member.mark].items())) for member in members)


def short_words(role: Role) -> str:
    """What a role is called, without the remark after it."""
    return role.words.split(",")[0]


def piece_row(marked: Marked, figures: Figures, *, weight: str = "") -> PieceRow:
    """The row of a mark."""
    member = marked.member
    return PieceRow(
        mark=member.mark,
        words=short_words(member.role),
        count=marked.count,
        stock=f"{member.profile.name} {member.grade}",
        length=figures.length(member.length_in),
        inches=figures.inches(member.length_in),
        cuts=cuts_words(member),
        weight=weight,
    )


def cuts_words(member: Member) -> str:
    """How the ends are cut, and whether there is more to cut than ends."""
    start, end = (_cut_words(cut) for cut in member.cuts)
    ends = f"{start} both ends" if start == end else f"{start} one end, {end} the other"
    return f"{ends}; notched" if len(corners(member.side)) > _PLAIN_CORNERS else ends


def stock_words(mark: str, boards: Iterable[Board], figures: Figures) -> str:
    """The stock lengths a mark is cut from, the one with most boards first."""
    counts: dict[float, int] = {}
    for board in boards:
        if any(cut.mark == mark for cut in board.cuts):
            counts[board.stock_length_in] = counts.get(board.stock_length_in, 0) + 1
    lengths = sorted(counts, key=lambda length: (-counts[length], length))
    return ", ".join(_boards_words(counts[length], figures.length(length)) for length in lengths)


def _boards_words(count: int, length: str) -> str:
    return f"{count} board of {length}" if count == 1 else f"{count} boards of {length}"


def _cut_words(cut: EndCut) -> str:
    turned = [(words, abs(deg)) for words, deg in (("miter", cut.miter_deg), ("bevel", cut.bevel_deg))]
    return ", ".join(f"{words} {saw(deg)}" for words, deg in turned if deg >= _SQUARE_DEG) or "square"


def _order(member: Member) -> tuple[int, int, str]:
    names = [role.name for role in roles()]
    number = member.mark.removeprefix(member.role.letter)
    return (names.index(member.role.name), int(number) if number.isdecimal() else 0, member.mark)
