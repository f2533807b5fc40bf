"""What the roof asks of a gable wall: the rake its studs run to, and the posts under the ridges that end on it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.framing.clips import clipped_rake, level_top
from takeoff.framing.gable_end import ridge_post
from takeoff.framing.roof_frame import RoofFrame
from takeoff.framing.wall import RidgeOver, RidgePost, Wall
from takeoff.geometry.rake_line import RakeLine
from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.roof_lines import RoofSideLine
    from takeoff.framing.slope import Slope

Point = tuple[float, float]


def rake_line(frame: RoofFrame, line: RoofSideLine, studs: Profile) -> RakeLine | None:
    """Underside of the rafters over a gable wall, in the wall's own u and v; None where no slope ends over it.

    Under a clip it is level, below the two plates that the wall has there.
    """
    parts = sorted(part for slope in frame.plan.slopes for part in _undersides(slope, line))
    under = [under for slope in frame.plan.slopes for under in _under_ledgers(frame, slope, line)]
    for u0, u1, v in under:
        parts = [clear for part in parts for clear in _lowered(part, u0, u1, v)]
    level = level_top(frame, line, studs)
    if level:
        parts = sorted(clipped_rake(parts, level))
    return RakeLine(points=tuple(point for part in parts for point in part), level=level) if parts else None


def _under_ledgers(frame: RoofFrame, slope: Slope, line: RoofSideLine) -> Iterator[tuple[float, float, float]]:
    """Where a ledger crosses the end of a wall: from where to where along it, and the ledger's lower edge."""
    (sx, sy), (dx, dy) = line.side.start, line.side.direction
    for edge in slope.outline.edges_with("ledger"):
        for u in slope.walls:
            x, y, top = slope.bench.placement.to_world((u, edge.a[1], 0.0))
            along, away = (x - sx) * dx + (y - sy) * dy, abs((x - sx) * dy - (y - sy) * dx)
            if away < TOLERANCE.length * 10:
                thickness = slope.halves.ledger
                low = top - thickness * slope.common.slope - frame.ledger_depth
                yield (along - thickness, along, low) if along > thickness else (along, along + thickness, low)


def _lowered(part: tuple[Point, Point], u0: float, u1: float, v: float) -> Iterator[tuple[Point, Point]]:
    """A part of a rake with what lies between two places brought down to a level line."""
    rake = RakeLine(points=part)
    (a, _), (b, _) = part
    left, right = max(a, u0), min(b, u1)
    if right - left < TOLERANCE.length:
        yield part
        return
    if left > a:
        yield part[0], (left, rake.at(left))
    yield (left, min(v, rake.at(left))), (right, min(v, rake.at(right)))
    if right < b:
        yield (right, rake.at(right)), part[1]


def _over(slope: Slope, line: RoofSideLine, corner: Point) -> bool:
    """Whether a corner of a slope lies over the outer line of a gable."""
    x, y, _ = slope.bench.placement.to_world((*corner, 0.0))
    (sx, sy), (nx, ny) = line.side.start, line.side.normal
    return abs((x - sx) * nx + (y - sy) * ny - line.out) < TOLERANCE.length * 10


def _undersides(slope: Slope, line: RoofSideLine) -> Iterator[tuple[Point, Point]]:
    """A slope's rakes over the wall, moved in to the wall's outside: left and right end of each."""
    (sx, sy), (dx, dy) = line.side.start, line.side.direction
    for edge in slope.outline.edges_with("rake"):
        if not (_over(slope, line, edge.a) and _over(slope, line, edge.b)):
            continue
        ends = []
        for corner in (edge.a, edge.b):
            x, y, top = slope.bench.placement.to_world((*corner, 0.0))
            ends.append(((x - sx) * dx + (y - sy) * dy, top - slope.common.plumb_depth))
        # Another wing may have its gable in the same line.
        if min(ends)[0] < line.side.length_in and max(ends)[0] > 0:
            yield min(ends), max(ends)


def ridges_over(frame: RoofFrame, wall: Wall) -> tuple[RidgeOver, ...]:
    """Ridges that end over a wall, in the wall's own u and v."""
    return tuple(
        RidgeOver(u=(u - half, u + half), bottom=end.ridge.bottom)
        for end in frame.ends_over(wall.side.name)
        for u, half in ((_along(wall, end.spot), end.ridge.profile.thickness_in / 2),)
    )


def _along(wall: Wall, spot: Point) -> float:
    (sx, sy), (dx, dy) = wall.side.start, wall.side.direction
    return (spot[0] - sx) * dx + (spot[1] - sy) * dy


def posts_under(frame: RoofFrame, wall: Wall) -> tuple[RidgePost, ...]:
    """Posts in a wall under the ridge beams that end on it."""
    return tuple(
        ridge_post(wall, end.ridge.profile, _along(wall, end.spot), end.ridge.bottom)
        for end in frame.ends_over(wall.side.name)
        if end.ridge.beam
    )
