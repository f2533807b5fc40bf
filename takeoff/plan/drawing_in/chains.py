"""Closed outlines of the lines on a layer, healed where they miss by little, and told where they miss by more."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from math import dist, floor, hypot

from takeoff.findings import Finding, Severity
from takeoff.measure import format_length
from takeoff.plan.drawing_in.shapes import Path
from takeoff.plan.drawing_in.trace import Point, Trace, at, told

STUB_IN = 1 / 1000
"""A line no longer than this is none [in]; ends no further apart are one point, without a word."""

MOST_LINES = 500
"""More outlines, or lines that don't close by themselves, than this on one layer are no footprint."""

STRAIGHT_IN = 1 / 64
"""A joint of two lines that lies this little off the straight between their far ends is no corner [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A closed outline: corners in order, and for each edge from a corner to the next the entity it was drawn by."""

    points: tuple[Point, ...]
    traces: tuple[Trace, ...]
    drawn_whole: bool = True
    """One polyline: its first corner and its direction are as drawn."""


def rings(paths: Sequence[Path], gap: float) -> tuple[tuple[Ring, ...], tuple[Finding, ...]]:
    """The closed outlines of a layer.

    Args:
        paths: of the layer.
        gap: ends no further apart belong together [in].

    Returns:
        Outlines in the order drawn, and what was healed or (errors) couldn't be.
    """
    findings: list[Finding] = []
    sound = _without_twins([path for path in paths if _has_length(path, findings)], findings)
    closed = [_closed(path, gap, findings) for path in sound]
    found = [ring for ring in closed if ring is not None]
    open_ones = [path for path, ring in zip(sound, closed, strict=True) if ring is None]
    if max(len(open_ones), len(found)) > MOST_LINES:
        message = f"found {len(sound):,} lines and outlines on a layer of outlines, expected at most {MOST_LINES}"
        return tuple(found), (*findings, told(sound[0].trace, "too-large", Severity.ERROR, message))
    found += _Chains(open_ones, gap, findings).rings()
    return tuple(found), tuple(findings)


def _has_length(path: Path, findings: list[Finding]) -> bool:
    if path.length > STUB_IN:
        return True
    findings.append(_healed(path.trace, f"found a line without length at {at(path.points[0])}, left out"))
    return False


def _without_twins(paths: list[Path], findings: list[Finding]) -> list[Path]:
    """One of those that lie on each other."""
    first: dict[frozenset[frozenset[Point]], Path] = {}
    for path in paths:
        corners = [(round(x * 64) / 64, round(y * 64) / 64) for x, y in path.points]
        ends = corners[1:] + (corners[:1] if path.closed else [])
        key = frozenset(frozenset(edge) for edge in zip(corners, ends, strict=False) if edge[0] != edge[1])
        twin = first.setdefault(key, path)
        if twin is not path:
            message = f"found the same at {at(path.points[0])} drawn twice ({twin.trace.handle}), taken once"
            findings.append(_healed(path.trace, message))
    return list(first.values())


def _closed(path: Path, gap: float, findings: list[Finding]) -> Ring | None:
    """The ring of a polyline that closes; none of one that doesn't."""
    points = list(path.points)
    apart = dist(points[0], points[-1])
    if not path.closed:
        if len(points) < 4 or apart > gap:
            return None
        if apart > STUB_IN:
            message = f"found a gap of {_length(apart)} at {at(points[0])}, closed"
            findings.append(_healed(path.trace, message))
    kept: list[Point] = []
    for point in points:
        if kept and dist(kept[-1], point) <= STUB_IN:
            findings.append(_healed(path.trace, f"found the corner {at(point)} twice running, taken once"))
        else:
            kept.append(point)
    while len(kept) > 1 and dist(kept[0], kept[-1]) <= (STUB_IN if path.closed else gap):
        kept.pop()  # the first again: many programs write it so
    return Ring(points=tuple(kept), traces=(path.trace,) * len(kept))


