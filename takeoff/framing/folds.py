"""The sticks that run along folds: ridges level between their ends, hips and valleys up the line of two slopes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import permutations
from math import atan, ceil, cos, dist, hypot
from typing import TYPE_CHECKING

from takeoff.catalog.rules import rule
from takeoff.framing.near_nodes import refuse_crowded
from takeoff.framing.plumb_ends import PlanLine, PlumbEnds, end_cuts, lower_reach, upper_reach
from takeoff.framing.roof_plan import Fold, RoofPlan
from takeoff.framing.slope import NODE_IN
from takeoff.geometry.node import PlumbCut, Ray, node_cuts
from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.roof_edge import distance_to_segment
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import Vec
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.framing.slope import Slope

Point = tuple[float, float]

SHORTEST_SEAT_IN = 1 / 8
"""Level length of the shortest seat that is cut in a hip or valley [in]: under it the plate only meets an arris. Common
practice, no source; that it should be 1-1/2 long is for the screening to say."""

RANKS = {"ridge": 0, "hip": 1, "valley": 2}
"""Who goes first where folds meet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoldStick:
    """The stick along a fold, before it is a member.

    Level distances are measured along the fold in plan from ``heel``, which is where a hip or valley comes over the
    wall, and the fold's lower end elsewhere; across it to the right, seen looking up.
    """

    fold: Fold
    heel: Point
    length: float
    """From the heel to the upper end of the fold, level [in]."""
    before: float
    """From the lower end of the fold to the heel, level [in]; 0 where the heel is the lower end."""
    over_wall: bool
    """A wall stands under the heel."""
    drop: float
    """How far its top is under the fold, so that its edges lie in the slopes [in]; plumb."""
    half: float
    lower: tuple[PlumbCut, ...]
    upper: tuple[PlumbCut, ...]

    @property
    def top_at_heel(self) -> float:
        """Height of its top over the heel, above the deck [in]."""
        return self.fold.low[2] + self.before * self.fold.slope - self.drop

    def line(self, cut: PlumbCut, node: Point) -> PlanLine:
        """A plumb cut at a node, as the stick sees it."""
        (dx, dy), (nx, ny) = self.fold.direction, cut.normal
        facing, beside = nx * dx + ny * dy, nx * dy - ny * dx
        away = nx * (self.heel[0] - node[0]) + ny * (self.heel[1] - node[1])
        return PlanLine((cut.offset - away) / facing, -beside / facing)

    @property
    def lower_lines(self) -> tuple[PlanLine, ...]:
        """Planes of its lower end."""
        return tuple(self.line(cut, self.fold.low[:2]) for cut in self.lower)

    @property
    def upper_lines(self) -> tuple[PlanLine, ...]:
        """Planes of its upper end."""
        return tuple(self.line(cut, self.fold.high[:2]) for cut in self.upper)


def fold_sticks(plan: RoofPlan, ground: Sequence[Point]) -> tuple[FoldStick, ...]:
    """All sticks along the folds of a roof, with the cuts that part them where they meet.

    Args:
        plan: the roof laid out.
        ground: corners of the footprint.

    Raises:
        ValueError: two ridges, or other sticks, end so near each other that they can't be cut to each other.
    """
    _refuse_near_nodes(plan)
    cuts = _node_cuts(plan)
    sticks = tuple(
        _stick(plan, ground, fold, cuts[k, 0], _on_gablet(plan, fold) or cuts[k, 1])
        for k, fold in enumerate(plan.folds)
    )
    refuse_crowded(plan, sticks)
    return sticks


def _on_gablet(plan: RoofPlan, fold: Fold) -> tuple[PlumbCut, ...]:
    """A hip that ends on the face of a small gable is cut to it."""
    lines = [plan.line(plan.slopes[index].side) for index in fold.slopes]
    if fold.kind != "hip":
        return ()
    return tuple(
        PlumbCut((-nx, -ny), 0.0) for line in lines if line.gablet is not None for nx, ny in (line.side.normal,)
    )


