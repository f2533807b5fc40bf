"""Sheets "Board cutting" and "Sheathing": what is cut from each board and each sheet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from takeoff.catalog.sheets import sheet_product
from takeoff.measure import format_inches, format_length
from takeoff.model.stock import Board, Sheet, SheetPiece
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.comparison_words import buying_words, nesting_words
from takeoff.sheets.cutting_words import begins_within
from takeoff.sheets.sheet_words import sheet_proof_words
from takeoff.sheets.workbook.page import Cell, Heading, Page
from takeoff.sheets.workbook.styles import Style

BOARDS = "Board cutting"
SHEETS = "Sheathing"

_BOARD_HEADINGS = (
    Heading("Board"),
    Heading("Load", is_number=True),
    Heading("Size"),
    Heading("Grade"),
    Heading("Stock"),
    Heading("Cuts, in order from one end", most=80),
    Heading("Left over"),
    Heading("Cut"),
)

_SHEET_HEADINGS = (
    Heading("Sheet"),
    Heading("Load", is_number=True),
    Heading("Product"),
    Heading("Grade"),
    Heading("Size"),
    Heading("Pieces: width across the sheet x length along it", most=80),
    Heading("Used [sq\u00a0ft]", is_number=True),
    Heading("Left [sq\u00a0ft]", is_number=True),
    Heading("Cut"),
)


def write_boards(page: Page, takeoff: Takeoff) -> None:
    """Write one row a board."""
    denominator = takeoff.settings.denominator
    kerf = format_inches(takeoff.settings.kerf_in, denominator=max(32, denominator))
    page.line(f"Lengths are long-point; a kerf of {kerf} is taken off after each cut.")
    for words in _compared(takeoff):
        page.line(words)
    page.headings(_BOARD_HEADINGS, held=True)
    first = page.next_row
    for bought_as, boards in groupby(takeoff.lumber.boards, key=_bought_as):
        of_size = tuple(boards)
        page.band(f"{', '.join(filter(None, bought_as))}: {_number(len(of_size), 'board')}", len(_BOARD_HEADINGS))
        for board in of_size:
            page.add(_board_cells(board, denominator))
    page.filter(range(first, page.next_row), len(_BOARD_HEADINGS))
    boards_in_all = f"All: {_number(len(takeoff.lumber.boards), 'board')}, {_feet(takeoff.lumber.boards)}"
    page.band(boards_in_all, len(_BOARD_HEADINGS))


def _bought_as(board: Board) -> tuple[str, ...]:
    """What boards that are bought alike share, in words."""
    kind = "special order" if board.special else "on hand" if board.on_hand else ""
    return f"Load {board.load}", f"{board.profile} {board.grade}", format_length(board.stock_length_in), kind


def _number(count: int, word: str) -> str:
    return f"{count:,} {word}{'' if count == 1 else 's'}"


def _feet(boards: Iterable[Board]) -> str:
    return f"{sum(board.stock_length_in for board in boards) / 12:,.0f} ft"


def _compared(takeoff: Takeoff) -> Iterator[str]:
    """What it costs to buy few lengths, and what nesting saves."""
    ways = tuple(buying_words(takeoff.comparison))
    if len(ways) > 1:
        yield from (f"Bought {way}." for way in ways)
    nested = nesting_words(takeoff.comparison.nesting, takeoff.settings.denominator)
    if nested:
        yield f"{nested}."


def _board_cells(board: Board, denominator: int) -> tuple[Cell, ...]:
    stock = format_length(board.stock_length_in, denominator=denominator)
    kind = "special" if board.special else "on hand" if board.on_hand else ""
    return (
        Cell(board.stock_id, Style.TEXT),
        Cell(board.load, Style.COUNT),
        Cell(board.profile, Style.TEXT),
        Cell(board.grade, Style.TEXT),
        Cell(f"{stock} ({kind})" if kind else stock, Style.TEXT),
        Cell("; ".join(_cut_words(board, denominator)), Style.WRAP),
        Cell(format_length(board.leftover_in, denominator=denominator), Style.TEXT),
        Cell("", Style.BOX),
    )


def _cut_words(board: Board, denominator: int) -> Iterator[str]:
    """``2 R1 at 13'-7 13/16"``: equal cuts beside each other are said once; where one begins, if in another's slant."""
    begun = zip(board.starts_in, begins_within(board), strict=True)
    starts = (format_length(start, denominator=denominator) if within else "" for start, within in begun)
    for (mark, length, start), same in groupby(
        (cut.mark, cut.length_in, start) for cut, start in zip(board.cuts, starts, strict=True)
    ):
        words = f"{len(list(same))} {mark} at {format_length(length, denominator=denominator)}"
        yield f"{words} beginning at {start}" if start else words


def write_sheets(page: Page, takeoff: Takeoff) -> None:
    """Write one row a sheet."""
    page.line("Sizes are joint to joint: the gap between sheets comes off each piece. The strength axis runs along.")
    for proof in takeoff.sheets.proofs:
        page.line(sheet_proof_words(proof))
    page.headings(_SHEET_HEADINGS, held=True)
    first = page.next_row
    denominator = takeoff.settings.denominator
    for bought_as, sheets in groupby(takeoff.sheets.sheets, key=_sheet_bought_as):
        of_size = tuple(sheets)
        page.band(f"{', '.join(bought_as)}: {_number(len(of_size), 'sheet')}", len(_SHEET_HEADINGS))
        for sheet in of_size:
            page.add(_sheet_cells(sheet, denominator))
    page.filter(range(first, page.next_row), len(_SHEET_HEADINGS))
    page.band(f"All: {_number(len(takeoff.sheets.sheets), 'sheet')}", len(_SHEET_HEADINGS))


def _sheet_bought_as(sheet: Sheet) -> tuple[str, ...]:
    size = f"{format_length(sheet.width_in)} x {format_length(sheet.length_in)}"
    return f"Load {sheet.load}", sheet.product, size


def _sheet_cells(sheet: Sheet, denominator: int) -> tuple[Cell, ...]:
    used_sqft = sum(piece.area_sqin for piece in sheet.pieces) / 144
    return (
        Cell(sheet.sheet_id, Style.TEXT),
        Cell(sheet.load, Style.COUNT),
        Cell(sheet.product, Style.TEXT),
        Cell(sheet_product(sheet.product).face, Style.TEXT),
        Cell(_size(sheet.width_in, sheet.length_in, denominator), Style.TEXT),
        Cell("; ".join(_piece_words(sheet.pieces, denominator)), Style.WRAP),
        Cell(used_sqft, Style.AREA),
        Cell(sheet.length_in * sheet.width_in / 144 - used_sqft, Style.AREA),
        Cell("", Style.BOX),
    )


def _piece_words(pieces: Iterable[SheetPiece], denominator: int) -> Iterator[str]:
    for (mark, length, width), same in groupby(pieces, key=lambda piece: (piece.mark, piece.length_in, piece.width_in)):
        yield f"{len(list(same))} {mark} at {_size(width, length, denominator)}"


def _size(width_in: float, length_in: float, denominator: int) -> str:
    """Across the strength axis and along it, as the crew's book has it."""
    across, along = (format_length(value, denominator=denominator) for value in (width_in, length_in))
    return f"{across} x {along}"
