"""Tables of sticks: pieces to cut, members in place, and the boards they are cut from."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.measure import format_length
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.tables.table import ANGLE, LENGTH, Column, Row, Table


def _pieces(takeoff: Takeoff) -> Iterator[Row]:
    for piece in takeoff.pieces:
        yield (
            piece.building,
            piece.load,
            piece.mark,
            piece.role,
            piece.profile,
            piece.grade,
            piece.qty,
            piece.length_in,
            format_length(piece.length_in, denominator=takeoff.settings.denominator),
            piece.miters_deg[0],
            piece.bevels_deg[0],
            piece.miters_deg[1],
            piece.bevels_deg[1],
            piece.face,
        )


def _members(takeoff: Takeoff) -> Iterator[Row]:
    for building in takeoff.buildings:
        for member in building.members:
            start, end = member.centre_line
            yield (
                building.name,
                member.mark,
                member.role.name,
                member.profile.name,
                member.grade,
                member.face,
                member.length_in,
                *start,
                *end,
            )


def _cuts(takeoff: Takeoff) -> Iterator[Row]:
    for board in takeoff.lumber.boards:
        for position, (cut, start_in) in enumerate(zip(board.cuts, board.starts_in, strict=True), start=1):
            yield (
                board.stock_id,
                board.profile,
                board.grade,
                board.stock_length_in,
                position,
                cut.mark,
                cut.length_in,
                board.leftover_in,
                start_in,
                start_in + cut.length_in,
            )


PIECES = Table(
    file="pieces.csv",
    columns=(
        Column("building"),
        Column("load"),
        Column("mark"),
        Column("role"),
        Column("profile"),
        Column("grade"),
        Column("qty"),
        Column("length_in", LENGTH),
        Column("length_text"),
        Column("left_miter_deg", ANGLE),
        Column("left_bevel_deg", ANGLE),
        Column("right_miter_deg", ANGLE),
        Column("right_bevel_deg", ANGLE),
        Column("face"),
    ),
    rows=_pieces,
)
"""One row a mark in a building. ``qty`` is of all copies of the building together; lengths are long-point."""

MEMBERS = Table(
    file="members.csv",
    columns=(
        Column("building"),
        Column("mark"),
        Column("role"),
        Column("profile"),
        Column("grade"),
        Column("face"),
        Column("length_in", LENGTH),
        Column("x0", LENGTH),
        Column("y0", LENGTH),
        Column("z0", LENGTH),
        Column("x1", LENGTH),
        Column("y1", LENGTH),
        Column("z1", LENGTH),
    ),
    rows=_members,
)
"""One row a placed member of one copy of a building; times the building's count they are the pieces of ``PIECES``.

The ends are those of the centre line [in]: x east, y north, z up from the top of the main floor deck.
"""

CUTTING = Table(
    file="cutting.csv",
    columns=(
        Column("stock_id"),
        Column("profile"),
        Column("grade"),
        Column("stock_length_in", LENGTH),
        Column("position"),
        Column("mark"),
        Column("length_in", LENGTH),
        Column("leftover_in", LENGTH),
        Column("begins_in", LENGTH),
        Column("ends_in", LENGTH),
    ),
    rows=_cuts,
)
"""One row a piece cut. ``position`` counts from the end the cutting starts at; ``leftover_in`` is what is left of the
whole board, the same on each of its rows. ``begins_in`` and ``ends_in`` are read on a tape hooked on that end, saw cuts
included; a piece begins before the last one ends where one saw cut makes the slanted ends of both."""