class _Chains:
    """Lines whose ends meet, two at a time."""

    def __init__(self, paths: list[Path], gap: float, findings: list[Finding]) -> None:
        self.paths = paths
        self.gap = gap
        self.findings = findings
        self.ends = [(index, end) for index in range(len(paths)) for end in (0, -1)]
        self.partner: dict[tuple[int, int], tuple[int, int]] = {}
        self._meet()

    def point(self, end: tuple[int, int]) -> Point:
        return self.paths[end[0]].points[end[1]]

    def _meet(self) -> None:
        """Pair the ends; what has no partner, or more than one, is told."""
        for end in self.ends:
            near = self._near(end)
            if len(near) == 1 and self._near(near[0]) == [end]:
                self.partner[end] = near[0]
            elif near and end < min(near):
                handles = ", ".join(self.paths[other[0]].trace.handle for other in near)
                message = f"found more than two lines meeting at {at(self.point(end))} (also {handles}), expected two"
                self.findings.append(told(self.paths[end[0]].trace, "gap", Severity.ERROR, message))
            elif not near:
                self._loose(end)

    def _loose(self, end: tuple[int, int]) -> None:
        point, points = self.point(end), self.paths[end[0]].points
        if len(points) > 3 and not any(self._near((end[0], k)) for k in (0, -1)):
            if end[1] == 0:  # once for both of its ends
                wide = _length(dist(points[0], points[-1]))
                message = f"found an open polyline, its ends {wide} apart at {at(points[0])} and {at(points[-1])}"
                message += ", expected it closed"
                self.findings.append(told(self.paths[end[0]].trace, "gap", Severity.ERROR, message))
            return
        others = [other for other in self.ends if other != end and other[0] != end[0]]
        nearest = min(others, key=lambda other: dist(self.point(other), point), default=None)
        message = f"found a line that ends at {at(point)} and meets none"
        if nearest is not None:
            other, apart = self.paths[nearest[0]].trace, dist(self.point(nearest), point)
            message += f"; the nearest end is {_length(apart)} off at {at(self.point(nearest))} ({other.handle})"
        message += f", expected one within {_length(self.gap)}"
        self.findings.append(told(self.paths[end[0]].trace, "gap", Severity.ERROR, message))

    def _near(self, end: tuple[int, int]) -> list[tuple[int, int]]:
        if not hasattr(self, "_cells"):
            self._cells: dict[tuple[int, int], list[tuple[int, int]]] = defaultdict(list)
            for each in self.ends:
                self._cells[self._cell(self.point(each))].append(each)
        point = self.point(end)
        x, y = self._cell(point)
        around = [other for i in (-1, 0, 1) for j in (-1, 0, 1) for other in self._cells.get((x + i, y + j), ())]
        return sorted(other for other in around if other != end and dist(self.point(other), point) <= self.gap)

    def _cell(self, point: Point) -> tuple[int, int]:
        size = max(self.gap, STUB_IN)
        return (floor(point[0] / size), floor(point[1] / size))

    def rings(self) -> list[Ring]:
        """Those that come back to where they began."""
        used: set[int] = set()
        found: list[Ring] = []
        for index in range(len(self.paths)):
            walked = self._walk(index, used)
            if walked:
                found.append(self._ring(walked))
        return found

    def _walk(self, start: int, used: set[int]) -> list[tuple[int, bool]]:
        """Paths in order from one, each with whether it runs backwards; empty where they don't come back."""
        walked: list[tuple[int, bool]] = []
        index, backwards = start, False
        while index not in used:
            used.add(index)
            walked.append((index, backwards))
            following = self.partner.get((index, 0 if backwards else -1))
            if following is None:
                return []
            index, backwards = following[0], following[1] == -1
        return walked if index == start and len(walked) > 1 else []

    def _ring(self, walked: list[tuple[int, bool]]) -> Ring:
        runs = [
            (self.paths[index].points[::-1] if backwards else self.paths[index].points, self.paths[index].trace)
            for index, backwards in walked
        ]
        points: list[Point] = []
        traces: list[Trace] = []
        for k, (run, trace) in enumerate(runs):
            before, earlier = runs[k - 1]
            corner = self._corner(before, run, earlier, trace)
            if _off_straight(before[-2], corner, run[1]) <= STRAIGHT_IN and _onward(before[-2], corner, run[1]):
                message = f"found a wall drawn as two lines that join at {at(corner)} ({earlier.handle}), taken as one"
                self.findings.append(_healed(trace, message))
                inner = run[1:-1]
            else:
                inner = (corner, *run[1:-1])
            points += inner
            traces += (trace,) * len(inner)
        return _from_lower_left(points, traces)

    def _corner(self, before: Sequence[Point], after: Sequence[Point], earlier: Trace, trace: Trace) -> Point:
        """Where two lines that nearly meet do meet: where they cross, drawn on or cut back; else half-way."""
        (a, b), (c, d) = before[-2:], after[:2]
        apart = dist(b, c)
        if apart <= STUB_IN:
            return b
        self.findings.append(_healed(trace, f"found ends {_length(apart)} apart at {at(b)} ({earlier.handle}), joined"))
        ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]
        turn = ux * vy - uy * vx
        if abs(turn) > 0.05 * hypot(ux, uy) * hypot(vx, vy):
            t = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / turn
            crossed = (a[0] + t * ux, a[1] + t * uy)
            if max(dist(crossed, b), dist(crossed, c)) <= 2 * self.gap:
                return crossed
        return ((b[0] + c[0]) / 2, (b[1] + c[1]) / 2)


def _from_lower_left(points: list[Point], traces: list[Trace]) -> Ring:
    """Lines have no order, so the outline is told counter-clockwise from its lower left corner."""
    following = points[1:] + points[:1]
    if sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, following, strict=True)) < 0:
        points.reverse()
        traces = traces[-2::-1] + traces[-1:]
    first = min(range(len(points)), key=lambda k: (round(points[k][1], 2), points[k][0])) if points else 0
    return Ring(
        points=tuple(points[first:] + points[:first]),
        traces=tuple(traces[first:] + traces[:first]),
        drawn_whole=False,
    )


def _off_straight(a: Point, corner: Point, b: Point) -> float:
    length = dist(a, b)
    if not length:
        return hypot(corner[0] - a[0], corner[1] - a[1])
    return abs((b[0] - a[0]) * (corner[1] - a[1]) - (b[1] - a[1]) * (corner[0] - a[0])) / length


def _onward(a: Point, corner: Point, b: Point) -> bool:
    """Whether the way goes on at a corner, not back."""
    return (corner[0] - a[0]) * (b[0] - corner[0]) + (corner[1] - a[1]) * (b[1] - corner[1]) > 0


def _length(inches: float) -> str:
    return format_length(inches, denominator=64) if inches < 12 else format_length(inches)


def _healed(trace: Trace, message: str) -> Finding:
    return told(trace, "healed", Severity.NOTE, message)
