"""The outline of a floor: where it lies in the building, which way its joists run, what its edges are."""

from __future__ import annotations

from math import dist, hypot
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.geometry.outline import ring
from takeoff.geometry.shifted import shifted
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.plan.floors import Loft, MainFloor
from takeoff.plan.loft_shape import wanted_of

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from takeoff.framing.floor_girders import FloorGirder
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.schema import Building

Point = tuple[float, float]

ALONG = 0.02
"""An edge that turns off the joists by less than this runs along them: sine of about a degree."""

AT_WALLS = {"hang": "ledger", "bear": "bear", "plates": "plate"}
"""Role of a loft's edge at a wall that joists end on, by what they do there."""


def outline_of(building: Building, ground: Footprint, floor: MainFloor | Loft) -> tuple[Point, ...]:
    """Corners of a floor, counter-clockwise; of a loft only what lies inside the walls."""
    from shapely import Polygon

    if isinstance(floor, MainFloor):
        shape = Polygon(floor.outline or ground.points)
        return _ccw(shape)
    inside = Polygon(inside_of(building, ground))
    return _ccw(Polygon(wanted_of(ground, floor)).intersection(inside))


def _ccw(shape: BaseGeometry) -> tuple[Point, ...]:
    from takeoff.geometry.polygon import cleaned, corners

    parts = cleaned(shape)
    return corners(max(parts, key=lambda part: part.area)) if parts else ()


def inside_of(building: Building, ground: Footprint) -> tuple[Point, ...]:
    """The inside faces of the outer walls' studs."""
    edges = ring(ground.points, [side.name for side in ground.sides])
    depths = {side.name: -profile(building.walls.for_side(side.name).studs).depth_in for side in ground.sides}
    return tuple(edge.a for edge in shifted(edges, depths))


def joist_way(ground: Footprint, floor: MainFloor | Loft, points: tuple[Point, ...]) -> Point:
    """Unit direction of the joists: as written, or the shorter way across."""
    span = floor.joists.span
    if span == "north-south":
        return (0.0, 1.0)
    if span == "east-west":
        return (1.0, 0.0)
    if span is not None:
        return ground.side(span).direction
    if isinstance(floor, Loft) and floor.beam and floor.side:
        x, y = ground.side(floor.side).normal
        return (-x, -y)
    ways = [side.direction for side in ground.sides[:2]]
    if abs(ways[0][0] * ways[1][1] - ways[0][1] * ways[1][0]) < 0.5:
        ways[1] = (-ways[0][1], ways[0][0])

    def reach(way: Point) -> float:
        along = [p[0] * way[0] + p[1] * way[1] for p in points]
        return max(along) - min(along)

    return min(ways, key=lambda way: (round(reach(way), 3), abs(way[0])))


def edge_role(a: Point, b: Point, on_wall: bool, floor: MainFloor | Loft, girders: tuple[FloorGirder, ...]) -> str:
    """What joists end on at an edge: side, ledger, bear, plate, beam or rim. ``a``, ``b`` in the floor's u and v."""
    if abs(b[0] - a[0]) <= ALONG * dist(a, b):
        return "side"
    if on_wall and isinstance(floor, Loft):
        return AT_WALLS[floor.walls]
    for girder in girders:
        near = min(abs(face - a[1]) for face in girder.faces) < TOLERANCE.mark
        if girder.joists == "hang" and near and abs(a[1] - b[1]) < TOLERANCE.mark:
            return "beam"
    return "rim"


def lies_on(points: tuple[Point, ...], p: Point, q: Point) -> bool:
    """Whether an edge lies on one of the edges of a ring."""
    return any(_apart(a, b, p) < TOLERANCE.mark and _apart(a, b, q) < TOLERANCE.mark for a, b in pairs(points))


def _apart(a: Point, b: Point, p: Point) -> float:
    length = hypot(b[0] - a[0], b[1] - a[1])
    return abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / length if length else dist(a, p)


def pairs(points: tuple[Point, ...]) -> tuple[tuple[Point, Point], ...]:
    """The edges of a ring."""
    return tuple(zip(points, (*points[1:], points[0]), strict=True))


def called(ground: Footprint, walls: tuple[Point, ...], p: Point, q: Point, index: int) -> str:
    """What an edge is called: the building's side it lies on, or ``edge 2``."""
    for side, (a, b) in zip(ground.sides, pairs(walls), strict=True):
        if _apart(a, b, p) < TOLERANCE.mark and _apart(a, b, q) < TOLERANCE.mark:
            return side.name
    return f"edge {index + 1}"
