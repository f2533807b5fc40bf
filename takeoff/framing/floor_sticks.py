"""What stands round and under a floor's joists: rims, ledgers, headers, girders, posts, mud sills, blocks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from math import atan2, cos, dist, pi, sin
from typing import TYPE_CHECKING

from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.profiles import Profile, profile
from takeoff.framing.splices import spliced
from takeoff.framing.wall import PlateEnd
from takeoff.geometry.placement import Placement
from takeoff.geometry.shifted import shifted
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP
from takeoff.model.member import SQUARE_ENDS, EndCut
from takeoff.plan.floors import Loft, MainFloor, usual_grade

if TYPE_CHECKING:
    from takeoff.framing.floor_girders import FloorGirder
    from takeoff.framing.floor_joists import PlacedJoist
    from takeoff.framing.floor_plan import FloorPlan
    from takeoff.framing.stick import Bench
    from takeoff.geometry.outline import Edge
    from takeoff.model.member import Member

EDGES = ("rim", "ledger", "bear", "beam", "side")
"""Roles of all edges of a floor."""

POCKET_IN = 1.5
"""A main floor's girder ends this far inside the outside of the foundation [in]. Common practice, no source."""

APART_IN = 48.0
"""Joints of neighbouring plies of a girder are at least so far apart [in]. Common practice, no source."""

LEDGER_UNDER = "2x4"
"""Ledger that joists bear on top of."""


def _edge_bench(plan: FloorPlan, a: tuple[float, float], b: tuple[float, float]) -> Bench:
    """Along an edge: u from its start, v up, outward out of the floor."""
    at, length = plan.bench.placement, dist(a, b)
    along = at.direction_to_world(((b[0] - a[0]) / length, (b[1] - a[1]) / length, 0.0))
    return replace(plan.bench, placement=Placement(at.to_world((*a, 0.0)), along, UP))


def rims(plan: FloorPlan, joists: Sequence[PlacedJoist]) -> Iterator[Member]:
    """Rims and ledgers along the edges that joists end on, lapping the joists of the sides at the corners."""
    grade = plan.floor.joists.made_of if plan.rim.name == plan.joist.name else usual_grade(plan.rim.name)
    longest = longest_sold(plan.rim, grade)
    count = len(plan.edges)
    for k, edge in enumerate(plan.edges):
        if edge.role not in ("rim", "ledger"):
            continue
        bench, length = _edge_bench(plan, edge.a, edge.b), dist(edge.a, edge.b)
        role = "rim-board" if edge.role == "rim" else "loft-ledger"
        slant = length / abs(edge.b[0] - edge.a[0])
        at = sorted({abs(joist.u - edge.a[0]) * slant for joist in joists})
        pieces = spliced((0.0, length), longest, at)
        ends = (_mitre(plan.edges[k - 1], edge, -1), _mitre(edge, plan.edges[(k + 1) % count], 1))
        for index, run in enumerate(pieces):
            cuts = (
                ends[0] if index == 0 and ends[0] else SQUARE_ENDS[0],
                ends[1] if index == len(pieces) - 1 and ends[1] else SQUARE_ENDS[1],
            )
            stick = bench.edge_along_u(role, plan.rim, grade, u=run, v=-plan.rim.depth_in, outward=0.0)
            yield replace(stick, cuts=cuts)


def _mitre(before: Edge, after: Edge, outward: int) -> EndCut | None:
    """The cut at a corner where two rims meet; None where a side's joist butts, or at a corner that turns in."""
    if not {before.role, after.role} <= {"rim", "ledger"}:
        return None
    angles = [atan2(e.b[1] - e.a[1], e.b[0] - e.a[0]) for e in (before, after)]
    turn = (angles[1] - angles[0] + pi) % (2 * pi) - pi
    if abs(turn) < TOLERANCE.length:
        return None
    return EndCut((outward * cos(turn / 2), 0.0, -sin(turn / 2)))


def headers(plan: FloorPlan) -> Iterator[Member]:
    """Headers of openings, ply by ply, between the trimmers."""
    t = plan.thickness
    for hole in plan.holes:
        bench = replace(plan.bench, written=hole.written)
        for ply in range(hole.plies):
            for v in (hole.v[0] - (ply + 0.5) * t, hole.v[1] + (ply + 0.5) * t):
                yield bench.standing_along_u("floor-header", plan.joist, plan.floor.joists.made_of, u=hole.u, v=v)


