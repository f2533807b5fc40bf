"""Joists of a floor: the slices of its outline, parted at girders, those that stand fast before those on the layout."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.rules import rule
from takeoff.framing.joist_stations import stations
from takeoff.geometry.outline import Outline
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import SQUARE_ENDS, EndCut

if TYPE_CHECKING:
    from takeoff.framing.floor_plan import FloorPlan
    from takeoff.geometry.outline import Edge, Slice
    from takeoff.model.member import Member

CORNER_IN = 3.0
"""By no more is a joist shortened at a corner that a slanted edge begins at [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedJoist:
    """One joist, between two places along v [in], long point to long point."""

    role: str
    u: float
    v: tuple[float, float]
    cuts: tuple[EndCut, EndCut] = SQUARE_ENDS


def placed_joists(plan: FloorPlan) -> tuple[PlacedJoist, ...]:
    """All joists of a floor: along its sides, beside openings, under partitions, then on the layout where room is."""
    standing: list[PlacedJoist] = []
    for group in (_side_joists(plan), _trimmers(plan), _doubled(plan), _on_layout(plan)):
        for joist in group:
            if all(_clear(joist, other, plan.thickness) for other in standing):
                standing.append(joist)
    return tuple(sorted(standing, key=lambda joist: (joist.u, joist.v)))


def joist_members(plan: FloorPlan, joists: Iterable[PlacedJoist]) -> Iterator[Member]:
    """The sticks."""
    grade = plan.floor.joists.made_of
    for joist in joists:
        yield plan.bench.along_v(joist.role, plan.joist, grade, u=joist.u, v=joist.v, cuts=joist.cuts)


def _clear(one: PlacedJoist, other: PlacedJoist, thickness: float) -> bool:
    apart = abs(one.u - other.u) >= thickness - TOLERANCE.length
    return apart or one.v[1] <= other.v[0] + TOLERANCE.length or other.v[1] <= one.v[0] + TOLERANCE.length


def _side_joists(plan: FloorPlan) -> Iterator[PlacedJoist]:
    half = plan.thickness / 2
    for edge in plan.edges:
        if edge.role != "side":
            continue
        inward = -half if edge.b[1] > edge.a[1] else half
        u = (edge.a[0] + edge.b[0]) / 2 + inward
        middle = (edge.a[1] + edge.b[1]) / 2
        for part in Outline(plan.inner_edges).slices(u):
            if part.v0 <= middle <= part.v1:
                yield from _parted(plan, part, "rim-joist", u, lap=False)


def _trimmers(plan: FloorPlan) -> Iterator[PlacedJoist]:
    for hole in plan.holes:
        middle = sum(hole.v) / 2
        for u in hole.trimmers:
            for part in Outline(plan.inner_edges).slices(u):
                if part.v0 <= middle <= part.v1:
                    yield from _parted(plan, part, "trimmer-joist", u, lap=False)


def _doubled(plan: FloorPlan) -> Iterator[PlacedJoist]:
    half = plan.thickness / 2
    for line, reach in plan.doubled:
        for u in (line - half, line + half):
            for part in plan.inner.slices(u):
                for joist in _parted(plan, part, "partition-joist", u, lap=False):
                    if joist.v[0] < reach[1] and reach[0] < joist.v[1]:
                        yield joist


def _on_layout(plan: FloorPlan) -> Iterator[PlacedJoist]:
    for u in stations(plan):
        for part in plan.inner.slices(u):
            for joist in _parted(plan, part, "floor-joist", u, lap=plan.floor.splice == "lap"):
                headed = (part.lower, part.v0, joist.v[0]), (part.upper, part.v1, joist.v[1])
                cut = any(edge.role == "header" and abs(end - at) < TOLERANCE.mark for edge, end, at in headed)
                yield replace(joist, role="tail-joist") if cut else joist


def _parted(plan: FloorPlan, part: Slice, role: str, u: float, *, lap: bool) -> Iterator[PlacedJoist]:
    """The joists of one slice: parted at the faces of girders they hang on, and over girders they lie on."""
    half = plan.thickness / 2
    v0, first = _end(part.lower, u, half, part.v0, -1)
    v1, last = _end(part.upper, u, half, part.v1, 1)
    v0, v1 = _clear_of_corners(plan, part, u, (v0, v1))
    longest = max(stock_lengths(plan.joist, plan.floor.joists.made_of), default=float("inf"))
    start, cut, shift, least = v0, first, 0.0, rule("joist.lap").value / 2
    across = [g for g in plan.carriers if g.u[0] - TOLERANCE.length <= u <= g.u[1] + TOLERANCE.length]
    for k, girder in enumerate(across):
        low, high = girder.faces
        if high <= v0 + TOLERANCE.length or low >= v1 - TOLERANCE.length:
            continue
        if girder.joists == "hang":
            if low > start + TOLERANCE.length:
                yield PlacedJoist(role=role, u=u + shift, v=(start, low), cuts=(cut, SQUARE_ENDS[1]))
            start, cut = high, SQUARE_ENDS[0]
            continue
        following = next((g.v for g in across[k + 1 :] if g.v < v1), v1)
        runs_on = plan.floor.splice == "none" and following - start <= longest
        at_end = low <= v0 + TOLERANCE.length or high >= v1 - TOLERANCE.length
        if runs_on or at_end:
            continue  # a girder under the end carries it as it is
        over = max(girder.half, least) if lap else 0.0
        yield PlacedJoist(role=role, u=u + shift, v=(start, girder.v + over), cuts=(cut, SQUARE_ENDS[1]))
        start, cut = girder.v - over, SQUARE_ENDS[0]
        if lap:
            shift = plan.thickness - shift
    if v1 > start + TOLERANCE.length:
        yield PlacedJoist(role=role, u=u + shift, v=(start, v1), cuts=(cut, last))


def _clear_of_corners(plan: FloorPlan, part: Slice, u: float, v: tuple[float, float]) -> tuple[float, float]:
    """Ends of a joist on level edges, square behind a slanted edge that begins within its thickness."""
    inside, middle = plan.thickness / 2 - TOLERANCE.mark, (part.v0 + part.v1) / 2
    beside = [
        each
        for at in (u - inside, u + inside)
        for each in Outline(plan.inner_edges).slices(at)
        if each.v0 < middle < each.v1
    ]
    low, high = v
    for each in beside:
        if abs(part.lower.slope) < TOLERANCE.length and 0.0 < each.v0 - low < CORNER_IN:
            low = each.v0
        if abs(part.upper.slope) < TOLERANCE.length and 0.0 < high - each.v1 < CORNER_IN:
            high = each.v1
    return low, high


def _end(edge: Edge, u: float, half: float, v: float, outward: int) -> tuple[float, EndCut]:
    """Long point of an end, and its cut: bevelled where the edge runs askew."""
    square = SQUARE_ENDS[1 if outward > 0 else 0]
    if abs(edge.slope) < TOLERANCE.length:
        return v, square
    # At a corner the edge ends within the joist's thickness: there the long point stays behind the corner.
    longer = 1 if outward * edge.slope > 0 else -1
    left, right = sorted((edge.a[0], edge.b[0]))
    reach = max(0.0, min(half, right - u if longer > 0 else u - left))
    long = v + outward * abs(edge.slope) * reach
    n = (1 + edge.slope**2) ** 0.5
    return long, replace(square, normal=(outward / n, 0.0, -outward * edge.slope / n))
