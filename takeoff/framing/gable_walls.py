"""What the roof asks of a gable wall: the rake its studs run to, and the posts under the ridges that end on it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.framing.gable_end import ridge_post
from takeoff.framing.roof_frame import RoofFrame
from takeoff.framing.wall import RakeLine, RidgeOver, RidgePost, Wall
from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from takeoff.framing.roof_lines import RoofSideLine
    from takeoff.framing.slope import Slope

Point = tuple[float, float]


def rake_line(frame: RoofFrame, line: RoofSideLine) -> RakeLine | None:
    """Underside of the rafters over a gable wall, in the wall's own u and v; None where no slope ends over it."""
    parts = sorted(part for slope in frame.plan.slopes for part in _undersides(slope, line))
    return RakeLine(points=tuple(point for part in parts for point in part)) if parts else None


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
