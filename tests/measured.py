"""What a tape and a level would find on a frame: corners in the world, and solids, from outlines and placements."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, product
from math import dist
from typing import TYPE_CHECKING

from hypothesis import assume
from shapely import Polygon
from shapely.geometry.polygon import orient

from takeoff.findings import Place, PlanError
from takeoff.framing.frame import frame
from takeoff.geometry.vec import Vec, dot
from takeoff.model.building import FramedBuilding
from takeoff.model.member import EndCut, Member
from takeoff.plan.schema import Building

if TYPE_CHECKING:
    from manifold3d import Manifold

Point = tuple[float, float]
Box = tuple[Vec, Vec]
"""Least and greatest x, y, z [in]."""


def framed(building: Building) -> FramedBuilding:
    """The building framed; an example whose rafters no saw can make is passed over, as the program refuses it."""
    try:
        return frame(building, lambda path: Place(path=path))[0]
    except PlanError:
        assume(False)
        raise


@dataclass(frozen=True, slots=True)
class Site:
    """Level axes of a gabled building: along its ridge, and across it from the ridge's centre line [in]."""

    corner: Point
    along: Point
    across: Point
    length: float
    span: float
    outline: Polygon
    """The outside of the wall framing."""

    def measured(self, world: Vec) -> Vec:
        """How far along the ridge from one end wall, how far from the ridge's centre line, and how high."""
        x, y = world[0] - self.corner[0], world[1] - self.corner[1]
        a = x * self.along[0] + y * self.along[1]
        c = x * self.across[0] + y * self.across[1] - self.span / 2
        return a, c, world[2]


def site(building: Building) -> Site:
    """The level axes, from the corners and names of the plan alone."""
    assert building.sides is not None
    points, names = building.outline, building.sides
    first = next(i for i, name in enumerate(names) if name not in building.roof.gables)
    here, there, beyond = (points[(first + k) % 4] for k in range(3))
    length, span = dist(here, there), dist(there, beyond)
    along = ((there[0] - here[0]) / length, (there[1] - here[1]) / length)
    across = ((beyond[0] - there[0]) / span, (beyond[1] - there[1]) / span)
    return Site(here, along, across, length, span, Polygon(points))


def outline_points(member: Member) -> tuple[tuple[float, float], ...]:
    """Corners of the side outline, each once."""
    return tuple((float(x), float(y)) for x, y in member.side.exterior.coords[:-1])


def world_corners(member: Member) -> tuple[Vec, ...]:
    """Every corner of the side outline on both wide faces of the stick, in the world; end bevels not cut."""
    half = member.profile.thickness_in / 2
    return tuple(member.placement.to_world((x, y, z)) for (x, y), z in product(outline_points(member), (-half, half)))


def world_box(member: Member) -> Box:
    """Extent of the stick along the world's axes [in]."""
    return box_of(world_corners(member))


def box_of(points: tuple[Vec, ...]) -> Box:
    """Extent of some points."""
    xs, ys, zs = zip(*points, strict=True)
    return (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))


def boxes_meet(a: Box, b: Box, by: float) -> bool:
    """Whether two extents reach into each other by more than ``by`` along every axis."""
    return all(min(a[1][i], b[1][i]) - max(a[0][i], b[0][i]) > by for i in range(3))


def solid(member: Member, *, pared: float = 0.0) -> Manifold:
    """The stick as a solid in the world: its outline through its thickness, ended by the planes of its cuts.

    Args:
        member: the stick.
        pared: taken off every face [in], so that sticks that only touch are clear of each other.
    """
    from manifold3d import CrossSection, Manifold

    outline = member.side.buffer(-pared, join_style="mitre")
    assert isinstance(outline, Polygon)
    thickness = member.profile.thickness_in - 2 * pared
    section = CrossSection([list(orient(outline).exterior.coords[:-1])])
    blank = Manifold.extrude(section, thickness).translate((0.0, 0.0, -thickness / 2))
    for cut in (*member.cuts, *member.cheeks[0], *member.cheeks[1]):
        away = (-cut.normal[0], -cut.normal[1], -cut.normal[2])  # the library keeps what lies along its normal
        blank = blank.trim_by_plane(away, -(plane_offset(member, cut) - pared))
    at = member.placement
    return blank.transform([[at.x[i], at.y[i], at.z[i], at.origin[i]] for i in range(3)])


def plane_offset(member: Member, cut: EndCut) -> float:
    """Distance of a cut's plane from the stick's origin, along its normal [in].

    The plane passes through the point stated, or through the tip of the outline on the face that it leaves longest.
    """
    nx, ny, nz = cut.normal
    if cut.through is not None:
        return dot(cut.normal, cut.through)
    points = outline_points(member)
    tip = max(points, key=lambda p: p[0]) if nx > 0 else min(points, key=lambda p: p[0])
    return nx * tip[0] + ny * tip[1] - abs(nz) * member.profile.thickness_in / 2


def clashes(members: tuple[Member, ...], deeper_than: float) -> Iterator[tuple[Member, Member, float]]:
    """Pairs of sticks that reach into each other by more than ``deeper_than`` [in], and by what volume [cu in]."""
    boxes = [world_box(m) for m in members]
    near = [(i, j) for i, j in combinations(range(len(members)), 2) if boxes_meet(boxes[i], boxes[j], deeper_than)]
    solids = {i: solid(members[i], pared=deeper_than / 2) for i in {index for pair in near for index in pair}}
    for i, j in near:
        if not (solids[i] ^ solids[j]).is_empty():
            yield members[i], members[j], (solid(members[i]) ^ solid(members[j])).volume()
