"""What stands between a floor's joists: rows of blocks or bridging, and blocks under partitions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil
from typing import TYPE_CHECKING

from takeoff.catalog.rules import rule
from takeoff.framing.floor_outline import ALONG
from takeoff.geometry.outline import rectangle
from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.framing.floor_joists import PlacedJoist
    from takeoff.framing.floor_plan import FloorPlan
    from takeoff.model.member import Member


def blocks(plan: FloorPlan, joists: Sequence[PlacedJoist]) -> Iterator[Member]:
    """Rows of blocks between joists, every other one set off by its thickness so that its ends can be nailed."""
    half = plan.thickness / 2
    spots = [
        spot for v, offset in _rows(plan) if not (offset and crossed(plan)) for spot in _bays(plan, joists, v, offset)
    ]
    taken = [_box(*spot, half) for spot in spots]
    for spot in _under_partitions(plan, joists):
        if not any(_box(*spot, half).intersects(other) for other in taken):
            spots.append(spot)
            taken.append(_box(*spot, half))
    for u0, u1, v in spots:
        yield plan.bench.standing_along_u("floor-block", plan.joist, plan.floor.joists.made_of, u=(u0, u1), v=v)


def crossed(plan: FloorPlan) -> bool:
    """Whether its rows are of cross bridging."""
    return plan.floor.blocking.bridging == "cross"


def bridging_pairs(plan: FloorPlan, joists: Sequence[PlacedJoist]) -> int:
    """Pairs of cross bridging, one for each bay that a row crosses."""
    rows = [v for v, offset in _rows(plan) if offset] if crossed(plan) else []
    return sum(1 for v in rows for _ in _bays(plan, joists, v, 0))


def _bays(
    plan: FloorPlan, joists: Sequence[PlacedJoist], v: float, offset: int
) -> Iterator[tuple[float, float, float]]:
    """Bays that a row at v crosses: from where to where along u, and v of what stands there [in]."""
    half = plan.thickness / 2
    outline = plan.inner.polygon
    taken = sorted((j.u - half, j.u + half) for j in joists if j.v[0] - half <= v <= j.v[1] + half)
    gaps = [(a[1], b[0]) for a, b in pairwise(taken) if b[0] - a[1] > plan.thickness]
    for k, (u0, u1) in enumerate(gaps):
        at = v + (half if k % 2 else -half) * offset
        if outline.contains(_box(u0, u1, at, half)):
            yield u0, u1, at


def _under_partitions(plan: FloorPlan, joists: Sequence[PlacedJoist]) -> Iterator[tuple[float, float, float]]:
    """Blocks in the bay that a partition runs over, from one end of it to the other."""
    half = plan.thickness / 2
    for u, (low, high) in plan.blocked:
        count = max(1, ceil((high - low - plan.thickness) / plan.floor.joists.spacing - TOLERANCE.length))
        for k in range(count + 1):
            v = low + half + (high - low - plan.thickness) * k / count
            if any(g.joists == "hang" and g.faces[0] - half < v < g.faces[1] + half for g in plan.girders):
                continue  # there it stands on the girder itself
            for spot in _bays(plan, joists, v, 0):
                if spot[0] < u < spot[1]:
                    yield spot


def _box(u0: float, u1: float, v: float, half: float) -> Polygon:
    from shapely import Polygon

    pared = TOLERANCE.mark
    ring = rectangle(u0 + pared, v - half + pared, u1 - pared, v + half - pared, ("", "", "", ""))
    return Polygon([edge.a for edge in ring])


def _rows(plan: FloorPlan) -> Iterator[tuple[float, int]]:
    """Middles of rows along v, and 1 where blocks are set off in turn."""
    half = plan.thickness / 2
    supports = sorted(
        {*(g.v for g in plan.carriers), *(e.a[1] for e in plan.edges if e.role != "side" and abs(e.slope) < ALONG)}
    )
    for a, b in pairwise(supports):
        number = row_count(plan, b - a)
        yield from ((a + (b - a) * k / (number + 1), 1) for k in range(1, number + 1))
    if plan.floor.blocking.over_girders:
        yield from ((g.v, 0) for g in plan.carriers if g.joists == "over")
    for edge in plan.edges:
        if edge.role == "bear":
            yield edge.a[1] + (half if edge.b[0] > edge.a[0] else -half), 0


def row_count(plan: FloorPlan, span: float) -> int:
    """Rows of blocks in a span [in]: as written, or by the ratio of depth to thickness."""
    asked = plan.floor.blocking.rows
    if asked == "none":
        return 0
    if isinstance(asked, int):
        return asked
    if plan.joist.nominal is None:
        return 0
    ratio = plan.joist.nominal[1] / plan.joist.nominal[0]
    if ratio <= rule("joist.bridging-ratio").value:
        return 0
    return max(0, ceil(span / rule("joist.bridging-interval").value - TOLERANCE.length) - 1)
