"""A floor as an outline to be sliced: where its edges end joists, what carries them, what is cut out.

::

  v ^  rim / ledger / beam
    |  +---+---+---+---+     joists run along v; the edges across them have the role of what they end on,
    |  |   |   |   |   |     those along them are ``side``
    |  +===============+     girders lie across, under the joists (over) or between them (hang)
    |  |   |   |   |   |
    |  +---+---+---+---+
    +---------------------> u
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import dist, hypot
from typing import TYPE_CHECKING, Literal

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.framing.stick import Bench
from takeoff.geometry.outline import Edge, Outline, ring
from takeoff.geometry.placement import Placement
from takeoff.geometry.shifted import shifted
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.plan.floors import Loft, MainFloor

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

    from takeoff.catalog.profiles import Profile
    from takeoff.findings import Place
    from takeoff.plan.floors import FloorOpening, Girder, LoftBeam
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.schema import Building

Point = tuple[float, float]
Span = tuple[float, float]

ALONG = 0.02
"""An edge that turns off the joists by less than this runs along them: sine of about a degree."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorGirder:
    """A girder of a floor, along u."""

    name: str
    v: float
    """Middle of its plies [in]."""
    u: Span
    profile: Profile
    plies: int
    grade: str
    joists: Literal["over", "hang"]
    posts: tuple[float, ...]
    """Middles of its posts, u [in]."""
    post: Profile
    written: Place

    @property
    def half(self) -> float:
        """Half its width [in]."""
        return self.plies * self.profile.thickness_in / 2

    @property
    def faces(self) -> Span:
        """Where its faces lie, v [in]."""
        return self.v - self.half, self.v + self.half


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorHole:
    """A rough opening in a floor."""

    what: str
    u: Span
    v: Span
    plies: int
    thickness: float
    """Of a header or trimmer [in]."""
    written: Place

    @property
    def cut_v(self) -> Span:
        """Where tail joists end: the outer faces of the headers."""
        reach = self.plies * self.thickness
        return self.v[0] - reach, self.v[1] + reach

    @property
    def trimmers(self) -> tuple[float, ...]:
        """Centres of the trimmers, left to right."""
        steps = [(ply + 0.5) * self.thickness for ply in range(self.plies)]
        return (*(self.u[0] - step for step in reversed(steps)), *(self.u[1] + step for step in steps))


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorPlan:
    """One floor, ready to be framed. u across the joists, v along them, 0 on the tops of the joists."""

    name: str
    floor: MainFloor | Loft
    bench: Bench
    edges: tuple[Edge, ...]
    """Outside of the floor, counter-clockwise, with the roles rim, ledger, bear, beam and side."""
    sides: tuple[str, ...]
    """What each edge is called: the building's side it lies on, or ``edge 2``."""
    joist: Profile
    rim: Profile
    girders: tuple[FloorGirder, ...]
    holes: tuple[FloorHole, ...]
    doubled: tuple[tuple[float, Span], ...]
    """u of lines that joists are doubled on, and from where to where along v [in]."""
    sill_edges: tuple[Edge, ...]
    """Outside edges of the foundation, for the main floor."""

    @property
    def thickness(self) -> float:
        """Of a joist [in]."""
        return self.joist.thickness_in

    @property
    def inner(self) -> Outline:
        """What the joists fill, between rims and ledgers, openings with their headers left out."""
        cut = tuple(
            ring(
                [(h.u[0], h.cut_v[0]), (h.u[1], h.cut_v[0]), (h.u[1], h.cut_v[1]), (h.u[0], h.cut_v[1])],
                ("header", "trimmer", "header", "trimmer"),
            )
            for h in self.holes
        )
        return Outline(self.inner_edges, cut)

    @property
    def inner_edges(self) -> tuple[Edge, ...]:
        """The outline moved in by what stands along it."""
        t = self.rim.thickness_in
        return shifted(self.edges, {"rim": -t, "ledger": -t})


