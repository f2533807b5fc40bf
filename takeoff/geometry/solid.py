"""Solids of sticks, by a general-purpose solid-geometry library: prisms cut by planes, and what two of them share."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from takeoff.geometry.placement import Placement
from takeoff.geometry.vec import Vec, dot

if TYPE_CHECKING:
    from shapely import Polygon


@dataclass(frozen=True, slots=True)
class CutPlane:
    """A plane in a stick's axes: what is kept lies behind it, against its outward normal."""

    normal: Vec
    through: Vec


@dataclass(frozen=True, slots=True)
class Shared:
    """What two solids have in common."""

    depth: float
    """How far one stands in the other [in]: the least extent along the axes of either stick, or, for a part that lies
    askew to both, six times its volume over its surface (the edge of a cube, three times the thickness of a slab)."""
    volume: float
    middle: Vec
    """Middle of the common part, in the world [in]."""


@dataclass(frozen=True, slots=True)
class Solid:
    """A stick's wood in the world."""

    body: Any
    """The library's own solid."""
    placement: Placement

    @property
    def bounds(self) -> tuple[Vec, Vec]:
        """Least and greatest corner of its box in the world [in]."""
        x0, y0, z0, x1, y1, z1 = self.body.bounding_box()
        return (x0, y0, z0), (x1, y1, z1)

    def shared_with(self, other: Solid) -> Shared | None:
        """The deepest part that two solids have in common; None where there is none."""
        axes = [axis for p in (self.placement, other.placement) for axis in (p.x, p.y, p.z)]
        # Faces that only touch may leave slivers: each part by itself is as thin as it is.
        parts = [_part(piece, axes) for piece in (self.body ^ other.body).decompose() if piece.volume() > 0]
        return max(parts, key=lambda part: part.depth, default=None)


def _part(piece: Any, axes: Sequence[Vec]) -> Shared:
    points = [(float(x), float(y), float(z)) for x, y, z in piece.to_mesh().vert_properties[:, :3]]
    extents = [max(dot(p, axis) for p in points) - min(dot(p, axis) for p in points) for axis in axes]
    count = len(points)
    middle = (sum(p[0] for p in points) / count, sum(p[1] for p in points) / count, sum(p[2] for p in points) / count)
    depth = min(*extents, 6 * float(piece.volume()) / float(piece.surface_area()))
    return Shared(depth=depth, volume=float(piece.volume()), middle=middle)


def prism(side: Polygon, thickness: float, cuts: Iterable[CutPlane], placement: Placement) -> Solid:
    """A stick: its side outline through its thickness, ended by planes, placed in the world.

    Args:
        side: outline in the stick's x and y [in].
        thickness: along its z, half to each side of 0 [in].
        cuts: planes in the stick's axes.
        placement: of those axes.
    """
    from manifold3d import CrossSection, FillRule, Manifold

    rings = [list(side.exterior.coords)[:-1], *(list(hole.coords)[:-1] for hole in side.interiors)]
    body = Manifold.extrude(CrossSection(rings, FillRule.EvenOdd), thickness).translate((0.0, 0.0, -thickness / 2))
    for cut in cuts:
        away = (-cut.normal[0], -cut.normal[1], -cut.normal[2])
        body = body.trim_by_plane(away, dot(away, cut.through))
    x, y, z, o = placement.x, placement.y, placement.z, placement.origin
    return Solid(body.transform([[x[k], y[k], z[k], o[k]] for k in range(3)]), placement)
