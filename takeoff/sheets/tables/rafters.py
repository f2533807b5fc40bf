"""The rafter table: every figure the carpenter asks for, one row a mark."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.measure import Pitch
from takeoff.model.member import Member
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.rafter_words import kind_words
from takeoff.sheets.tables.table import ANGLE, LENGTH, Column, Row, Table


def _rows(takeoff: Takeoff) -> Iterator[Row]:
    stock = least_stock_in(takeoff)
    cut_as = {(member.building, member.mark): member for member in _rafters(takeoff)}
    for piece in takeoff.pieces:
        member = cut_as.get((piece.building, piece.mark))
        if member is not None:
            yield piece.building, piece.mark, *_figures(member), piece.length_in, stock.get(piece.mark), piece.qty


def _rafters(takeoff: Takeoff) -> Iterator[Member]:
    return (member for building in takeoff.buildings for member in building.members if member.rafter is not None)


def _figures(member: Member) -> Row:
    rafter = member.rafter
    assert rafter is not None  # only sticks that were made from a rafter's geometry come here
    return (
        kind_words(member),
        str(Pitch(rafter.slope * 12)),
        rafter.run,
        rafter.rise,
        rafter.line_length,
        rafter.plumb_deg,
        rafter.seat_deg,
        rafter.seat,
        rafter.heel,
        rafter.height_above_plate,
        rafter.ridge_shortening,
        rafter.tail,
    )


def least_stock_in(takeoff: Takeoff) -> dict[str, float]:
    """Shortest board that each mark is cut from [in], by mark."""
    shortest: dict[str, float] = {}
    for board in takeoff.lumber.boards:
        for cut in board.cuts:
            shortest[cut.mark] = min(board.stock_length_in, shortest.get(cut.mark, board.stock_length_in))
    return shortest


RAFTERS = Table(
    file="rafters.csv",
    columns=(
        Column("building"),
        Column("mark"),
        Column("kind"),
        Column("pitch"),
        Column("run_in", LENGTH),
        Column("rise_in", LENGTH),
        Column("line_length_in", LENGTH),
        Column("plumb_deg", ANGLE),
        Column("seat_deg", ANGLE),
        Column("seat_in", LENGTH),
        Column("heel_in", LENGTH),
        Column("height_above_plate_in", LENGTH),
        Column("ridge_shortening_in", LENGTH),
        Column("tail_in", LENGTH),
        Column("overall_in", LENGTH),
        Column("stock_length_in", LENGTH),
        Column("qty"),
    ),
    rows=_rows,
)
"""One row a rafter mark in a building.

``kind``: common, end, hip, valley, hip jack, valley jack, cripple jack or barge. Of a hip or valley ``pitch`` and
``run_in`` are along it.

Seat and heel are 0 where there is no bird's mouth; ``heel_in`` is the plumb height of the full bird's mouth, as if the
tail weren't ripped. ``overall_in`` is long-point. ``stock_length_in`` is the shortest board that this mark is cut from;
``qty`` is of all copies of the building together.
"""
