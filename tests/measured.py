"""What a tape and a level would find on a frame: corners in the world, and solids, from side outlines and placements."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product
from typing import TYPE_CHECKING

from hypothesis import assume
from shapely import Polygon

from takeoff.findings import Place, PlanError
from takeoff.framing.frame import frame
from takeoff.geometry.vec import Vec
from takeoff.model.building import FramedBuilding
from takeoff.model.member import EndCut, Member
from takeoff.plan.schema import Building

if TYPE_CHECKING:
    from manifold3d import Manifold

Box = tuple[Vec, Vec]
"""Least and greatest x, y, z [in]."""


def framed(building: Building) -> FramedBuilding:
    """The building framed; an example whose rafters no saw can make is passed over, as the program refuses it."""
    try:
        return frame(building, lambda path: Place(path=path))[0]
    except PlanError:
        assume(False)
        raise


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
    section = CrossSection([list(outline.exterior.coords[:-1])])
    blank = Manifold.extrude(section, thickness).translate((0.0, 0.0, -thickness / 2))
    for cut in member.cuts:
        away = (-cut.normal[0], -cut.normal[1], -cut.normal[2])  # the library keeps what lies along its normal
        blank = blank.trim_by_plane(away, -(_plane_offset(member, cut) - pared))
    at = member.placement
    return blank.transform([[at.x[i], at.y[i], at.z[i], at.origin[i]] for i in range(3)])


def _plane_offset(member: Member, cut: EndCut) -> float:
    """Distance of a cut's plane from the stick's origin: through the tip of the outline, on the face left longest."""
    points = outline_points(member)
    tip = max(points, key=lambda p: p[0]) if cut.normal[0] > 0 else min(points, key=lambda p: p[0])
    nx, ny, nz = cut.normal
    return nx * tip[0] + ny * tip[1] + abs(nz) * member.profile.thickness_in / 2


def clashes(members: tuple[Member, ...], deeper_than: float) -> Iterator[tuple[Member, Member, float]]:
    """Pairs of sticks that reach into each other by more than ``deeper_than`` [in], and by what volume [cu in]."""
    boxes = [world_box(m) for m in members]
    near = [(i, j) for i, j in combinations(range(len(members)), 2) if boxes_meet(boxes[i], boxes[j], deeper_than)]
    solids = {i: solid(members[i], pared=deeper_than / 2) for i in {index for pair in near for index in pair}}
    for i, j in near:
        if not (solids[i] ^ solids[j]).is_empty():
            yield members[i], members[j], (solid(members[i]) ^ solid(members[j])).volume()
