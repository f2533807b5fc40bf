"""Lines of the order for boards, timbers and beams."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import groupby

from takeoff.catalog.prices import PriceList
from takeoff.catalog.profiles import Kind, profile
from takeoff.catalog.roles import CATEGORIES, role
from takeoff.catalog.weights import weight_per_ft
from takeoff.cutting.natural import natural_key
from takeoff.measure import format_length
from takeoff.model.order import OrderLine
from takeoff.model.stock import Board, LumberCutting, Piece
from takeoff.order.allowance import Allowances, with_allowance
from takeoff.order.money import unit_price

_ENGINEERED_CATEGORY = "beams"


def board_lines(
    pieces: tuple[Piece, ...], lumber: LumberCutting, allowances: Allowances, prices: PriceList, species: str
) -> Iterator[OrderLine]:
    """A line for each load, profile, grade and stock length; special lengths have lines of their own.

    Arguments as of ``order_lines``.
    """
    category_of = {piece.mark: role(piece.role).category for piece in pieces}
    bought = (board for board in lumber.boards if not board.on_hand)
    for _, group in groupby(sorted(bought, key=_bought_as), key=_bought_as):
        boards = tuple(group)
        line = _line(boards, _category(boards, category_of), allowances, prices, species)
        yield replace(line, used_for=_used_for(boards, category_of))


def _bought_as(board: Board) -> tuple[object, ...]:
    return (board.load, natural_key(board.profile), board.grade, board.stock_length_in, board.special)


def _category(boards: tuple[Board, ...], category_of: Mapping[str, str]) -> str:
    """What most of equal boards is for: it decides their allowance.

    A board may hold pieces of several categories (a block from the rest of a plate), and a yard sees only boards.
    Engineered wood is ordered as beams whatever it carries: it is cut to order and has no culls.
    """
    if profile(boards[0].profile).kind is Kind.ENGINEERED:
        return _ENGINEERED_CATEGORY
    return _used_for(boards, category_of)[0]


def _used_for(boards: tuple[Board, ...], category_of: Mapping[str, str]) -> tuple[str, ...]:
    """Categories of the pieces cut from equal boards; the one with the greatest length first."""
    lengths = dict.fromkeys(CATEGORIES, 0.0)
    for board in boards:
        for cut in board.cuts:
            lengths[category_of[cut.mark]] += cut.length_in
    return tuple(sorted((name for name in CATEGORIES if lengths[name]), key=lambda name: -lengths[name]))


def _line(
    boards: tuple[Board, ...], category: str, allowances: Allowances, prices: PriceList, species: str
) -> OrderLine:
    board, stick = boards[0], profile(boards[0].profile)
    waste_pct = allowances.pct(category)
    qty_order = with_allowance(len(boards), waste_pct)
    total_ft = qty_order * board.stock_length_in / 12
    return OrderLine(
        load=board.load,
        category=category,
        item=_item(board, stick.kind),
        profile=board.profile,
        grade=board.grade,
        stock_length_in=board.stock_length_in,
        qty_net=len(boards),
        waste_pct=waste_pct,
        qty_order=qty_order,
        unit="each",
        board_feet=stick.board_feet_per_ft * total_ft,
        weight_lb=weight_per_ft(stick, board.grade, species) * total_ft,
        unit_price=unit_price(prices, board.profile, board.grade, board.stock_length_in),
        special=board.special,
    )


def _item(board: Board, kind: Kind) -> str:
    """``2x10 no2, 14'-0"``; of engineered wood the material comes first: ``glulam 5-1/2x14, 30'-0"``."""
    names = (board.grade, board.profile) if kind is Kind.ENGINEERED else (board.profile, board.grade)
    return f"{' '.join(names)}, {format_length(board.stock_length_in)}"
