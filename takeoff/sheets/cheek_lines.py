"""Cheek cuts as the side of a stick shows them: where the shorter face ends, seen from its right.

The outline is that of the longer face. A corner of the near face is drawn solid, one of the far face dashed.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import sin
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import Vec
from takeoff.sheets.drawing import EDGE, GUIDE, HIDDEN, Item, Line, Pen
from takeoff.sheets.stick_end import StickEnd, stick_ends

if TYPE_CHECKING:
    from takeoff.model.member import Member


def cheek_lines(member: Member, x0: float, x1: float) -> Iterator[Item]:
    """Lines of the cheek cuts, plumb or along what the stick lies on, that lie between two stations along a rafter.

    Args:
        member: a member with a ``rafter``.
        x0: first station [in].
        x1: last station [in].
    """
    for end in stick_ends(member):
        for x, pen in _stations(end):
            if x0 <= x <= x1:
                yield from _line(member, x, pen, end.cuts[0].normal)


def _stations(end: StickEnd) -> Iterator[tuple[float, Pen]]:
    """Where on the top edge a face or the centre line ends short of the long point."""
    if not end.is_cheek:
        return
    tip = end.long_point
    near, far, middle = end.at(end.half), end.at(-end.half), end.at(0.0)
    if abs(near - tip) > TOLERANCE.mark:
        yield near, EDGE
    if abs(far - tip) > TOLERANCE.mark and abs(far - near) > TOLERANCE.mark:
        yield far, HIDDEN
    if abs(middle - tip) > TOLERANCE.mark:
        yield middle, GUIDE


def _line(member: Member, x: float, pen: Pen, normal: Vec) -> Iterator[Line]:
    from shapely import LineString, get_parts

    assert member.rafter is not None
    depth, over = member.rafter.depth, 1.0 / max(sin(member.rafter.angle), 0.1)
    lean = -normal[1] / normal[0]
    line = LineString([(x + over * lean, depth + over), (x - (depth + over) * lean, -over)])
    for part in get_parts(line.intersection(member.side)):
        if part.geom_type == "LineString" and part.length > TOLERANCE.mark:
            (ax, ay), *_, (bx, by) = part.coords
            yield Line((ax, ay), (bx, by), pen)
