"""The roof designed: rows of rafters, ridges, hips and valleys, pockets and blocks, before any stick is made."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from math import dist, hypot
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.findings import Place
from takeoff.framing.dormer import dormer_openings
from takeoff.framing.eaves import EaveBlocking, FasciaRun, eave_blocking, high_blocking
from takeoff.framing.fold_members import RidgeEnd, RidgeStick, ridge_stick
from takeoff.framing.folds import FoldStick, fall_across, fold_sticks
from takeoff.framing.mouth import EAVE_VALLEY, MOUTH, STEP
from takeoff.framing.overlaid import overlaid
from takeoff.framing.purlin_beams import purlin_ends, purlins
from takeoff.framing.rafters import RafterRow, rafter_row
from takeoff.framing.rake_ends import pockets_of, with_rakes
from takeoff.framing.ridge_over import ridge_below
from takeoff.framing.roof_lines import RoofSideLine
from takeoff.framing.roof_plan import RoofPlan, roof_plan
from takeoff.framing.slope_openings import with_openings
from takeoff.framing.stick import Bench
from takeoff.geometry.placement import Placement
from takeoff.geometry.roof_edge import distance_to_segment
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP

if TYPE_CHECKING:
    from takeoff.framing.slope import Slope
    from takeoff.geometry.outline import Edge
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.schema import Building


INNER_CORNER = (EAVE_VALLEY, MOUTH, STEP)
"""Roles of what follows on an eave at an inner corner of a wing that is laid over the main roof."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofFrame:
    """One roof, designed."""

    plan: RoofPlan
    rows: tuple[RafterRow, ...]
    """The rafters of each slope, in the order of the plan's slopes."""
    blocking: tuple[EaveBlocking | None, ...]
    """Blocks over the plate of each slope."""
    high_blocking: tuple[EaveBlocking | None, ...]
    """Blocks over the high wall of each slope; None where it has none."""
    ledger_depth: float
    """Of the ledgers on standing walls [in]."""
    ridges: tuple[RidgeStick, ...]
    ridge_ends: tuple[RidgeEnd, ...]
    sloped: tuple[FoldStick, ...]
    """Hips and valleys."""
    purlins: tuple[RidgeStick, ...] = ()
    """Beams under the breaks of a gambrel roof."""

    def ends_over(self, side: str) -> tuple[RidgeEnd, ...]:
        """Ridges that run out over a side's wall, and purlins that end on it."""
        return tuple(end for end in (*self.ridge_ends, *purlin_ends(self.plan, self.purlins)) if end.side == side)


def roof_frame(
    building: Building,
    ground: Footprint,
    written: Callable[[str], Place],
    sheet_edges: Mapping[str, tuple[float, ...]],
    reshape: Callable[[RoofPlan], RoofPlan] | None = None,
) -> RoofFrame:
    """Design the roof of a building.

    Args:
        building: as the plan has it.
        ground: its footprint.
        written: gives the place in the plan of a path.
        sheet_edges: by slope, v of the level joints of its sheets [in]; of a slope left out, those of the plain lay-up.
        reshape: changes the roof as laid out, before rafters are sliced.

    Raises:
        RoofError: no roof closes over its sides.
        ValueError: a rafter can't be cut; the message says why.
    """
    roof = building.roof
    plan = overlaid(roof_plan(building, ground, written), building, ground)
    plan = reshape(plan) if reshape else plan
    plan = replace(plan, slopes=with_openings(plan.slopes, building, written, dormer_openings))
    plan = replace(plan, slopes=tuple(replace(s, sheet_edges=sheet_edges.get(s.name)) for s in plan.slopes))
    rafter = profile(roof.rafters.size)
    rows = tuple(
        with_rakes(
            building,
            rafter_row(slope, rafter, roof.rafters.grade, roof.rafters.spacing, pockets_of(building, slope)),
            written,
        )
        for slope in plan.slopes
    )
    sticks = fold_sticks(plan, ground.points)
    level = [stick for stick in sticks if stick.fold.kind == "ridge"]
    if level and roof.ridge is None:
        raise ValueError("slopes meet in a ridge here: write ridge, its kind and size")
    ends = [tuple(_rake_end(plan, stick, end) for end in (0, 1)) for stick in level]
    bench = Bench(building=building.name, face="ridge", placement=_NOWHERE, written=written("roof.ridge"))
    below = ridge_below(building, plan.lines)
    ridges = tuple(
        ridge_stick(stick, bench=bench, planned=roof.ridge, below=below, ends=(_back(low), _back(high)))
        for stick, (low, high) in zip(level, ends, strict=True)
        if roof.ridge
    )
    return RoofFrame(
        plan=plan,
        rows=rows,
        blocking=tuple(_blocking(building, slope) for slope in plan.slopes),
        high_blocking=tuple(_high_blocking(building, row) for row in rows),
        ledger_depth=profile(roof.ledger_size).depth_in,
        ridges=ridges,
        ridge_ends=tuple(_ridge_ends(plan, level, ridges, ends)),
        sloped=tuple(stick for stick in sticks if stick.fold.kind != "ridge"),
        purlins=purlins(plan, roof.upper, building.name, written("roof.upper.purlin")) if roof.upper else (),
    )


