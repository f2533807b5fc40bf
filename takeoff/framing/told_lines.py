"""The exact lines of slopes told by outline, and the places where they meet; what doesn't meet is refused in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

from takeoff.geometry.roof_edge import PARALLEL, Point, along, minus, turn
from takeoff.measure import format_length
from takeoff.plan.slope_edges import TOUCH_IN

if TYPE_CHECKING:
    from takeoff.framing.roof_lines import RoofSideLine
    from takeoff.plan.schema import Building
    from takeoff.plan.slope_edges import SlopeEdge, TracedSlopes

PAST_IN = 1 / 64
"""Lines that meet in one corner pass it no further [in]."""

LEVEL = 1e-9
"""Two planes whose rise differs by less, in any direction, are parallel."""


class SlopeError(ValueError):
    """Slopes that don't meet where they are told to.

    Attributes:
        path: of the point in the plan, within the building.
    """

    def __init__(self, message: str, path: str) -> None:
        super().__init__(message)
        self.path = path


@dataclass(frozen=True, slots=True)
class _Line:
    """A line in plan: ``normal . (x, y) = at``, the normal a unit vector."""

    normal: Point
    at: float

    def off(self, spot: Point) -> float:
        """How far a place is off it [in]."""
        return along(self.normal, spot) - self.at


@dataclass(frozen=True, slots=True)
class Plane:
    """The rafters' tops of one slope: height = ``at`` + ``rise . (x, y)`` [in]."""

    rise: Point
    at: float

    def height(self, spot: Point) -> float:
        """Above the deck [in]."""
        return self.at + along(self.rise, spot)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """The slopes as told, with their planes and the lines of the sides that they are laid out from."""

    building: Building
    traced: TracedSlopes
    lines: Sequence[RoofSideLine]
    planes: tuple[Plane, ...]

    def name(self, index: int) -> str:
        """Of a slope."""
        return repr(self.building.outlines.slopes[index].name)

    def refused(self, index: int, edge: SlopeEdge, message: str) -> SlopeError:
        """The error that names an edge of a slope."""
        head = f"edge {edge.number} of {self.name(index)}"
        return SlopeError(f"{head} {message}", f"outlines.slopes[{index}].points[{edge.number - 1}]")


def plane(line: RoofSideLine) -> Plane:
    """The plane of the slope that starts on a side."""
    (x, y), (nx, ny) = line.side.start, line.side.normal
    rise = (-nx * line.slope, -ny * line.slope)
    return Plane(rise, line.plate + line.stand - along(rise, (x, y)))


def _line_of(told: Told, index: int, edge: SlopeEdge) -> _Line | None:
    """The exact line of an edge; None where two slopes lie in parallel planes, or end at a wall between them."""
    if edge.across is None:
        return _moved(told.lines[edge.side or 0])
    wall = wall_between(told, edge)
    if wall is not None:
        return _moved(told.lines[wall])
    return _meeting(told.planes[index], told.planes[edge.across])


def _meeting(one: Plane, other: Plane) -> _Line | None:
    """Where two planes are equally high."""
    steeper = minus(one.rise, other.rise)
    size = hypot(*steeper)
    return None if size < LEVEL else _Line((steeper[0] / size, steeper[1] / size), (other.at - one.at) / size)


def _moved(line: RoofSideLine) -> _Line:
    """A side's line at its tail cuts or barges."""
    return _Line(line.side.normal, along(line.side.normal, line.side.start) + line.out)


def wall_between(told: Told, edge: SlopeEdge) -> int | None:
    """The gable or abutment whose wall stands on into the roof along an edge, its slopes at different heights."""
    one, other = (told.planes[k] for k in _both(told, edge))
    ends = told.traced.ends(edge)
    if all(abs(one.height(p) - other.height(p)) <= TOUCH_IN for p in ends):
        return None
    for k, line in enumerate(told.lines):
        if not line.bears and all(abs(_moved(line).off(p)) <= TOUCH_IN for p in ends):
            return k
    return None


def _both(told: Told, edge: SlopeEdge) -> tuple[int, int]:
    """The two slopes of a shared edge."""
    ends = (edge.start, edge.end)
    own = next(slope.index for slope in told.traced.slopes for one in slope.edges if (one.start, one.end) == ends)
    return own, own if edge.across is None else edge.across


def spots(told: Told) -> tuple[Point, ...]:
    """Where the nodes are: on all lines that run into them.

    Raises:
        SlopeError: an edge isn't where its slopes meet.
    """
    at: list[list[_Line]] = [[] for _ in told.traced.nodes]
    for slope in told.traced.slopes:
        for edge in slope.edges:
            line = _line_of(told, slope.index, edge)
            if line is None:
                raise _parallel(told, slope.index, edge)
            at[edge.start].append(line)
            at[edge.end].append(line)
    found = tuple(_meeting_point(node, lines) for node, lines in zip(told.traced.nodes, at, strict=True))
    for slope in told.traced.slopes:
        for edge in slope.edges:
            _refuse_elsewhere(told, slope.index, edge, found)
    return found


