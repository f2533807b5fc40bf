"""What is chalked inside a building: the faces of partitions from the walls beside them, and heights of backing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeoff.geometry.compass import compass
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.layout import LayoutLine, LayoutMark

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.framing.wall import Wall
    from takeoff.model.member import Member

Point = tuple[float, float]

FROM_END_IN = 6.0
"""How far from its ends a partition is measured across [in]: clear of what stands in the corner."""

FAR_IN = 10_000.0
"""A tape across a building is shorter [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Across:
    """What a tape reads from a wall's face, square to a partition, over it to the next wall."""

    start: str
    near: float
    far: float
    whole: float

    def alike(self, other: _Across) -> bool:
        """Whether a tape pulled at another place reads the same."""
        ours, theirs = (self.near, self.far, self.whole), (other.near, other.far, other.whole)
        same = all(abs(a - b) < TOLERANCE.mark for a, b in zip(ours, theirs, strict=True))
        return self.start == other.start and same


def partition_faces(walls: Sequence[Wall], partitions: Sequence[Wall]) -> Iterator[LayoutLine]:
    """Both faces of each partition, from the face of the nearer of the walls it stands between.

    Walls are those parallel to it. One line where both its ends have the same wall beside them, else one at each end.

    Args:
        walls: of the outline.
        partitions: framed as walls.
    """
    strips = [(wall, _strip(wall)) for wall in (*walls, *partitions)]
    for wall in partitions:
        others = [(other.side.name, strip) for other, strip in strips if other is not wall and _parallel(wall, other)]
        left, right = wall.extent
        inset = min(FROM_END_IN, (right - left) / 4)
        first, last = (_across(wall, u, others) for u in (left + inset, right - inset))
        if first is None or last is None:
            continue
        x, y = wall.side.direction
        if first.alike(last):
            yield _line(wall, "", first)
            continue
        yield _line(wall, f", {compass(-x, -y)} end", first)
        yield _line(wall, f", {compass(x, y)} end", last)


def backing_heights(wall: Wall, members: Sequence[Member]) -> Iterator[LayoutLine]:
    """Lower and upper edges of the backing in a wall, as marks of an upright tape."""
    blocks = [member for member in members if member.role.name == "backing-block"]
    if not blocks:
        return
    edges = {
        (round(block.placement.origin[2] + up, 6), symbol, f"{edge} of backing block")
        for block in blocks
        for up, symbol, edge in ((0.0, "_", "bottom"), (block.profile.depth_in, "^", "top"))
    }
    yield LayoutLine(
        name=f"{wall.side.name} wall, heights of backing",
        start="top of the floor that the walls stand on, straight up",
        length_in=max(at for at, _, _ in edges),
        marks=tuple(LayoutMark(*mark) for mark in sorted(edges)),
        load=1,
    )


def _line(wall: Wall, where: str, across: _Across) -> LayoutLine:
    return LayoutLine(
        name=f"floor deck, across {wall.side.name} from the {across.start} wall{where}",
        start=f"face of the {across.start} wall",
        length_in=across.whole,
        marks=(
            LayoutMark(round(across.near, 6), "/", f"near face of {wall.side.name}"),
            LayoutMark(round(across.far, 6), "/", f"far face of {wall.side.name}"),
        ),
        load=1,
    )


def _across(wall: Wall, u: float, others: Sequence[tuple[str, Polygon]]) -> _Across | None:
    """The tape across a partition at ``u``; None where no wall is on either of its sides."""
    depth = wall.studs.depth_in
    beside = [_next(wall, u, w, others) for w in (0.0, -depth)]
    found = sorted((one for one in beside if one is not None), key=lambda one: round(one[0], 6))
    if not found:
        return None
    off, name = found[0]
    return _Across(start=name, near=off, far=off + depth, whole=off + depth + sum(beyond for beyond, _ in found[1:]))


def _parallel(wall: Wall, other: Wall) -> bool:
    (x, y), (dx, dy) = wall.side.direction, other.side.direction
    return abs(x * dy - y * dx) < TOLERANCE.length


def _next(wall: Wall, u: float, w: float, others: Sequence[tuple[str, Polygon]]) -> tuple[float, str] | None:
    """How far it is from a face of a partition to the next wall, square to it [in], and that wall's name."""
    from shapely import LineString
    from shapely import Point as Spot

    (x0, y0), (x1, y1) = _spot(wall, u, w), _spot(wall, u, FAR_IN if w == 0.0 else -FAR_IN)
    ray, start = LineString([(x0, y0), (x1, y1)]), Spot(x0, y0)
    hit = [(float(start.distance(ray.intersection(strip))), name) for name, strip in others if ray.intersects(strip)]
    return min(hit, default=None)


def _strip(wall: Wall) -> Polygon:
    """A wall in plan."""
    from shapely import Polygon

    (left, right), depth = wall.extent, wall.studs.depth_in
    return Polygon([_spot(wall, u, w) for u, w in ((left, 0.0), (right, 0.0), (right, -depth), (left, -depth))])


def _spot(wall: Wall, u: float, w: float) -> Point:
    x, y, _ = wall.bench.placement.to_world((u, 0.0, w))
    return x, y
