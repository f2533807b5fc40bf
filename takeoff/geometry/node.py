r"""Where ridges, hips and valleys meet in plan: the plumb planes that part them, so that no two share wood.

Every stick at a node is a ray with a thickness. Sticks of one rank that stand side by side are mitred on the line
between them; a stick of lower rank is cut to the face or to the end of the higher ones, whichever takes less off it.

            hip  \   /  hip                 the hips are mitred with each other, and cut plumb
                  \ /                       on the square end of the ridge: a double cheek
             -----+=================
                  / \            ridge
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import atan2, hypot, pi
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

Point = tuple[float, float]

REACH_IN = 1000.0
"""Length of a ray's body that is looked at [in]: farther than any cut reaches."""


@dataclass(frozen=True, slots=True)
class Ray:
    """A stick that leaves a node: its unit direction in plan, half its thickness [in], its rank (0 goes first)."""

    direction: Point
    half: float
    rank: int
    through: bool = False
    """It runs on beyond the node as well; its direction is one of its two."""


@dataclass(frozen=True, slots=True)
class PlumbCut:
    """A plumb plane in plan: what is kept has ``normal`` . p <= ``offset``, p from the node [in]."""

    normal: Point
    offset: float

    def keeps(self, point: Point) -> bool:
        """Whether a point is kept."""
        return self.normal[0] * point[0] + self.normal[1] * point[1] <= self.offset + TOLERANCE.length

    def on_line(self, direction: Point) -> float:
        """How far from the node, along a direction, the plane is met [in]."""
        facing = self.normal[0] * direction[0] + self.normal[1] * direction[1]
        return self.offset / facing


def node_cuts(rays: Sequence[Ray]) -> tuple[tuple[PlumbCut, ...], ...]:
    """The plumb cuts of each ray's end at the node, in the order of ``rays``; none for one that runs through.

    A ray alone at its place in the order of ranks is cut square at the node.
    """
    cuts: list[list[PlumbCut]] = [[] for _ in rays]
    for rank in sorted({ray.rank for ray in rays}):
        mine = [i for i, ray in enumerate(rays) if ray.rank == rank and not ray.through]
        for i, j in _beside(rays, mine):
            _mitre(rays, cuts, i, j)
        earlier = [i for i, ray in enumerate(rays) if ray.rank < rank or (ray.rank == rank and ray.through)]
        for i in mine:
            for e in earlier:
                _give_way(rays, cuts, i, e)
            if not cuts[i]:
                back = rays[i].direction
                cuts[i].append(PlumbCut((-back[0], -back[1]), 0.0))
        for i, j in combinations(mine, 2):
            if _overlap(rays, cuts, i, j):
                _mitre(rays, cuts, i, j)
    return tuple(_needed(ray, tuple(made)) for ray, made in zip(rays, cuts, strict=True))


def wood_in_plan(
    low: Point, high: Point, half: float, lower: Sequence[PlumbCut], upper: Sequence[PlumbCut]
) -> BaseGeometry:
    """A stick between two nodes, seen from above.

    Args:
        low: its node at one end [in].
        high: the one at the other end [in].
        half: half its thickness [in].
        lower: cuts at the first node; none leaves it some thicknesses longer.
        upper: cuts at the other.
    """
    from shapely import LineString
    from shapely.affinity import translate

    whole = hypot(high[0] - low[0], high[1] - low[1])
    x, y = (high[0] - low[0]) / whole * 4 * half, (high[1] - low[1]) / whole * 4 * half
    line = LineString([(low[0] - x, low[1] - y), (high[0] + x, high[1] + y)])
    shape: BaseGeometry = line.buffer(half, cap_style="flat")
    for node, cuts in ((low, lower), (high, upper)):
        for cut in cuts:
            shape = shape.intersection(translate(_kept(cut), *node))
    return shape


def _needed(ray: Ray, cuts: tuple[PlumbCut, ...]) -> tuple[PlumbCut, ...]:
    """The cuts that take something off which no other does."""
    for cut in cuts:
        rest = tuple(other for other in cuts if other is not cut)
        if rest and abs(_body(ray, rest).area - _body(ray, cuts).area) < TOLERANCE.length:
            return _needed(ray, rest)
    return cuts