def floor_plan(
    building: Building,
    ground: Footprint,
    floor: MainFloor | Loft,
    written: Place,
) -> FloorPlan:
    """Lay a floor out: its axes, its outline with roles, girders and openings in those axes."""
    main = isinstance(floor, MainFloor)
    name = "main floor" if isinstance(floor, MainFloor) else floor.name
    points = outline_of(building, ground, floor)
    way = joist_way(ground, floor, points)
    top = -sheet_product(floor.deck).thickness_in + (0.0 if isinstance(floor, MainFloor) else floor.height)
    across = (way[1], -way[0])
    u0 = min(p[0] * across[0] + p[1] * across[1] for p in points)
    v0 = min(p[0] * way[0] + p[1] * way[1] for p in points)
    origin = (across[0] * u0 + way[0] * v0, across[1] * u0 + way[1] * v0, top)
    at = Placement(origin, (*across, 0.0), (*way, 0.0))

    def flat(p: Point) -> Point:
        u, v, _ = at.from_world((*p, top))
        return u, v

    corners = [flat(p) for p in points]
    joist, rim = profile(floor.joists.size), profile(floor.rim_size)
    walls = inside_of(building, ground) if not main else ground.points
    girders = _girders(floor, flat, corners, ground, written)
    roles = [
        _role(a, b, isinstance(floor, Loft) and _on(walls, p, q), floor, girders)
        for a, b, p, q in zip(corners, [*corners[1:], corners[0]], points, [*points[1:], points[0]], strict=True)
    ]
    return FloorPlan(
        name=name,
        floor=floor,
        bench=Bench(building=building.name, face=name, placement=at, written=written),
        edges=ring(corners, roles),
        sides=tuple(_called(ground, walls, p, q, k) for k, (p, q) in enumerate(_pairs(points))),
        joist=joist,
        rim=rim,
        girders=girders,
        holes=tuple(_hole(o, flat, joist, written) for o in floor.openings),
        doubled=_doubled(tuple((d.start, d.end) for d in floor.doubled), flat),
        sill_edges=ring([flat(p) for p in ground.points], ["sill"] * len(ground.points)) if main else (),
    )


def outline_of(building: Building, ground: Footprint, floor: MainFloor | Loft) -> tuple[Point, ...]:
    """Corners of a floor, counter-clockwise; of a loft only what lies inside the walls."""
    from shapely import Polygon

    if isinstance(floor, MainFloor):
        shape = Polygon(floor.outline or ground.points)
        return _ccw(shape)
    inside = Polygon(inside_of(building, ground))
    return _ccw(_wanted(ground, floor).intersection(inside))


def _wanted(ground: Footprint, loft: Loft) -> Polygon:
    from shapely import Polygon

    if loft.outline is not None or loft.side is None or loft.depth is None:
        return Polygon(loft.outline)
    side = ground.side(loft.side)
    (ax, ay), (bx, by), (nx, ny) = side.start, side.end, side.normal
    d = loft.depth
    return Polygon([(ax, ay), (bx, by), (bx - nx * d, by - ny * d), (ax - nx * d, ay - ny * d)])


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


def _girders(
    floor: MainFloor | Loft,
    flat: Callable[[Point], Point],
    corners: list[Point],
    ground: Footprint,
    written: Place,
) -> tuple[FloorGirder, ...]:
    found = [_girder(g, k, flat, corners, written) for k, g in enumerate(floor.girders)]
    if isinstance(floor, Loft) and floor.beam and floor.side and floor.depth:
        found.append(_edge_beam(floor, floor.beam, floor.side, floor.depth, flat, corners, ground, written))
    return tuple(sorted(found, key=lambda g: (g.v, g.u)))


def _girder(
    girder: Girder, index: int, flat: Callable[[Point], Point], corners: list[Point], written: Place
) -> FloorGirder:
    a, b = flat(girder.start), flat(girder.end)
    half = girder.size.plies * girder.size.profile.thickness_in / 2
    low, high = min(a[0], b[0]), max(a[0], b[0])
    u0, u1 = min(p[0] for p in corners), max(p[0] for p in corners)
    turn = 1 if b[0] > a[0] else -1
    return FloorGirder(
        name=f"girder {index + 1}",
        v=_flush((a[1] + b[1]) / 2, half, corners),
        u=(max(low, u0), min(high, u1)),
        profile=girder.size.profile,
        plies=girder.size.plies,
        grade=girder.grade,
        joists=girder.joists,
        posts=tuple(sorted(a[0] + turn * at for at in girder.posts)),
        post=profile(girder.post),
        written=written,
    )


