"""The frame as one sees it from a corner of the lot: every stick, those in front over those behind.

Sticks don't stand in each other, so of two that cover the same spot of the paper the nearer there is the nearer
everywhere they both cover; the sticks are drawn in an order that puts it later.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import cos, radians, sin
from typing import TYPE_CHECKING

from takeoff.geometry.placement import Placement
from takeoff.geometry.vec import Vec, add, cross, dot
from takeoff.sheets.blocks import MARGIN_MM, WIDTH_MM
from takeoff.sheets.drawing import MM_PER_IN, THIN, Drawing, Point, Polyline, View
from takeoff.sheets.frame_corner import Corner, best_corner
from takeoff.sheets.plan_scale import scale_for
from takeoff.sheets.silhouette import end_planes, stick_point

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from takeoff.model.building import FramedBuilding
    from takeoff.model.member import Member

_HEIGHT_MM = 80.0
_ABOVE_DEG = 25.0
_TURNED_DEG: dict[Corner, float] = {"south-east": 35.0, "south-west": -35.0, "north-east": 145.0, "north-west": 215.0}
"""How far one who looks north from the south has gone round, counter-clockwise, to stand at a corner [deg]."""
_GRID_IN = 1 / 1024
_TOUCH_SQIN = 0.5
"""Sticks that cover less of each other than this only touch on the paper."""


@dataclass(frozen=True, slots=True)
class _Side:
    """A flat side of a stick that faces the one who looks: its corners on the paper, and how near each spot is."""

    corners: tuple[Point, ...]
    near: Vec
    """``near[0] * u + near[1] * v + near[2]`` is how near the side is at a spot [in]."""


@dataclass(frozen=True, slots=True)
class _Seen:
    """A stick as it is seen."""

    mark: str
    sides: tuple[_Side, ...]
    middle: float
    """How near its middle is [in]."""


def frame_view(building: FramedBuilding, *, name: str) -> Drawing | None:
    """The frame of a building from the corner that shows most, from above; None where there are no sticks.

    Args:
        building: framed and marked.
        name: of the drawing, fit for a file.
    """
    corner = best_corner(building)
    onto = looking(corner)
    seen = [stick for member in building.members if (stick := _seen(member, onto)).sides]
    if not seen:
        return None
    points = [corner for stick in seen for side in stick.sides for corner in side.corners]
    us, vs = [u for u, _ in points], [v for _, v in points]
    u0, v0, u1, v1 = min(us), min(vs), max(us), max(vs)
    one_to = scale_for(u1 - u0, v1 - v0, WIDTH_MM - 2 * MARGIN_MM, _HEIGHT_MM)
    k = MM_PER_IN / one_to
    items = tuple(
        Polyline(side.corners, THIN, closed=True, mark=stick.mark, covers=True)
        for stick in _back_to_front(seen)
        for side in stick.sides
    )
    left = (WIDTH_MM - (u1 - u0) * k) / 2
    return Drawing(
        name=name,
        title=f"{building.name}: the frame from the {corner}, not to scale",
        description=f"Seen from the {corner} and from above. {len(seen)} sticks.",
        width_mm=WIDTH_MM,
        height_mm=(v1 - v0) * k + 2 * MARGIN_MM,
        views=(View(name="frame", one_to=one_to, items=items, origin_mm=(left - u0 * k, MARGIN_MM - v0 * k)),),
    )


def looking(corner: Corner) -> Placement:
    """Axes of one who looks from a corner, downward: right, up, and toward him."""
    turn, tilt = radians(_TURNED_DEG[corner]), radians(_ABOVE_DEG)
    right = (cos(turn), sin(turn), 0.0)
    toward = (sin(turn) * cos(tilt), -cos(turn) * cos(tilt), sin(tilt))
    return Placement((0.0, 0.0, 0.0), right, cross(toward, right))


def _seen(member: Member, onto: Placement) -> _Seen:
    sides = tuple(_front_sides(member, onto))
    x0, _, x1, _ = member.side.bounds
    middle = member.placement.to_world(((x0 + x1) / 2, member.profile.depth_in / 2, 0.0))
    return _Seen(member.mark, sides, dot(middle, onto.z))


def _front_sides(member: Member, onto: Placement) -> Iterator[_Side]:
    """Sides that are turned toward the one who looks."""
    half, planes = member.profile.thickness_in / 2, end_planes(member)
    ring = [(float(x), float(y)) for x, y in list(member.side.exterior.coords)[:-1]]
    if not member.side.exterior.is_ccw:
        ring.reverse()
    right = [onto.from_world(stick_point(member, (x, y, half), planes)) for x, y in ring]
    left = [onto.from_world(stick_point(member, (x, y, -half), planes)) for x, y in ring]
    faces = [right, left[::-1]]
    faces += [[left[k], left[k - len(ring) + 1], right[k - len(ring) + 1], right[k]] for k in range(len(ring))]
    for corners in faces:
        side = _side(corners)
        if side:
            yield side


def _side(corners: Sequence[Vec]) -> _Side | None:
    """A flat polygon in the eye's axes, if its outside is seen: counter-clockwise on the paper."""
    normal = (0.0, 0.0, 0.0)
    for a, b in zip(corners, (*corners[1:], corners[0]), strict=True):
        normal = add(normal, cross(a, b))  # twice the area, whatever the shape
    if normal[2] < 1e-3:
        return None
    near = (-normal[0] / normal[2], -normal[1] / normal[2], dot(normal, corners[0]) / normal[2])
    return _Side(tuple((u, v) for u, v, _ in corners), near)


