"""Level outlines of a roof, followed from the eaves up: how far one runs unchanged, and what becomes of it then.

The outline at a height is a set of loops. Each side of a loop lies on the moving line of one edge; each corner draws
a fold. A loop runs on until a side has shrunk to nothing or a corner that turns inward reaches another side; what
has met then is taken out and the loops that are left go on, each for itself.

Source: O. Aichholzer, F. Aurenhammer, "Straight skeletons for general polygonal figures in the plane", 1996, for the
method (title from memory); lines here have speeds of their own, and are evaluated anew at every event.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import dist
from typing import Literal

from takeoff.geometry.moving_line import Motion, MovingLine, corner_motion
from takeoff.geometry.roof_edge import Point, RoofError, along, minus, turn
from takeoff.geometry.untangle import Segment, gathered, untangled
from takeoff.geometry.vec import Vec

Kind = Literal["eave", "ridge", "hip", "valley", "gable"]


@dataclass(frozen=True, slots=True)
class RoofSide:
    """One side of a slope's outline: corners (x, y, height) [in], the slope on its left.

    ``across`` is the index of the slope or wall on the other side; for an eave, of the edge it lies over.
    """

    kind: Kind
    across: int
    start: Vec
    end: Vec


@dataclass(frozen=True, slots=True)
class Front:
    """A side of a loop: the edge whose line it lies on, and the corner it starts in."""

    edge: int
    start: Vec


Loop = tuple[Front, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """What one step of one loop adds: sides by the edge whose slope they bound, and pairs of edges of one slope."""

    sides: tuple[tuple[int, RoofSide], ...]
    seams: tuple[tuple[int, int], ...]
    loops: tuple[Loop, ...]


def advanced(lines: Sequence[MovingLine], loop: Loop, near: float) -> Found:
    """Let one loop rise until it changes.

    Args:
        lines: of all edges.
        loop: level, all its corners at one height.
        near: corners this near each other or a side have met [in].

    Raises:
        RoofError: nothing in the loop moves, or it got entangled.
    """
    edges = [front.edge for front in loop]
    if all(lines[edge].is_wall for edge in edges):
        raise RoofError("no slope reaches the space behind them", edges)
    motions = [corner_motion(lines[loop[k - 1].edge], lines[front.edge], front.start) for k, front in enumerate(loop)]
    height = _next_height(lines, loop, motions, near)
    if height is None:
        raise RoofError("their slopes never meet", edges)
    corners = gathered(_places(lines, loop, motions, height, near), height, near)
    folds, seams = _folds(lines, loop, motions, corners)
    ends = [*corners[1:], corners[0]]
    shrunk = [Segment(f.edge, a, b) for f, a, b in zip(loop, corners, ends, strict=True) if a != b]
    try:
        after = untangled(shrunk, near)
    except ValueError as error:
        raise RoofError(f"their slopes do not meet cleanly: {error}", edges) from error
    sides = [*folds, *(side for pair in after.met for side in _meeting(lines, *pair))]
    loops = []
    for part in after.loops:
        unfolded, met = _without_spikes(lines, part)
        sides += [side for pair in met for side in _meeting(lines, *pair)]
        if unfolded:
            settled, steps = _settled(lines, unfolded)
            sides += steps
            loops.append(_joined(settled))
    return Found(tuple(sides), tuple(seams), tuple(loops))


def _length(segment: Segment) -> float:
    return dist(segment.a[:2], segment.b[:2])


def _next_height(lines: Sequence[MovingLine], loop: Loop, motions: Sequence[Motion], near: float) -> float | None:
    """Least height at which a side has no length left or a corner reaches a side; None if that never comes."""
    now = loop[0].start[2]
    waits = [*_shrinking(lines, loop, motions, now), *_reaching(lines, loop, motions, now, near)]
    return now + min(waits) if waits else None


def _shrinking(lines: Sequence[MovingLine], loop: Loop, motions: Sequence[Motion], now: float) -> Iterator[float]:
    """For each side that shrinks, the height in which it is gone."""
    for k, front in enumerate(loop):
        left, right = motions[k], motions[(k + 1) % len(loop)]
        direction = lines[front.edge].direction
        rate = along(minus(right.speed, left.speed), direction)
        if rate < 0:
            yield max(0.0, along(minus(right.at(now), left.at(now)), direction)) / -rate


def _reaching(
    lines: Sequence[MovingLine], loop: Loop, motions: Sequence[Motion], now: float, near: float
) -> Iterator[float]:
    """For each corner that turns inward and each side in its way, the height in which it gets there."""
    count = len(loop)
    for k, corner in enumerate(motions):
        before, after = lines[loop[k - 1].edge], lines[loop[k].edge]
        if turn(before.direction, after.direction) >= 0 or before.in_line_with(after):
            continue
        place = corner.at(now)
        for j in range(count):
            if j in (k, (k - 1) % count):
                continue
            line = lines[loop[j].edge]
            gap = along(line.normal, place) - line.offset - line.speed * now
            rate = along(line.normal, corner.speed) - line.speed
            if gap <= 0 or rate >= 0:
                continue
            wait = gap / -rate
            if _is_within(line, motions[j], motions[(j + 1) % count], corner, now + wait, near / 2):
                yield wait


def _is_within(line: MovingLine, left: Motion, right: Motion, corner: Motion, height: float, slack: float) -> bool:
    """Whether the corner, on the line at that height, is then between the ends of the side."""
    place = corner.at(height)
    from_left = along(minus(place, left.at(height)), line.direction)
    return from_left > -slack and along(minus(right.at(height), place), line.direction) > -slack


def _places(
    lines: Sequence[MovingLine], loop: Loop, motions: Sequence[Motion], height: float, near: float
) -> list[Point]:
    """Where the corners are at that height; the ends of a side that is gone are one place."""
    places = [motion.at(height) for motion in motions]
    for k, front in enumerate(loop):
        right = (k + 1) % len(loop)
        if along(minus(places[right], places[k]), lines[front.edge].direction) <= near:
            places[right] = places[k]
    return places


def _folds(
    lines: Sequence[MovingLine], loop: Loop, motions: Sequence[Motion], corners: Sequence[Vec]
) -> tuple[list[tuple[int, RoofSide]], list[tuple[int, int]]]:
    """What the corners have drawn: for the slopes on both sides of each, their side; or that they are one slope."""
    sides: list[tuple[int, RoofSide]] = []
    seams: list[tuple[int, int]] = []
    for k, (front, motion, end) in enumerate(zip(loop, motions, corners, strict=True)):
        before, after = loop[k - 1].edge, front.edge
        if lines[before].in_line_with(lines[after]):
            seams.append((before, after))
            continue
        if end == front.start:
            continue
        kind = _fold_kind(lines[before], lines[after], motion)
        sides.append((before, RoofSide(kind, after, front.start, end)))
        sides.append((after, RoofSide(kind, before, end, front.start)))
    return [(edge, side) for edge, side in sides if not lines[edge].is_wall], seams


def _fold_kind(before: MovingLine, after: MovingLine, motion: Motion) -> Kind:
    if before.is_wall or after.is_wall:
        return "gable"
    if turn(before.direction, after.direction) < 0:
        return "valley"
    return "ridge" if motion.is_level else "hip"


def _meeting(lines: Sequence[MovingLine], one: Segment, other: Segment) -> Iterator[tuple[int, RoofSide]]:
    """The tops of two slopes, or of a slope and a wall, that have met face to face."""
    kind: Kind = "gable" if lines[one.edge].is_wall or lines[other.edge].is_wall else "ridge"
    for segment, across in ((one, other.edge), (other, one.edge)):
        if not lines[segment.edge].is_wall:
            yield segment.edge, RoofSide(kind, across, segment.b, segment.a)


def _without_spikes(
    lines: Sequence[MovingLine], loop: tuple[Segment, ...]
) -> tuple[tuple[Segment, ...], list[tuple[Segment, Segment]]]:
    """The loop with its spikes, that only the tolerance left open, folded shut; and the pairs that meet there."""
    rest = list(loop)
    met = []
    while (k := _first_spike(lines, rest)) is not None:
        *rest, one, other = [*rest[k + 1 :], *rest[: k + 1]]
        foot = one.a if _length(one) < _length(other) else other.b
        met.append((Segment(one.edge, foot, one.b), Segment(other.edge, other.a, foot)))
        left = (Segment(one.edge, one.a, foot), Segment(other.edge, foot, other.b))
        rest += [segment for segment in left if segment.a != segment.b]
    return tuple(rest), met


def _first_spike(lines: Sequence[MovingLine], loop: Sequence[Segment]) -> int | None:
    """Where a segment runs back against the one before it."""
    return next((k for k, s in enumerate(loop) if lines[loop[k - 1].edge].runs_against(lines[s.edge])), None)


def _settled(
    lines: Sequence[MovingLine], loop: tuple[Segment, ...]
) -> tuple[tuple[Segment, ...], list[tuple[int, RoofSide]]]:
    """The loop where each stretch in one line has one speed, and the sides of the slopes that changed over.

    Where lines of different speed have come into one, the steeper slope goes on over the whole stretch and the
    flatter one ends at it in a level valley, as a porch roof does under the main roof. A wall counts as steeper than
    any slope, unless the loop would have no slope left: then the slope goes on over the head of the wall.
    """
    settled: list[Segment] = []
    sides: list[tuple[int, RoofSide]] = []
    for stretch in _stretches(lines, loop):
        slopes = [segment for segment in loop if not lines[segment.edge].is_wall]
        only_here = all(segment in stretch for segment in slopes)
        leader = min(
            stretch,
            key=lambda s: (only_here and lines[s.edge].is_wall, lines[s.edge].speed, s.edge),
        ).edge
        for segment in stretch:
            if lines[segment.edge].moves_with(lines[leader]):
                settled.append(segment)
            else:
                settled.append(Segment(leader, segment.a, segment.b))
                sides += _changeover(lines, segment, leader)
    return tuple(settled), sides


def _changeover(lines: Sequence[MovingLine], segment: Segment, leader: int) -> Iterator[tuple[int, RoofSide]]:
    """Top of the slope that ends, bottom of the one that takes over."""
    ends_in_wall, over_wall = lines[leader].is_wall, lines[segment.edge].is_wall
    if not over_wall:
        yield segment.edge, RoofSide("gable" if ends_in_wall else "valley", leader, segment.b, segment.a)
    if not ends_in_wall:
        yield leader, RoofSide("eave" if over_wall else "valley", segment.edge, segment.a, segment.b)


def _stretches(lines: Sequence[MovingLine], loop: tuple[Segment, ...]) -> list[list[Segment]]:
    """The loop cut where it turns, into runs of segments in one line; it may start in the middle of one."""
    turns = [k for k in range(len(loop)) if not lines[loop[k - 1].edge].in_line_with(lines[loop[k].edge])]
    if not turns:
        return [list(loop)]
    whole = [*loop[turns[0] :], *loop[: turns[0]]]
    starts = [k - turns[0] for k in turns]
    return [whole[a:b] for a, b in zip(starts, [*starts[1:], len(whole)], strict=True)]


def _joined(loop: tuple[Segment, ...]) -> Loop:
    """Neighbouring segments of one edge as one side."""
    return tuple(Front(s.edge, s.a) for k, s in enumerate(loop) if loop[k - 1].edge != s.edge)
