"""Boards to cut, equal ones together."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass

from takeoff.catalog.roles import load_words
from takeoff.model.stock import Board
from takeoff.sheets.crew.alike import alike, short_ids
from takeoff.sheets.crew.figures import Figures


@dataclass(frozen=True, slots=True, kw_only=True)
class CutRow:
    """A cut of a board: the piece, and where the tape reads at its far end, hooked on the board's start."""

    mark: str
    length: str
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
    cuts: tuple[CutRow, ...]
    leftover: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardList:
    """The boards of one load."""

    load: int
    words: str
    boards: tuple[BoardRow, ...]


def board_lists(boards: Sequence[Board], figures: Figures) -> tuple[BoardList, ...]:
    """Boards by load, equal ones in one row, in the order of the cutting."""
    return tuple(
        BoardList(
            load=load,
            words=load_words(load),
            boards=tuple(_row(group, figures) for group in alike((b for b in boards if b.load == load), _key)),
        )
        for load in sorted({board.load for board in boards})
    )


def _key(board: Board) -> Hashable:
    return (board.profile, board.grade, board.stock_length_in, board.special, board.cuts)


def _row(group: Sequence[Board], figures: Figures) -> BoardRow:
    board = group[0]
    return BoardRow(
        ids=short_ids([one.stock_id for one in group]),
        count=len(group),
        stock=f"{board.profile} {board.grade}",
        length=figures.length(board.stock_length_in),
        special=board.special,
        cuts=tuple(_cuts(board, figures)),
        leftover=figures.length(board.leftover_in),
    )


def _cuts(board: Board, figures: Figures) -> Iterator[CutRow]:
    reads = 0.0
    for cut in board.cuts:
        reads += cut.length_in
        yield CutRow(
            mark=cut.mark,
            length=figures.length(cut.length_in),
            reads=figures.length(reads),
            reads_inches=figures.inches(reads),
        )
        reads += board.kerf_in