def _refuse_near_nodes(plan: RoofPlan) -> None:
    """Refuse ridges that end in the thickness of another, but don't meet it."""
    ridges = [fold for fold in plan.folds if fold.kind == "ridge"]
    for one, other in permutations(ridges, 2):
        thick = 2 * _half(plan, one)
        for a in (one.low, one.high):
            ends = min(dist(a, b) for b in (other.low, other.high))
            beside = distance_to_segment(a[:2], other.low[:2], other.high[:2])
            apart = ends if ends < thick else beside if beside < thick / 2 else thick
            if NODE_IN <= apart < thick and not passes(other, a):
                spot = f"x {format_length(a[0])}, y {format_length(a[1])}"
                raise ValueError(
                    f"two ridges end {format_length(apart)} apart at {spot}, nearer than they are thick"
                    f" ({format_length(thick)}), and can't be cut to each other; take a thinner ridge, or change a side"
                    " or a pitch so that they meet or stand further apart"
                )


def _node_cuts(plan: RoofPlan) -> dict[tuple[int, int], tuple[PlumbCut, ...]]:
    """Cuts of each end (0 lower, 1 upper) of each fold."""
    ends = [(k, e, fold.low if e == 0 else fold.high) for k, fold in enumerate(plan.folds) for e in (0, 1)]
    cuts: dict[tuple[int, int], tuple[PlumbCut, ...]] = {}
    for k, e, node in ends:
        if (k, e) in cuts:
            continue
        meeting = [(j, f) for j, f, other in ends if dist(node, other) < NODE_IN]
        rays = [_ray(plan, j, f) for j, f in meeting]
        rays += [_through(plan, j) for j in range(len(plan.folds)) if passes(plan.folds[j], node)]
        for (j, f), made in zip(meeting, node_cuts(rays), strict=False):
            cuts[j, f] = made
    return cuts


def _ray(plan: RoofPlan, k: int, end: int) -> Ray:
    fold = plan.folds[k]
    x, y = fold.direction
    away = (x, y) if end == 0 else (-x, -y)
    return Ray(away, _half(plan, fold), RANKS[fold.kind])


def _through(plan: RoofPlan, k: int) -> Ray:
    fold = plan.folds[k]
    return Ray(fold.direction, _half(plan, fold), RANKS[fold.kind], through=True)


def passes(fold: Fold, node: Vec) -> bool:
    """Whether a node lies on a fold between its ends."""
    whole = dist(fold.low, fold.high)
    first, second = dist(fold.low, node), dist(node, fold.high)
    return min(first, second) > NODE_IN and abs(first + second - whole) < TOLERANCE.length


def _half(plan: RoofPlan, fold: Fold) -> float:
    return plan.slopes[fold.slopes[0]].halves.of(fold.kind)


def _stick(
    plan: RoofPlan, ground: Sequence[Point], fold: Fold, lower: tuple[PlumbCut, ...], upper: tuple[PlumbCut, ...]
) -> FoldStick:
    half = _half(plan, fold)
    x, y = fold.low[:2]
    dx, dy = fold.direction
    whole = dist(fold.low[:2], fold.high[:2])
    entry = None if fold.kind == "ridge" else _entry(ground, fold, half, whole)
    before = entry or 0.0
    if entry is not None:
        lower = tuple(_tail_cuts(plan, fold))
    return FoldStick(
        fold=fold,
        heel=(x + dx * before, y + dy * before),
        length=whole - before,
        before=before,
        over_wall=entry is not None,
        drop=_drop(plan, fold, half),
        half=half,
        lower=lower,
        upper=upper,
    )


def _entry(ground: Sequence[Point], fold: Fold, half: float, whole: float) -> float | None:
    """Level distance from a fold's lower end to where its stick first comes over a wall; None if it starts inside."""
    from shapely import LineString, Polygon
    from shapely import Point as Spot

    area = Polygon(ground)
    (x, y), (dx, dy) = fold.low[:2], fold.direction
    if area.buffer(-NODE_IN).contains(Spot(x, y)):
        return None
    entries = []
    # A corner that the stick passes beside its middle is where it first comes over the wall.
    beside = (dy * (u - x) - dx * (v - y) for u, v in ground)
    for w in (-half, 0.0, half, *(w for w in beside if abs(w) < half)):
        px, py = x + dy * w, y - dx * w
        start = (px - dx * whole, py - dy * whole)
        inside = LineString([start, (px + dx * whole, py + dy * whole)]).intersection(area)
        if not inside.is_empty:
            entries.append(min(dx * (u - px) + dy * (v - py) for u, v in _coordinates(inside)))
    return max(0.0, min(entries)) if entries else None


def _coordinates(shape: object) -> Iterator[Point]:
    from shapely import get_coordinates

    for u, v in get_coordinates(shape):  # type: ignore[call-overload]
        yield float(u), float(v)