def _beside(rays: Sequence[Ray], indices: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Pairs of neighbours round the node that are less than a straight angle apart."""
    ordered = sorted(indices, key=lambda i: atan2(rays[i].direction[1], rays[i].direction[0]))
    if len(ordered) < 2:
        return
    pairs = list(zip(ordered, [*ordered[1:], ordered[0]], strict=True))
    for i, j in pairs[:1] if len(ordered) == 2 else pairs:
        a, b = (atan2(rays[k].direction[1], rays[k].direction[0]) for k in (i, j))
        turn = (b - a) % (2 * pi)
        apart = min(turn, 2 * pi - turn) if len(ordered) == 2 else turn
        if TOLERANCE.length < apart < pi - TOLERANCE.length:
            yield i, j


def _mitre(rays: Sequence[Ray], cuts: list[list[PlumbCut]], i: int, j: int) -> None:
    a, b = rays[i].direction, rays[j].direction
    length = hypot(b[0] - a[0], b[1] - a[1])
    toward = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    cuts[i].append(PlumbCut(toward, 0.0))
    cuts[j].append(PlumbCut((-toward[0], -toward[1]), 0.0))


def _give_way(rays: Sequence[Ray], cuts: list[list[PlumbCut]], i: int, e: int) -> None:
    """Cut ray ``i`` to a face or to the end of the earlier ray ``e``, if they share wood."""
    if not _overlap(rays, cuts, i, e):
        return
    candidates = [cut for cut in _faces(rays[e], cuts[e]) if _parts(rays[i], cut)]
    cuts[i].append(min(candidates, key=lambda cut: _loss(rays[i], cut)))


def _faces(ray: Ray, ends: Sequence[PlumbCut]) -> Iterator[PlumbCut]:
    """Planes beyond which another stick is clear of this one: its two faces, and its ends."""
    x, y = ray.direction
    yield PlumbCut((y, -x), -ray.half)
    yield PlumbCut((-y, x), -ray.half)
    for end in ends:
        yield PlumbCut((-end.normal[0], -end.normal[1]), -end.offset)


def _parts(ray: Ray, cut: PlumbCut) -> bool:
    """Whether the ray runs away into what the cut keeps."""
    return cut.normal[0] * ray.direction[0] + cut.normal[1] * ray.direction[1] < -TOLERANCE.length


def _loss(ray: Ray, cut: PlumbCut) -> float:
    """How far from the node the cut meets the ray's centre line [in]."""
    return cut.on_line(ray.direction)


def _overlap(rays: Sequence[Ray], cuts: Sequence[Sequence[PlumbCut]], i: int, j: int) -> bool:
    shared = _body(rays[i], cuts[i]).intersection(_body(rays[j], cuts[j]))
    return bool(shared.area > TOLERANCE.length)


def _body(ray: Ray, cuts: Sequence[PlumbCut]) -> BaseGeometry:
    """The ray's wood in plan, near the node: before it is cut it reaches past the node by its own thickness."""
    from shapely import Polygon

    (x, y), h = ray.direction, ray.half
    back = REACH_IN if ray.through else 4 * h
    shape: BaseGeometry = Polygon(
        [
            (-x * back - y * h, -y * back + x * h),
            (-x * back + y * h, -y * back - x * h),
            (x * REACH_IN + y * h, y * REACH_IN - x * h),
            (x * REACH_IN - y * h, y * REACH_IN + x * h),
        ]
    )
    for cut in cuts:
        shape = shape.intersection(_kept(cut))
    return shape


def _kept(cut: PlumbCut) -> Polygon:
    from shapely import Polygon

    (nx, ny), far = cut.normal, 4 * REACH_IN
    px, py = nx * cut.offset, ny * cut.offset
    tx, ty = -ny * far, nx * far
    ax, ay = px - nx * far, py - ny * far
    return Polygon([(px - tx, py - ty), (px + tx, py + ty), (ax + tx, ay + ty), (ax - tx, ay - ty)])