def _parallel(told: Told, index: int, edge: SlopeEdge) -> SlopeError:
    """Slopes of one pitch and direction."""
    one, other = told.planes[index], told.planes[edge.across or 0]
    a, _ = told.traced.ends(edge)
    apart, name = abs(one.height(a) - other.height(a)), told.name(edge.across or 0)
    if apart <= TOUCH_IN:
        return told.refused(index, edge, f"parts it from {name}, but both lie in one plane; write them as one slope")
    message = (
        f"is shared with {name}, but both rise alike and are {format_length(apart)} apart in height: they never meet;"
        " change a pitch or a plate, or write them as one slope"
    )
    return told.refused(index, edge, message)


def _meeting_point(node: Point, lines: Sequence[_Line]) -> Point:
    """The place nearest to a node on the lines through it; where they all run one way, straight over to them."""
    # Least squares: sum(n n^T) d = -sum(n * off); with one direction only, d along it is left at 0.
    a = sum(line.normal[0] ** 2 for line in lines)
    b = sum(line.normal[0] * line.normal[1] for line in lines)
    c = sum(line.normal[1] ** 2 for line in lines)
    p, q = (sum(-line.normal[k] * line.off(node) for line in lines) for k in (0, 1))
    det = a * c - b * b
    if det < LEVEL * len(lines) ** 2:
        trace = a + c
        return (node[0] + p / trace, node[1] + q / trace)
    return (node[0] + (c * p - b * q) / det, node[1] + (a * q - b * p) / det)


def _refuse_elsewhere(told: Told, index: int, edge: SlopeEdge, spots: Sequence[Point]) -> None:
    """Refuse a shared edge that isn't where its two planes meet, and a corner that its lines pass by.

    A corner of the building, where two sides' tails and barges meet, may be written over the walls: it is moved.

    Raises:
        SlopeError: naming the edge, how far off it is, and where the planes do meet.
    """
    line = _line_of(told, index, edge)
    if line is None or edge.across is None:
        return
    other = told.name(edge.across)
    for node in (edge.start, edge.end):
        written, spot = told.traced.nodes[node], spots[node]
        past = abs(line.off(spot))
        if abs(line.off(written)) > TOUCH_IN and not (past <= PAST_IN and _is_corner(told, node)):
            heights = [told.planes[k].height(written) for k in (index, edge.across)]
            mend = _mended(told, node, line)
            message = (
                f"is shared with {other}, but at {_at(written)} {told.name(index)} is {format_length(heights[0])} high"
                f" and {other} {format_length(heights[1])}, {format_length(abs(heights[0] - heights[1]))} apart; they"
                f" meet {format_length(abs(line.off(written)))} from there: put that corner at {_at(mend)}, or change a"
                " pitch or a plate"
            )
            raise told.refused(index, edge, message)
        if past > PAST_IN:
            message = (
                f"meets {other} in a line that passes the other edges of its corner at {_at(spot)} by"
                f" {format_length(past, denominator=32)}; give slopes that meet there one pitch and one height of eave"
            )
            raise told.refused(index, edge, message)


def _mended(told: Told, node: int, line: _Line) -> Point:
    """Where a corner is to be written: on all lines that meet there, if there is such a place, or else on that line."""
    over = told.building.outlines.reach == "plate_line"
    meeting = [(k.index, edge) for k in told.traced.slopes for edge in k.edges if node in (edge.start, edge.end)]
    sides = [told.lines[edge.side] for _, edge in meeting if edge.side is not None]
    borders = [_moved(replace(side, out=0.0) if over else side) for side in sides]
    folds = [_line_of(told, index, edge) for index, edge in meeting if edge.across is not None]
    written = told.traced.nodes[node]
    best = _meeting_point(written, [*borders, *filter(None, folds)])
    return best if abs(line.off(best)) <= PAST_IN else _meeting_point(written, [line, *borders])


def _is_corner(told: Told, node: int) -> bool:
    """Whether the tails or barges of two sides meet there."""
    free = [
        told.lines[edge.side].side.normal
        for slope in told.traced.slopes
        for edge in slope.edges
        if edge.side is not None and node in (edge.start, edge.end)
    ]
    return any(abs(turn(free[0], normal)) > PARALLEL for normal in free[1:])


def _at(spot: Point) -> str:
    return f"({format_length(spot[0])}, {format_length(spot[1])})"
