"""Where each piece lies on its sheet, and what is left of the sheet."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from takeoff.cutting.sheet.pricing import Pattern, Stock, Strip
from takeoff.cutting.sheet.shape import Pose
from takeoff.cutting.sheet_problem import PanelPiece
from takeoff.cutting.steps import inches, steps_up
from takeoff.model.stock import Leftover, SheetPiece

LEAST_LEFT_IN = (24.0, 6.0)
"""Length and width of a rest that is worth keeping [in]. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Posed:
    """A piece to cut, and the pose that takes it to its shape's least one."""

    piece: PanelPiece
    pose: Pose


Waiting = Mapping[int, deque[Posed]]
"""The pieces of each item that have no place yet."""


def placed(pattern: Pattern, stock: Stock, waiting: Waiting) -> tuple[SheetPiece, ...]:
    """The pieces of one sheet, row by row; of what is made too much nothing is placed."""
    found: list[SheetPiece] = []
    y = 0
    for strip in _rows(pattern):
        found += _row(strip, y, stock, waiting)
        y += strip.height
    return tuple(found)


def _rows(pattern: Pattern) -> Sequence[Strip]:
    return sorted(pattern.strips, key=lambda strip: (-strip.height, -strip.length, strip.content))


def _row(strip: Strip, y: int, stock: Stock, waiting: Waiting) -> Iterator[SheetPiece]:
    x = 0
    for number, count in sorted(strip.content, key=lambda one: (-stock.blocks[one[0]].length, one[0])):
        for _ in range(count):
            block, any_placed = stock.blocks[number], False
            for part in block.parts:
                if waiting[part.item]:
                    any_placed = True
                    yield _placed(waiting[part.item].popleft(), part.pose, x + part.at, y)
            x += block.length if any_placed else 0


def _placed(posed: Posed, pose: Pose, x: int, y: int) -> SheetPiece:
    piece = posed.piece
    sx, sy = pose[0] * posed.pose[0], pose[1] * posed.pose[1]
    # Turned about the whole steps it was reckoned with, so that a slanted end stands where its neighbour was told.
    x_in = inches(x) + (inches(steps_up(piece.length_in)) - piece.length_in if sx < 0 else 0.0)
    y_in = inches(y) + (inches(steps_up(piece.width_in)) - piece.width_in if sy < 0 else 0.0)
    return SheetPiece(
        building=piece.building,
        mark=piece.mark,
        x_in=x_in,
        y_in=y_in,
        length_in=piece.length_in,
        width_in=piece.width_in,
        outline_in=tuple(
            (x_in + (u if sx > 0 else piece.length_in - u), y_in + (v if sy > 0 else piece.width_in - v))
            for u, v in piece.corners_in
        ),
    )


def leftovers(pieces: Sequence[SheetPiece], length_in: float, width_in: float, kerf_in: float) -> Iterator[Leftover]:
    """What is left of a sheet in rectangles worth keeping: at the end of each row, and beside the last row."""
    starts = sorted({piece.y_in for piece in pieces})
    for k, y in enumerate(starts):
        row = [piece for piece in pieces if piece.y_in == y]
        high = max(piece.width_in for piece in row)
        if k + 1 < len(starts):
            high = min(high, starts[k + 1] - y)
        end = max(piece.x_in + piece.length_in for piece in row) + kerf_in
        yield from _worth_keeping(end, y, length_in - end, high)
    top = max((piece.y_in + piece.width_in for piece in pieces), default=0.0) + kerf_in
    yield from _worth_keeping(0.0, top, length_in, width_in - top)


def _worth_keeping(x: float, y: float, length: float, width: float) -> Iterator[Leftover]:
    if length >= LEAST_LEFT_IN[0] and width >= LEAST_LEFT_IN[1]:
        yield Leftover(x_in=x, y_in=y, length_in=length, width_in=width)
