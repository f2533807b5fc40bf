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

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.framing.floor_bearers import PlateUnder, on_the_plates, plates_under, reaches
from takeoff.framing.floor_girders import FloorGirder, floor_girders
from takeoff.framing.floor_openings import FloorHole, floor_hole, lines_along
from takeoff.framing.floor_outline import called, edge_role, inside_of, joist_way, lies_on, outline_of, pairs
from takeoff.framing.stick import Bench
from takeoff.geometry.outline import Edge, Outline, ring
from takeoff.geometry.placement import Placement
from takeoff.geometry.shifted import shifted
from takeoff.plan.floors import Loft, MainFloor

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.findings import Place
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.schema import Building

Point = tuple[float, float]
Span = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorPlan:
    """One floor, ready to be framed. u across the joists, v along them, 0 on the tops of the joists."""

    name: str
    floor: MainFloor | Loft
    bench: Bench
    edges: tuple[Edge, ...]
    """Outside of the floor, counter-clockwise, with the roles rim, ledger, bear, plate, beam and side."""
    sides: tuple[str, ...]
    """What each edge is called: the building's side it lies on, or ``edge 2``."""
    joist: Profile
    rim: Profile
    girders: tuple[FloorGirder, ...]
    holes: tuple[FloorHole, ...]
    doubled: tuple[tuple[float, Span], ...]
    """u of lines that joists are doubled on, and from where to where along v [in]."""
    blocked: tuple[tuple[float, Span], ...]
    """Likewise of partitions that stand on blocks between joists [in]."""
    sill_edges: tuple[Edge, ...]
    """Outside edges of the foundation, for the main floor."""
    reaches: tuple[float, ...]
    """How far joists reach out over each edge, on to the plates of a wall [in]."""
    plates: tuple[PlateUnder, ...]
    """Partitions that a loft's joists lie on, between its edges or under one."""
    rafters: tuple[tuple[float, float], ...] = ()
    """Middles and half thicknesses, u, of rafters that stand on the same plates as the joists [in]."""
    deck_back: tuple[float, ...] = ()
    """How far the deck stays behind each edge, under the rafters [in]."""

    @property
    def carriers(self) -> tuple[FloorGirder | PlateUnder, ...]:
        """What lies across under the joists, in the order of v."""
        return tuple(sorted((*self.girders, *self.plates), key=lambda c: (c.v, c.u)))

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
        """The outline moved in by what stands along it, and out over plates."""
        t = self.rim.thickness_in
        return _moved(self.edges, [-t if e.role in ("rim", "ledger") else r for e, r in self._reached])

    @property
    def _reached(self) -> Iterable[tuple[Edge, float]]:
        return zip(self.edges, self.reaches, strict=True)

    @property
    def deck_edges(self) -> tuple[Edge, ...]:
        """What the sheets of the deck cover: the outline, less what rafters leave no room over."""
        return _moved(self.edges, [-back for back in self.deck_back]) if self.deck_back else self.edges


def _moved(edges: tuple[Edge, ...], out: Sequence[float]) -> tuple[Edge, ...]:
    """The outline, each edge moved out by its own measure [in]."""
    numbered = tuple(replace(edge, role=str(k)) for k, edge in enumerate(edges))
    moved = shifted(numbered, {str(k): by for k, by in enumerate(out)})
    return tuple(replace(edge, role=old.role) for edge, old in zip(moved, edges, strict=True))


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
    if isinstance(floor, Loft):
        top = on_the_plates(building, top, profile(floor.joists.size).depth_in)
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
    girders = floor_girders(floor, flat, corners, ground, written)
    roles = [
        edge_role(a, b, isinstance(floor, Loft) and lies_on(walls, p, q), floor, girders)
        for a, b, p, q in zip(corners, [*corners[1:], corners[0]], points, [*points[1:], points[0]], strict=True)
    ]
    sides = tuple(called(ground, walls, p, q, k) for k, (p, q) in enumerate(pairs(points)))
    return FloorPlan(
        name=name,
        floor=floor,
        bench=Bench(building=building.name, face=name, placement=at, written=written),
        edges=ring(corners, roles),
        sides=sides,
        joist=joist,
        rim=rim,
        girders=girders,
        holes=tuple(floor_hole(o, flat, joist, written) for o in floor.openings),
        doubled=_lines(building, floor, flat, doubled=True),
        blocked=_lines(building, floor, flat, doubled=False),
        sill_edges=ring([flat(p) for p in ground.points], ["sill"] * len(ground.points)) if main else (),
        reaches=reaches(building, roles, sides),
        plates=() if main else plates_under(building, top - joist.depth_in, flat, corners),
    )


def _lines(
    building: Building, floor: MainFloor | Loft, flat: Callable[[Point], Point], *, doubled: bool
) -> tuple[tuple[float, Span], ...]:
    """Lines that joists are doubled on, as written and under partitions; or of partitions that stand on blocks."""
    lines = [(line.start, line.end) for line in floor.doubled] if doubled else []
    if isinstance(floor, MainFloor):  # partitions stand on it
        for partition in building.walls.partitions:
            on_joists = partition.bearing or floor.blocking.under_partitions == "doubled"
            lines += [(partition.start, partition.end)] if on_joists == doubled else []
    return lines_along(lines, flat)