def girder_run(plan: FloorPlan, girder: FloorGirder) -> tuple[float, float]:
    """From where to where a girder runs: in a main floor into pockets of the foundation, between rims where flush."""
    if isinstance(plan.floor, Loft):
        return girder.u
    from shapely import LineString, Polygon

    gap = plan.thickness if girder.joists == "hang" else POCKET_IN
    inside = Polygon([edge.a for edge in shifted(plan.edges, dict.fromkeys(EDGES, -gap))])
    lines = (inside.intersection(LineString([(girder.u[0], v), (girder.u[1], v)])) for v in girder.faces)
    spans = [line.bounds for line in lines if not line.is_empty]
    return max(b[0] for b in spans), min(b[2] for b in spans)


def girders(plan: FloorPlan) -> Iterator[Member]:
    """Plies of the girders, joined over posts, and the posts."""
    for girder in plan.girders:
        top = -plan.joist.depth_in if girder.joists == "over" else 0.0
        u0, u1 = girder_run(plan, girder)
        bench = replace(_edge_bench(plan, (0.0, girder.v), (1.0, girder.v)), written=girder.written)
        joined: tuple[float, ...] = ()
        role_name = "loft-beam" if isinstance(plan.floor, Loft) else "girder"
        for k in range(girder.plies):
            outward = girder.half - k * girder.profile.thickness_in
            # Plies side by side are joined over different posts where there are enough of them.
            runs = spliced(
                (u0, u1), longest_sold(girder.profile, girder.grade), girder.posts, away_from=joined, offset=APART_IN
            )
            joined = tuple(start for start, _ in runs[1:])
            for run in runs:
                yield bench.edge_along_u(
                    role_name, girder.profile, girder.grade, u=run, v=top - girder.profile.depth_in, outward=outward
                )
        yield from _posts(plan, girder, top - girder.profile.depth_in)


def _posts(plan: FloorPlan, girder: FloorGirder, under: float) -> Iterator[Member]:
    foot = plan.floor.footing if isinstance(plan.floor, MainFloor) else 0.0
    base = plan.bench.placement.origin[2]
    if foot is None:
        return
    grade = usual_grade(girder.post.name)
    for u in girder.posts:
        at = plan.bench.placement
        x, y, _ = at.to_world((u, girder.v, 0.0))
        dx, dy, _ = at.x
        half = girder.post.depth_in / 2
        stand = Placement((x + dx * half, y + dy * half, 0.0), (-dy, dx, 0.0), UP)
        bench = replace(plan.bench, placement=stand, written=girder.written)
        name = "loft-post" if isinstance(plan.floor, Loft) else "floor-post"
        yield bench.along_v(name, girder.post, grade, u=0.0, v=(foot, base + under))


def sills(plan: FloorPlan, without: Mapping[int, tuple[float, float]]) -> Iterator[Member]:
    """Mud sills on the foundation, through at the sides that joists end on, cut out at girders that reach them.

    Args:
        plan: of the floor.
        without: by the number of a side, from where to where along it a pony wall stands in the sill's place [in].
    """
    if not isinstance(plan.floor, MainFloor) or plan.floor.sill == "none":
        return
    size = profile(plan.floor.sill)
    v = -plan.joist.depth_in - size.thickness_in
    for k, edge in enumerate(plan.sill_edges):
        bench, length = _edge_bench(plan, edge.a, edge.b), dist(edge.a, edge.b)
        left, right = _sill_ends(plan, k, size)
        right = (length - right[0], length - right[1])
        whole = min(left), max(right)
        gaps = [*girder_gaps(plan, edge, whole, v, size), *((without[k],) if k in without else ())]
        for run in _without(whole, gaps):
            for piece in spliced(run, longest_sold(size, "treated"), ()):
                start = left if piece[0] == whole[0] else (piece[0], piece[0])
                end = right if piece[1] == whole[1] else (piece[1], piece[1])
                slants = (start[1] - start[0], end[1] - end[0])
                if min(e - s for s, e in zip(start, end, strict=True)) <= TOLERANCE.mark:
                    continue  # a wedge between a slanted corner and what stands beside it
                yield bench.flat_along_u("mud-sill", size, "treated", u=(start[0], end[0]), v=v, slants=slants)


