"""Sticks as a face shows them: each one's outline, projected square onto the face."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.geometry.vec import Vec, add, dot, scale

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.geometry.placement import Placement
    from takeoff.model.member import Member

_FLAT = 1e-6
"""Sine under which a stick's side counts as lying in the face."""


def silhouette(member: Member, onto: Placement) -> Polygon:
    """What of a stick one sees who looks square at a face, in the face's u and v [in].

    A stick that lies with its side to the face shows all its cuts and notches; of any other it is the outline of its
    corners, bevelled ends included.
    """
    from shapely import MultiPoint, Polygon

    if abs(abs(dot(member.placement.z, onto.z)) - 1.0) < _FLAT:
        corners = (onto.from_world(member.placement.to_world((x, y, 0.0))) for x, y in member.side.exterior.coords)
        return Polygon([(u, v) for u, v, _ in corners])
    points = [onto.from_world(corner) for corner in stick_corners(member)]
    hull = MultiPoint([(u, v) for u, v, _ in points]).convex_hull
    return hull if isinstance(hull, Polygon) else Polygon()


def reach_through(member: Member, onto: Placement) -> tuple[float, float]:
    """From how far behind a face to how far before it a stick stands [in]."""
    depths = [onto.from_world(corner)[2] for corner in stick_corners(member)]
    return min(depths), max(depths)


def stick_corners(member: Member) -> Iterator[Vec]:
    """Corners of a stick in the world [in], those at its ends brought back to the planes that cut them."""
    half, planes = member.profile.thickness_in / 2, end_planes(member)
    for x, y in list(member.side.exterior.coords)[:-1]:
        for z in (-half, half):
            yield stick_point(member, (float(x), float(y), z), planes)


def end_planes(member: Member) -> list[tuple[Vec, Vec]]:
    """The planes that end a stick, each as its outward normal and a point, in the stick's axes."""
    return [member.placed(cut) for cut in (*member.cuts, *member.cheeks[0], *member.cheeks[1])]


def stick_point(member: Member, corner: Vec, planes: list[tuple[Vec, Vec]]) -> Vec:
    """A corner given in the stick's axes, brought back along it to the planes that end it, in the world [in]."""
    return member.placement.to_world(_cut_back(corner, planes))


def _cut_back(corner: Vec, planes: list[tuple[Vec, Vec]]) -> Vec:
    for normal, through in planes:
        over = dot(normal, add(corner, scale(through, -1.0)))
        if over > 0.0 and normal[0]:
            corner = (corner[0] - over / normal[0], corner[1], corner[2])
    return corner