_NOWHERE = Placement((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), UP)


def _blocking(building: Building, slope: Slope) -> EaveBlocking | None:
    blocking = building.roof.blocking
    if blocking.eave == "none":
        return None
    size = profile(blocking.size) if blocking.size else None
    return eave_blocking(slope.common.height_above_plate, vented=blocking.eave == "vented", size=size)


def _high_blocking(building: Building, row: RafterRow) -> EaveBlocking | None:
    blocking = building.roof.blocking
    if blocking.eave == "none" or not row.slope.high_wall:
        return None
    size = profile(blocking.size) if blocking.size else None
    return high_blocking(row, vented=blocking.eave == "vented", size=size)


def _rake_end(plan: RoofPlan, stick: FoldStick, end: int) -> RoofSideLine | None:
    """The gable that a ridge's end runs out over; None where it ends in a node."""
    spot = stick.fold.low if end == 0 else stick.fold.high
    for line in plan.lines:
        if line.bears:
            continue
        (x, y), (dx, dy), (nx, ny) = line.side.start, line.side.direction, line.side.normal
        on_it = abs((spot[0] - x) * nx + (spot[1] - y) * ny - line.out) < TOLERANCE.length * 10
        # Of two wings whose gables are in one line, it ends over its own.
        if on_it and 0 < (spot[0] - x) * dx + (spot[1] - y) * dy < line.side.length_in:
            return line
    return None


def _back(line: RoofSideLine | None) -> float:
    """From the outside of a rake to the outside of the wall framing; a ridge meets its gable squarely."""
    return line.out if line else 0.0


def _ridge_ends(
    plan: RoofPlan,
    sticks: list[FoldStick],
    ridges: tuple[RidgeStick, ...],
    ends: list[tuple[RoofSideLine | None, ...]],
) -> Iterator[RidgeEnd]:
    for stick, ridge, over in zip(sticks, ridges, ends, strict=True):
        fall = max(fall_across(plan.slopes[index], stick.fold) for index in stick.fold.slopes)
        for line, at_start in zip(over, (True, False), strict=True):
            if line is None:
                continue
            u = ridge.run[0] if at_start else ridge.run[1]
            x, y, _ = ridge.bench.placement.to_world((u, 0.0, 0.0))
            yield RidgeEnd(
                side=line.side.name,
                ridge=ridge,
                spot=(x, y),
                out=line.out,
                at_start=at_start,
                top=stick.fold.low[2],
                fall=fall,
            )


def rafters_along(frame: RoofFrame, ridge: RidgeStick) -> tuple[float, ...]:
    """Where rafters of its first slope meet a ridge, [in] along it, from its start."""
    row = frame.rows[ridge.slopes[0]]
    spots = (row.slope.bench.placement.to_world((u, 0.0, 0.0)) for u in row.centres)
    along = (ridge.bench.placement.from_world(spot)[0] for spot in spots)
    return tuple(sorted(u for u in along if ridge.run[0] < u < ridge.run[1]))


def fascia_runs(plan: RoofPlan, slope: Slope) -> Iterator[FasciaRun]:
    """The straight runs of a slope's eaves, mitred where the next eave goes round a corner."""
    for index, edge in enumerate(slope.outline.edges):
        if edge.role == "high":
            yield FasciaRun(u=(edge.b[0], edge.a[0]), mitres=(0.0, 0.0), high=True)
        if edge.role != "eave":
            continue
        before, after = slope.outline.edges[index - 1], slope.outline.edges[(index + 1) % len(slope.outline.edges)]
        here = _side_under(plan, slope, edge)
        ends = (_turn(plan, here, before.role, left=True), _turn(plan, here, after.role, left=False))
        yield FasciaRun(u=(edge.a[0], edge.b[0]), mitres=ends)


def _side_under(plan: RoofPlan, slope: Slope, edge: Edge) -> int:
    """The side that an eave lies over; a slope parted by a wing has several, in one line."""
    x, y, _ = slope.bench.placement.to_world(((edge.a[0] + edge.b[0]) / 2, 0.0, 0.0))
    along = slope.bench.placement.x

    def off(k: int) -> tuple[float, float]:
        side = plan.lines[k].side
        # An eave that reaches far round a corner may be as near the wall round it: that one runs another way.
        return round(dist(side.direction, along[:2]), 6), distance_to_segment((x, y), side.start, side.end)

    return min((k for k, line in enumerate(plan.laid_from) if line.is_eave), key=off)


def _turn(plan: RoofPlan, here: int, role: str, *, left: bool) -> float:
    """Tangent of half the turn from an eave to the next, round a hip (over 0) or a valley (under 0)."""
    if role not in ("hip", "valley", *INNER_CORNER) or plan.lines[here].clip:
        return 0.0
    sides = [line.side for line in plan.lines]
    other = sides[here - 1] if left else sides[(here + 1) % len(sides)]
    a, b = (other.direction, sides[here].direction) if left else (sides[here].direction, other.direction)
    sine, cosine = a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]
    return sine / (1 + cosine) if hypot(sine, 1 + cosine) > TOLERANCE.length else 0.0
