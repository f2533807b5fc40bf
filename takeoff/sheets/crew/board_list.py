"""Boards to cut, equal ones together."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass
from math import inf

from takeoff.catalog.roles import load_words
from takeoff.model.stock import Board, LumberCutting
from takeoff.sheets.comparison_words import shared_cuts
from takeoff.sheets.crew.alike import alike, short_ids
from takeoff.sheets.crew.figures import Figures
from takeoff.sheets.cutting_words import begins_within, proven


@dataclass(frozen=True, slots=True, kw_only=True)
class CutRow:
    """A cut of a board: the piece, and where the tape reads at its far end, hooked on the board's start."""

    mark: str
    length: str
    begins: str
    """Where it begins, if that is in the slanted cut of the piece before: long point to long point."""
    reads: str
    reads_inches: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardRow:
    """Equal boards."""

    ids: str
    count: int
    stock: str
    length: str
    special: bool
    on_hand: bool
    trim: str
    """What is cut off each end first, if anything is."""
    cuts: tuple[CutRow, ...]
    leftover: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptRow:
    """Rests of boards of one profile and grade that are worth keeping, the longest first."""

    stock: str
    rests: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardList:
    """The boards of one load."""

    load: int
    words: str
    proofs: tuple[str, ...]
    """What is known of how cheap its boards are."""
    nested: str
    """What slanted ends that share a saw cut save, if there are any."""
    boards: tuple[BoardRow, ...]
    kept: tuple[KeptRow, ...]


def board_lists(lumber: LumberCutting, figures: Figures, *, least_in: float = inf) -> tuple[BoardList, ...]:
    """Boards by load, equal ones in one row, in the order of the cutting; rests of ``least_in`` or more are kept."""
    boards = lumber.boards
    return tuple(
        BoardList(
            load=load,
            words=load_words(load),
            proofs=tuple(_proofs(lumber, load)),
            nested=_nested([b for b in boards if b.load == load], figures),
            boards=tuple(_row(group, figures) for group in alike((b for b in boards if b.load == load), _key)),
            kept=tuple(_kept([b for b in boards if b.load == load and b.leftover_in >= least_in], figures)),
        )
        for load in sorted({board.load for board in boards})
    )


def _kept(boards: Sequence[Board], figures: Figures) -> Iterator[KeptRow]:
    for group in alike(boards, lambda board: (board.profile, board.grade)):
        rests = Counter(figures.length(rest) for rest in sorted((b.leftover_in for b in group), reverse=True))
        words = (length if number == 1 else f"{number} of {length}" for length, number in rests.items())
        yield KeptRow(stock=f"{group[0].profile} {group[0].grade}", rests=", ".join(words))


def _proofs(lumber: LumberCutting, load: int) -> Iterator[str]:
    """``cheapest possible: 2x4 no2, 2x6 stud``: a line for each thing that is known."""
    known = ((words, f"{proof.profile} {proof.grade}") for proof, words in proven(lumber) if proof.load == load)
    for group in alike(known, lambda one: one[0]):
        yield f"{group[0][0]}: {', '.join(stock for _, stock in group)}"


def _nested(boards: Sequence[Board], figures: Figures) -> str:
    laps = [cut.lap_in for board in boards for cut in board.cuts if cut.lap_in]
    return f"{shared_cuts(len(laps))}, which saves {figures.length(sum(laps))} of board" if laps else ""


def _key(board: Board) -> Hashable:
    kind = (board.profile, board.grade, board.stock_length_in, board.special, board.on_hand, board.trim_in)
    return (*kind, board.cuts)


def _row(group: Sequence[Board], figures: Figures) -> BoardRow:
    board = group[0]
    return BoardRow(
        ids=short_ids([one.stock_id for one in group]),
        count=len(group),
        stock=f"{board.profile} {board.grade}",
        length=figures.length(board.stock_length_in),
        special=board.special,
        on_hand=board.on_hand,
        trim=figures.length(board.trim_in) if board.trim_in else "",
        cuts=tuple(_cuts(board, figures)),
        leftover=figures.length(board.leftover_in),
    )


def _cuts(board: Board, figures: Figures) -> Iterator[CutRow]:
    for cut, start, within in zip(board.cuts, board.starts_in, begins_within(board), strict=True):
        yield CutRow(
            mark=cut.mark,
            length=figures.length(cut.length_in),
            begins=figures.length(start) if within else "",
            reads=figures.length(start + cut.length_in),
            reads_inches=figures.inches(start + cut.length_in),
        )