def _tail_cuts(plan: RoofPlan, fold: Fold) -> Iterator[PlumbCut]:
    """At an outer corner a double cheek for two fascias; at an inner one a square cut on the corner."""
    if fold.kind == "valley":
        x, y = fold.direction
        yield PlumbCut((-x, -y), 0.0)
        return
    for index in fold.slopes:
        line = plan.line(plan.slopes[index].side)
        # Up on a gable only the clip has a fascia.
        if line.clip or not any(plan.line(plan.slopes[other].side).clip for other in fold.slopes):
            yield PlumbCut(line.side.normal, 0.0)


def _drop(plan: RoofPlan, fold: Fold, half: float) -> float:
    """Plumb fall of the steeper slope from the fold to the side of its stick; none for a valley, whose slopes rise."""
    if fold.kind == "valley":
        return 0.0
    return max(fall_across(plan.slopes[index], fold) for index in fold.slopes) * half


def fall_across(slope: Slope, fold: Fold) -> float:
    """How much a slope falls away from a fold, or rises from it, for one inch level and square to it."""
    gx, gy, _ = slope.bench.placement.y
    dx, dy = fold.direction
    return slope.common.slope * abs(gx * dy - gy * dx) / hypot(gx, gy)


def fold_geometry(
    stick: FoldStick,
    *,
    depth: float,
    thickness: float,
    plate: float,
    tail_plumb: float | None,
    tail_level_drop: float | None = None,
    tail_lean: float = 0.0,
) -> tuple[RafterGeometry, PlumbEnds]:
    """Cuts of a hip or valley rafter, as a rafter of its own slope.

    Args:
        stick: where it runs.
        depth: square to its edges [in].
        thickness: [in].
        plate: height of the plate above the deck [in].
        tail_plumb: plumb depth that the tails of the common rafters are ripped to [in], if they are.
        tail_level_drop: plumb distance from the top of their tail cuts to their level cuts [in], if they have them.
        tail_lean: how far the planes of their tail cuts run back along this stick for one inch down.

    Raises:
        ValueError: no such stick can be cut.
    """
    slope = stick.fold.slope
    stand = stick.top_at_heel - plate
    plumb_depth = depth * hypot(1, slope)
    least = stand + SHORTEST_SEAT_IN * slope
    if stick.over_wall and plumb_depth < least - TOLERANCE.length:
        over = stand - plumb_depth
        lacks = (
            f"ends {format_length(over)} over the plate"
            if over > -TOLERANCE.length
            else f"would have a seat of only {format_length(-over / slope, denominator=32)} on the plate"
        )
        bearing = rule("bearing.rafter").value
        deep = ceil(16 * (stand + bearing * slope) / hypot(1, slope)) / 16
        raise ValueError(
            f"it {lacks}, whose rafters stand {format_length(stand)} high on it: for a"
            f" bearing of {format_length(bearing)} write {stick.fold.kind}s: with a size at least"
            f" {format_length(deep)} deep, or give the rafters a longer seat (rafters: seat)"
        )
    seat = max(0.0, (plumb_depth - stand) / slope) if stick.over_wall else 0.0
    # Planes that lean meet the top of a dropped stick further in than the fold.
    further = tail_lean * stick.drop / (1 + tail_lean * slope)
    leaning = [PlanLine(line.at + further, line.skew, tail_lean) for line in stick.lower_lines]
    lower = lower_reach(leaning if stick.over_wall and tail_lean else stick.lower_lines, thickness)
    upper = upper_reach(stick.upper_lines, thickness)
    tail = None if tail_plumb is None else (tail_plumb - stick.drop) * cos(atan(slope))
    geometry = RafterGeometry(
        slope=slope,
        depth=depth,
        run=stick.length,
        overhang=-lower.tip if stick.over_wall else 0.0,
        ridge_half=stick.length - upper.centre,
        cheek=upper.tip - upper.centre,
        foot=None if stick.over_wall else lower.centre,
        foot_cheek=0.0 if stick.over_wall else lower.centre - lower.tip,
        seat=seat,
        stand=None if seat else stand,
        tail_depth=tail if stick.over_wall else None,
        tail_level_drop=None if tail_level_drop is None or not stick.over_wall else tail_level_drop - stick.drop,
        tail_lean=tail_lean if stick.over_wall else 0.0,
    )
    return geometry, PlumbEnds(
        end_cuts(geometry, lower.lines, upper=False), end_cuts(geometry, upper.lines, upper=True)
    )