def _back_to_front(seen: Sequence[_Seen]) -> Iterator[_Seen]:
    """The sticks in an order in which each comes after all that it covers; rings are cut where least is lost."""
    over, waiting = _covering(seen)
    ready = [(stick.middle, k) for k, stick in enumerate(seen) if not waiting[k]]
    heapq.heapify(ready)
    done: set[int] = set()
    while len(done) < len(seen):
        if ready:
            _, k = heapq.heappop(ready)
        else:
            left = (k for k in range(len(seen)) if k not in done)
            k = min(left, key=lambda k: (sum(waiting[k].values()), seen[k].middle, k))
        done.add(k)
        yield seen[k]
        for other in over[k]:
            if waiting[other].pop(k, None) is not None and not waiting[other] and other not in done:
                heapq.heappush(ready, (seen[other].middle, other))


def _covering(seen: Sequence[_Seen]) -> tuple[list[list[int]], list[dict[int, float]]]:
    """For each stick those that cover part of it, and those that it covers part of with the area [sq in]."""
    import numpy as np
    import shapely

    # What a stick covers is all its sides together: a rafter's bird's mouth shows what stands in it.
    shapes = np.array([_covered(stick) for stick in seen])
    one, other = shapely.STRtree(shapes).query(shapes, predicate="intersects")
    one, other = one[one < other], other[one < other]
    shared = shapely.intersection(shapes[one], shapes[other])
    areas = shapely.area(shared)
    large = areas > _TOUCH_SQIN
    spots = shapely.get_coordinates(shapely.point_on_surface(shared[large]))
    over: list[list[int]] = [[] for _ in seen]
    under: list[dict[int, float]] = [{} for _ in seen]
    pairs = zip(one[large].tolist(), other[large].tolist(), spots.tolist(), areas[large].tolist(), strict=True)
    for a, b, (u, v), area in pairs:
        back, front = (a, b) if _near(seen[a], u, v) < _near(seen[b], u, v) else (b, a)
        over[back].append(front)
        under[front][back] = area
    return over, under


def _covered(stick: _Seen) -> BaseGeometry:
    import shapely

    # Corners brought back to a double cheek cut may cross each other by a hair.
    sides = [shapely.make_valid(shapely.Polygon(side.corners)) for side in stick.sides]
    return shapely.union_all(sides, grid_size=_GRID_IN)


def _near(stick: _Seen, u: float, v: float) -> float:
    """How near a stick is at a spot that it covers: of its sides seen there, the nearest."""
    found = [_height(side, u, v) for side in stick.sides if _holds(side.corners, u, v)]
    return max(found, default=stick.middle)


def _height(side: _Side, u: float, v: float) -> float:
    a, b, c = side.near
    return a * u + b * v + c


def _holds(corners: Sequence[Point], u: float, v: float) -> bool:
    """Whether a spot lies in a polygon: a ray to the right crosses its sides an odd number of times."""
    inside = False
    for (ax, ay), (bx, by) in zip(corners, (*corners[1:], corners[0]), strict=True):
        if (ay > v) != (by > v) and u < ax + (v - ay) / (by - ay) * (bx - ax):
            inside = not inside
    return inside
