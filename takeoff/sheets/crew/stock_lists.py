"""Boards and sheets to cut, equal ones together, each with a box to tick."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from takeoff.catalog.roles import load_words
from takeoff.model.building import FramedBuilding
from takeoff.model.stock import Board, Sheet
from takeoff.sheets.crew.figures import Figures

_Stock = TypeVar("_Stock", Board, Sheet)


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
class SheetPieceRow:
    """A piece on a sheet; x runs along the sheet's long side from one corner, y across."""

    mark: str
    size: str
    x: str
    y: str
    where: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRow:
    """Equal sheets."""

    ids: str
    count: int
    size: str
    pieces: tuple[SheetPieceRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardList:
    """The boards of one load."""

    load: int
    words: str
    boards: tuple[BoardRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetList:
    """The sheets of one product in one load."""

    load: int
    words: str
    product: str
    count: int
    sheets: tuple[SheetRow, ...]


def board_lists(boards: Sequence[Board], figures: Figures) -> tuple[BoardList, ...]:
    """Boards by load, equal ones in one row, in the order of the cutting."""
    loads = sorted({board.load for board in boards})
    return tuple(
        BoardList(
            load=load,
            words=load_words(load),
            boards=tuple(_board_row(group, figures) for group in _alike([b for b in boards if b.load == load], _board_key)),
        )
        for load in loads
    )


def sheet_lists(
    sheets: Sequence[Sheet], buildings: Iterable[FramedBuilding], figures: Figures
) -> tuple[SheetList, ...]:
    """Sheets by load and product, equal ones in one row, in the order of the cutting."""
    where = _faces_of(buildings)
    lists = []
    for load, product in sorted({(sheet.load, sheet.product) for sheet in sheets}):
        these = [sheet for sheet in sheets if (sheet.load, sheet.product) == (load, product)]
        rows = tuple(_sheet_row(group, where, figures) for group in _alike(these, _sheet_key))
        lists.append(SheetList(load=load, words=load_words(load), product=product, count=len(these), sheets=rows))
    return tuple(lists)


def _alike(stock: Iterable[_Stock], key: _Key[_Stock]) -> list[list[_Stock]]:
    groups: dict[Hashable, list[_Stock]] = {}
    for one in stock:
        groups.setdefault(key(one), []).append(one)
    return list(groups.values())


def _board_key(board: Board) -> Hashable:
    return (board.profile, board.grade, board.stock_length_in, board.special, board.cuts)


def _sheet_key(sheet: Sheet) -> Hashable:
    places = tuple((p.mark, p.x_in, p.y_in, p.length_in, p.width_in) for p in sheet.pieces)
    return (sheet.length_in, sheet.width_in, places)


def _ids(first: str, last: str) -> str:
    return first if first == last else f"{first} to {last}"