def _edge_beam(
    loft: Loft,
    beam: LoftBeam,
    side: str,
    depth: float,
    flat: Callable[[Point], Point],
    corners: list[Point],
    ground: Footprint,
    written: Place,
) -> FloorGirder:
    line = ground.side(side)
    (nx, ny), half = line.normal, beam.size.plies * beam.size.profile.thickness_in / 2
    a, b = (flat((p[0] - nx * depth, p[1] - ny * depth)) for p in (line.start, line.end))
    u0, u1 = min(p[0] for p in corners), max(p[0] for p in corners)
    turn = 1 if b[0] > a[0] else -1
    return FloorGirder(
        name="beam",
        v=_flush(a[1], half, corners),
        u=(u0, u1),
        profile=beam.size.profile,
        plies=beam.size.plies,
        grade=beam.grade,
        joists=beam.joists,
        posts=tuple(sorted(a[0] + turn * at for at in beam.posts)),
        post=profile(beam.post),
        written=written,
    )


def _flush(v: float, half: float, corners: list[Point]) -> float:
    """A girder whose line lies along an edge is moved in until its face is flush with the edge."""
    low, high = min(p[1] for p in corners), max(p[1] for p in corners)
    if abs(v - low) < half:
        return low + half
    if abs(v - high) < half:
        return high - half
    return v


def _role(a: Point, b: Point, on_wall: bool, floor: MainFloor | Loft, girders: tuple[FloorGirder, ...]) -> str:
    if abs(b[0] - a[0]) <= ALONG * dist(a, b):
        return "side"
    if on_wall and isinstance(floor, Loft):
        return "ledger" if floor.walls == "hang" else "bear"
    for girder in girders:
        near = min(abs(face - a[1]) for face in girder.faces) < TOLERANCE.mark
        if girder.joists == "hang" and near and abs(a[1] - b[1]) < TOLERANCE.mark:
            return "beam"
    return "rim"


def _on(points: tuple[Point, ...], p: Point, q: Point) -> bool:
    """Whether an edge lies on one of the edges of a ring."""
    return any(_apart(a, b, p) < TOLERANCE.mark and _apart(a, b, q) < TOLERANCE.mark for a, b in _pairs(points))


def _apart(a: Point, b: Point, p: Point) -> float:
    length = hypot(b[0] - a[0], b[1] - a[1])
    return abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / length if length else dist(a, p)


def _pairs(points: tuple[Point, ...]) -> tuple[tuple[Point, Point], ...]:
    return tuple(zip(points, (*points[1:], points[0]), strict=True))


def _called(ground: Footprint, walls: tuple[Point, ...], p: Point, q: Point, index: int) -> str:
    for side, (a, b) in zip(ground.sides, _pairs(walls), strict=True):
        if _apart(a, b, p) < TOLERANCE.mark and _apart(a, b, q) < TOLERANCE.mark:
            return side.name
    return f"edge {index + 1}"


def _hole(opening: FloorOpening, flat: Callable[[Point], Point], joist: Profile, written: Place) -> FloorHole:
    (x, y), (dx, dy) = opening.corner, opening.size
    ends = [flat((x, y)), flat((x + dx, y + dy))]
    return FloorHole(
        what=opening.kind,
        u=(min(p[0] for p in ends), max(p[0] for p in ends)),
        v=(min(p[1] for p in ends), max(p[1] for p in ends)),
        plies=opening.plies,
        thickness=joist.thickness_in,
        written=written,
    )


def _doubled(lines: tuple[tuple[Point, Point], ...], flat: Callable[[Point], Point]) -> tuple[tuple[float, Span], ...]:
    """Lines that run along the joists; the others lie across several joists and need no more."""
    found = []
    for start, end in lines:
        a, b = flat(start), flat(end)
        if abs(b[0] - a[0]) <= ALONG * dist(a, b):
            found.append(((a[0] + b[0]) / 2, (min(a[1], b[1]), max(a[1], b[1]))))
    return tuple(sorted(found))
