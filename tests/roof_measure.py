"""What tests measure on hips, valleys and jacks: top edges, fold lines and end planes, off the placed sticks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import atan2, hypot

from measured import outline_points, plane_offset
from shapely import Point, Polygon

from takeoff.geometry.vec import Vec, cross, dot
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member

Spot = tuple[float, float]

SNAP = 1e-6
RIDGES = ("ridge-beam", "ridge-board")
JACKS = ("hip-jack", "valley-jack", "cripple-jack")
RAFTERS = ("common-rafter", "end-rafter", *JACKS)


@dataclass(frozen=True, slots=True)
class TopLine:
    """The straightedge along the middle of a stick's top edge, in the world [in]."""

    low: Vec
    high: Vec

    @property
    def run(self) -> float:
        """Level length."""
        return hypot(self.high[0] - self.low[0], self.high[1] - self.low[1])

    @property
    def slope(self) -> float:
        """Rise for one of level run."""
        return (self.high[2] - self.low[2]) / self.run

    @property
    def length(self) -> float:
        """Along the edge."""
        return hypot(self.run, self.high[2] - self.low[2])

    def level_to(self, spot: Spot) -> float:
        """How far along it, level from its lower end, the plumb line through a spot stands."""
        dx, dy = (self.high[0] - self.low[0]) / self.run, (self.high[1] - self.low[1]) / self.run
        return (spot[0] - self.low[0]) * dx + (spot[1] - self.low[1]) * dy

    def beside(self, spot: Spot) -> float:
        """How far a spot in plan lies off its line."""
        dx, dy = (self.high[0] - self.low[0]) / self.run, (self.high[1] - self.low[1]) / self.run
        return abs((spot[0] - self.low[0]) * dy - (spot[1] - self.low[1]) * dx)

    def height_over(self, spot: Spot) -> float:
        """Of the straightedge, over a spot in plan."""
        return self.low[2] + self.level_to(spot) * self.slope

    def between(self, a: Spot, b: Spot) -> float:
        """Along the straightedge between the plumb lines through two spots."""
        return (self.level_to(b) - self.level_to(a)) * hypot(1, self.slope)


def top_line(member: Member) -> TopLine:
    """Of a rafter, hip or valley."""
    depth = member.profile.depth_in
    ends = [member.placement.to_world((x, y, 0.0)) for x, y in outline_points(member) if abs(y - depth) < SNAP]
    return TopLine(min(ends, key=lambda p: p[2]), max(ends, key=lambda p: p[2]))


@dataclass(frozen=True, slots=True)
class Plane:
    """The plane of a slope's rafter tops: gradient in plan, and height over the origin [in]."""

    gradient: Spot
    base: float

    def height_over(self, spot: Spot) -> float:
        """Over a spot in plan."""
        return self.base + self.gradient[0] * spot[0] + self.gradient[1] * spot[1]


def slope_plane(rafter: Member) -> Plane:
    """The plane in which a rafter's top edge lies, level square across it."""
    top = top_line(rafter)
    dx, dy = (top.high[0] - top.low[0]) / top.run, (top.high[1] - top.low[1]) / top.run
    gradient = (dx * top.slope, dy * top.slope)
    return Plane(gradient, top.low[2] - gradient[0] * top.low[0] - gradient[1] * top.low[1])


def end_normals(member: Member, end: int) -> tuple[Vec, ...]:
    """Outward normals of the planes at the lower (0) or upper (1) end, in the stick's axes."""
    return tuple(cut.normal for cut in (member.cuts[end], *member.cheeks[end]))


def upper_end_on_centre(member: Member) -> Spot:
    """Where the top edge's middle line meets the first of its upper planes, in plan."""
    cut, depth = member.cuts[1], member.profile.depth_in
    x = min((plane_offset(member, c) - c.normal[1] * depth) / c.normal[0] for c in (cut, *member.cheeks[1]))
    at = member.placement.to_world((x, depth, 0.0))
    return at[0], at[1]


def side_cut(normal: Vec) -> float:
    """Figure on the square's tongue, to 12 on its body, of a cut's trace on the top edge of a stick [in].

    The trace runs ``nz`` along the stick for ``nx`` across it.
    """
    return 12 * abs(normal[0] / normal[2])


def on_slope(framed: FramedBuilding, name: str, *roles: str) -> tuple[Member, ...]:
    """Rafters of a slope that have one of these roles, in order along its eave."""
    found = [m for m in framed.members if m.face == name and m.role.name in (roles or RAFTERS)]
    return tuple(sorted(found, key=lambda m: m.placement.origin))


def fills(member: Member, spot: Vec, slack: float) -> bool:
    """Whether a spot in the world is in the stick's wood, all its cuts made, or within ``slack`` of it [in]."""
    x, y, z = member.placement.from_world(spot)
    if abs(z) > member.profile.thickness_in / 2 + slack:
        return False
    cuts = (cut for end in (0, 1) for cut in (member.cuts[end], *member.cheeks[end]))
    if any(dot(cut.normal, (x, y, z)) > plane_offset(member, cut) + slack for cut in cuts):
        return False
    return bool(member.side.buffer(slack).covers(Point(x, y)))


def beyond_end(member: Member, end: int, by: float) -> Iterator[Vec]:
    """Spots just beyond the planes of an end: high and low on it, at the middle and near both faces of the stick."""
    depth, aside = member.profile.depth_in, member.profile.thickness_in / 2 - 0.125
    planes = (member.cuts[end], *member.cheeks[end])
    nearer = min if end else max
    for y in (depth - 0.5, depth - 1.5, depth / 2, 1.0):
        for z in (0.0, -aside, aside):
            met = [((plane_offset(member, c) - dot(c.normal, (0.0, y, z))) / c.normal[0], c.normal) for c in planes]
            x, normal = nearer(met)
            yield member.placement.to_world((x + normal[0] * by, y + normal[1] * by, z + normal[2] * by))


def touches(member: Member, end: int, others: Iterable[Member], within: float) -> bool:
    """Whether one of the others has wood within so much of the end's planes, somewhere on the end."""
    near = tuple(other for other in others if other is not member)
    return any(fills(other, spot, within / 2) for spot in beyond_end(member, end, within / 2) for other in near)


def in_plan(member: Member, y0: float = 0.0) -> Polygon:
    """A flat stick's wide face, seen from above."""
    return Polygon([member.placement.to_world((x, y + y0, 0.0))[:2] for x, y in outline_points(member)])


def seat_in_plan(member: Member) -> Polygon:
    """The seat of a rafter, hip or valley, seen from above; its corners are those of the outline's one level cut."""
    half = member.profile.thickness_in / 2
    corners = [member.placement.to_world((x, y, 0.0)) for x, y in outline_points(member)]
    edges = zip(corners, (*corners[1:], corners[0]), strict=True)
    level = [(a, b) for a, b in edges if abs(a[2] - b[2]) < SNAP and hypot(a[0] - b[0], a[1] - b[1]) > SNAP]
    (a, b), (zx, zy, _) = level[0], member.placement.z
    return Polygon([(p[0] + zx * w, p[1] + zy * w) for p, w in ((a, -half), (b, -half), (b, half), (a, half))])


def angle_between(a: Vec, b: Vec) -> float:
    """Sine-safe angle of two directions [rad]."""
    across = cross(a, b)
    return atan2(hypot(*across), dot(a, b))