def sill_run(plan: FloorPlan, k: int, size: Profile) -> tuple[float, float]:
    """From where to where there is room for square ends between the corners of a side."""
    edge, (left, right) = plan.sill_edges[k], _sill_ends(plan, k, size)
    return max(left), dist(edge.a, edge.b) - max(right)


def _sill_ends(plan: FloorPlan, k: int, size: Profile) -> tuple[PlateEnd, PlateEnd]:
    """How far the sill of a side stops short of its corners, at its outside and at its inside."""
    edge, count = plan.sill_edges[k], len(plan.sill_edges)
    return (
        _sill_end(plan.sill_edges[k - 1], edge, k, size, count),
        _sill_end(plan.sill_edges[(k + 1) % count], edge, k, size, count, at_end=True),
    )


def _through(edge: Edge) -> bool:
    return abs(edge.b[0] - edge.a[0]) > abs(edge.b[1] - edge.a[1])


def _sill_end(other: Edge, edge: Edge, index: int, size: Profile, count: int, *, at_end: bool = False) -> PlateEnd:
    """How far a sill stops short of a corner: one runs through to the other's far side, the other butts against it."""
    first, second = (edge, other) if at_end else (other, edge)
    ux, uy = first.b[0] - first.a[0], first.b[1] - first.a[1]
    vx, vy = second.b[0] - second.a[0], second.b[1] - second.a[1]
    lengths = dist(first.a, first.b) * dist(second.a, second.b)
    turn, along = (ux * vy - uy * vx) / lengths, (ux * vx + uy * vy) / lengths
    if abs(turn) < TOLERANCE.length:
        return 0.0, 0.0
    other_index = (index + (1 if at_end else -1)) % count
    rank = (_through(edge), -index) > (_through(other), -other_index)
    line = 0.0 if rank == (turn > 0) else size.depth_in / turn
    lean = -size.depth_in * along / turn if abs(along) > TOLERANCE.length else 0.0
    return line, line + lean


def girder_gaps(
    plan: FloorPlan, edge: Edge, run: tuple[float, float], v: float, size: Profile
) -> list[tuple[float, float]]:
    """Where girders stand in a sill's run."""
    from shapely import Polygon, box

    length = dist(edge.a, edge.b)
    dx, dy = (edge.b[0] - edge.a[0]) / length, (edge.b[1] - edge.a[1]) / length

    def on(along: float, inward: float) -> tuple[float, float]:
        return (edge.a[0] + dx * along - dy * inward, edge.a[1] + dy * along + dx * inward)

    strip = Polygon([on(run[0], 0.0), on(run[1], 0.0), on(run[1], size.depth_in), on(run[0], size.depth_in)])
    gaps = []
    for girder in plan.girders:
        low = -girder.profile.depth_in - (plan.joist.depth_in if girder.joists == "over" else 0.0)
        u0, u1 = girder_run(plan, girder)
        inside = strip.intersection(box(u0, girder.faces[0], u1, girder.faces[1]))
        if (
            low < v + size.thickness_in - TOLERANCE.length
            and isinstance(inside, Polygon)
            and inside.area > TOLERANCE.area
        ):
            at = [(x - edge.a[0]) * dx + (y - edge.a[1]) * dy for x, y in inside.exterior.coords]
            gaps.append((min(at), max(at)))
    return gaps


def _without(run: tuple[float, float], gaps: Iterable[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """A run, parted where something else stands in it."""
    start = run[0]
    for low_at, high_at in sorted(gaps):
        if low_at > start + TOLERANCE.mark:
            yield start, low_at
        start = high_at
    if run[1] > start + TOLERANCE.mark:
        yield start, run[1]


def bearing_ledgers(plan: FloorPlan) -> Iterator[Member]:
    """Ledgers under the ends of a loft's joists."""
    size = profile(LEDGER_UNDER)
    for edge in plan.edges:
        if edge.role == "bear":
            bench, length = _edge_bench(plan, edge.a, edge.b), dist(edge.a, edge.b)
            for run in spliced((0.0, length), longest_sold(size, "no2"), ()):
                yield bench.edge_along_u(
                    "loft-ledger", size, "no2", u=run, v=-plan.joist.depth_in - size.depth_in, outward=0.0
                )


def longest_sold(size: Profile, grade: str) -> float:
    """Longest stick on sale [in]; infinite where any length is."""
    return max(stock_lengths(size, grade), default=float("inf"))
