"""What hangs over a spot of the floor: how low the sticks of a roof come there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import hypot
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

    from takeoff.model.member import EndCut, Member

Point = tuple[float, float]

TOUCH_IN = 1 / 64
"""A stick that reaches no further than this over the edge of a spot only touches it [in]."""

FAR_IN = 1e4


def lowest_over(members: Iterable[Member], corners: Sequence[Point]) -> float:
    """Lowest underside of some sticks over a spot, above the deck [in]; infinite where nothing hangs.

    Args:
        members: sticks; those that lie tilted about their length are passed over.
        corners: of the spot, in plan.
    """
    from shapely import Polygon

    spot = Polygon(corners).buffer(-TOUCH_IN, join_style="mitre")
    return min((low for member in members for low in _over(member, spot)), default=float("inf"))


def _over(member: Member, spot: BaseGeometry) -> Iterator[float]:
    x, y, _ = member.placement.x
    level = hypot(x, y)
    if level < TOLERANCE.length or abs(member.placement.z[2]) > TOLERANCE.length or _aside(member, spot):
        return
    common = _in_plan(member, (x / level, y / level)).intersection(spot)
    if common.area < TOLERANCE.area:
        return
    reach = [_along(member, point, (x / level, y / level)) for point in _points(common)]
    part = _upright(member, (x / level, y / level)).intersection(_between(min(reach), max(reach)))
    yield min(z for _, z in _points(part))


def _aside(member: Member, spot: BaseGeometry) -> bool:
    """Whether a stick lies well beside a spot: told from its box, before anything is cut."""
    x0, y0, x1, y1 = member.side.bounds
    half = member.profile.thickness_in / 2
    at = [member.placement.to_world((x, y, z)) for x in (x0, x1) for y in (y0, y1) for z in (-half, half)]
    left, low, right, high = spot.bounds
    xs, ys = [x for x, _, _ in at], [y for _, y, _ in at]
    return min(xs) > right or max(xs) < left or min(ys) > high or max(ys) < low


def _along(member: Member, point: Point, direction: Point) -> float:
    origin = member.placement.origin
    return (point[0] - origin[0]) * direction[0] + (point[1] - origin[1]) * direction[1]


def _in_plan(member: Member, direction: Point) -> BaseGeometry:
    """Its footprint, ended by its plumb cuts."""
    from shapely import Polygon

    (dx, dy), half = direction, member.profile.thickness_in / 2
    reach = [s for s, _ in _points(_upright(member, direction))]
    ox, oy, _ = member.placement.origin
    corners = [(min(reach), half), (max(reach), half), (max(reach), -half), (min(reach), -half)]
    shape: BaseGeometry = Polygon([(ox + dx * s - dy * w, oy + dy * s + dx * w) for s, w in corners])
    for main, more in zip(member.cuts, member.cheeks, strict=True):
        for cut in (main, *more):
            shape = _kept(member, cut, shape)
    return shape


def _kept(member: Member, cut: EndCut, shape: BaseGeometry) -> BaseGeometry:
    """What a plumb cut leaves of a footprint; other cuts take nothing that would matter to what is under them."""
    from shapely import Polygon

    nx, ny, nz = member.placement.direction_to_world(cut.normal)
    if cut.through is None or abs(nz) > TOLERANCE.length:
        return shape
    px, py, _ = member.placement.to_world(cut.through)
    corners = [(0.0, -FAR_IN), (0.0, FAR_IN), (-FAR_IN, FAR_IN), (-FAR_IN, -FAR_IN)]
    return shape.intersection(Polygon([(px + nx * a - ny * b, py + ny * a + nx * b) for a, b in corners]))


def _upright(member: Member, direction: Point) -> Polygon:
    """Its side outline in its own upright plane: level from its origin, and above the deck."""
    from shapely import Polygon

    spots = [member.placement.to_world((x, y, 0.0)) for x, y in _points(member.side)]
    return Polygon([(_along(member, (x, y), direction), z) for x, y, z in spots])


def _between(low: float, high: float) -> Polygon:
    from shapely import box

    return box(low, -FAR_IN, high, FAR_IN)


def _points(shape: BaseGeometry) -> list[Point]:
    from shapely import get_coordinates

    return [(float(a), float(b)) for a, b in get_coordinates(shape)]
