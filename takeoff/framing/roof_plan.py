"""The roof laid out: its slopes, and the folds between them that ridges, hips and valleys run along."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import dist, hypot
from typing import TYPE_CHECKING, Literal

from takeoff.catalog.profiles import profile
from takeoff.findings import Place
from takeoff.framing.behind_clips import off_clipped_walls
from takeoff.framing.clip_slopes import with_clip_slopes
from takeoff.framing.clips import ClipError, with_clips
from takeoff.framing.gablets import PLIES, with_gablets
from takeoff.framing.gambrel import as_upper, break_of, lower_outline, upper_lines
from takeoff.framing.mouth import Mouth
from takeoff.framing.ridge_over import over_beam, run_over
from takeoff.framing.roof_lines import RoofSideLine, common_rafter, lowest_eave, outer_ring, roof_lines
from takeoff.framing.slope import FoldHalves, Slope
from takeoff.framing.stick import Bench
from takeoff.framing.told_slopes import told_slopes
from takeoff.geometry.outline import Outline, cut_off_below, ring
from takeoff.geometry.placement import Placement
from takeoff.geometry.skeleton import RoofSlope, roof_slopes
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP, Vec, add, scale, unit
from takeoff.geometry.wavefront import RoofSide
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.geometry.rafter import RafterGeometry
    from takeoff.plan.footprint import Footprint, Side
    from takeoff.plan.gambrel import Upper
    from takeoff.plan.schema import Building

FoldKind = Literal["ridge", "hip", "valley"]

ROLE_OF = {"eave": "eave", "ridge": "ridge", "hip": "hip", "valley": "valley", "gable": "rake"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Fold:
    """A line in which two slopes meet, in the world [in], its lower end first (a level one: either)."""

    kind: FoldKind
    slopes: tuple[int, int]
    """Places of the two in the plan's slopes."""
    low: Vec
    high: Vec
    laid_on: Placement | None = None
    """The roof that the ridge of a wing or of a dormer ends on, its third axis up and out."""

    @property
    def direction(self) -> tuple[float, float]:
        """Unit vector in plan, from the lower end up."""
        run = dist(self.low[:2], self.high[:2])
        return ((self.high[0] - self.low[0]) / run, (self.high[1] - self.low[1]) / run)

    def ends_on(self, spot: Vec) -> bool:
        """Whether a place lies on the roof that it ends on."""
        return self.laid_on is not None and abs(self.laid_on.from_world(spot)[2]) < TOLERANCE.mark

    @property
    def slope(self) -> float:
        """Rise over run along it."""
        return (self.high[2] - self.low[2]) / dist(self.low[:2], self.high[:2])


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofPlan:
    """Slopes and folds of one roof, and what each side of the building does for it."""

    lines: tuple[RoofSideLine, ...]
    slopes: tuple[Slope, ...]
    folds: tuple[Fold, ...]
    mouths: tuple[Mouth, ...] = ()
    """Mouths of the wings that are laid over the main roof."""

    def line(self, side: str) -> RoofSideLine:
        """What a side does for the roof."""
        return next(line for line in self.lines if line.side.name == side)

    @property
    def laid_from(self) -> tuple[RoofSideLine, ...]:
        """What the slopes start on: the sides, clipped gables as the eaves of their clips."""
        return with_clips(self.lines)

    def under(self, slope: Slope) -> RoofSideLine:
        """The eave that a slope starts on."""
        return next(line for line in self.laid_from if line.side.name == slope.side)


def roof_plan(building: Building, footprint: Footprint, written: Callable[[str], Place]) -> RoofPlan:
    """Lay the roof out.

    Raises:
        RoofError: no roof closes over these sides.
        ValueError: a rafter can't be cut.
    """
    lines = roof_lines(building, footprint)
    if building.roof.upper is not None:
        return _gambrel_plan(building, lines, building.roof.upper, written)
    eaves = with_clips(lines)
    told = building.outlines.slopes
    laid = told_slopes(building, lines, footprint) if told else roof_slopes(outer_ring(lines))
    base = lowest_eave(lines)
    laid = with_gablets(with_clip_slopes(laid, lines, base), lines)
    halves = fold_halves(building)
    slopes = tuple(_slope(building, eaves, one, halves, written) for one in laid)
    folds = tuple(_folds(laid, base))
    for fold in folds:
        if fold.kind == "valley" and fold.high[2] - fold.low[2] < TOLERANCE.length:
            names = " and the ".join(slopes[index].name for index in fold.slopes)
            raise ValueError(f"the {names} meet in a level valley, which holds water and isn't framed")
    # A clip's eave stands where the plan puts it, and its hips end at the rakes.
    clipped = [line.side.name for line in lines if line.clip]
    corners = tuple(fold for fold in folds if not {*clipped} & {slopes[index].side for index in fold.slopes})
    if clipped and not any(fold.kind == "ridge" for fold in corners):
        raise ClipError("found clips that leave no ridge between them, expected shorter runs", clipped[0])
    _refuse_unequal_walls(lines, slopes, corners)
    high, low = (pick((line for line in lines if line.is_eave), key=lambda ln: ln.eave_height) for pick in (max, min))
    higher = high.eave_height - low.eave_height
    if higher > TOLERANCE.length and any(fold.kind != "ridge" for fold in corners):
        raise ValueError(
            f"the {high.side.name} eave stands {format_length(higher)} over the {low.side.name} eave, which hips and"
            " valleys can't join; give their walls one height, the eaves more overhang, or pitches nearer to each other"
        )
    return RoofPlan(lines=lines, slopes=off_clipped_walls(building, slopes, lines), folds=folds)


def _refuse_unequal_walls(lines: tuple[RoofSideLine, ...], slopes: tuple[Slope, ...], folds: tuple[Fold, ...]) -> None:
    """Over the corner of two walls the roof is as low as its flatter slope: a higher wall would stand up into it.

    Raises:
        ValueError: a hip or valley joins slopes whose walls differ in height.
    """
    plate = {line.side.name: line.plate for line in lines}
    for fold in folds:
        one, other = (slopes[index].side for index in fold.slopes)
        if fold.kind != "ridge" and abs(plate[one] - plate[other]) > TOLERANCE.length:
            higher = max(one, other, key=lambda name: plate[name])
            message = (
                f"the {higher} wall would stand {format_length(abs(plate[one] - plate[other]))} higher than the"
                f" {other if higher == one else one} wall, up into the roof over the corner where their slopes meet in"
                f" a {fold.kind}; write keep: plate_line, or give both sides one pitch"
                " and their walls one height"
            )
            raise ValueError(message)


def _gambrel_plan(
    building: Building, lines: tuple[RoofSideLine, ...], upper: Upper, written: Callable[[str], Place]
) -> RoofPlan:
    """The lower slopes, and over the purlins a gable roof."""
    halves = fold_halves(building)
    above = upper_lines(building, lines, upper)
    lower = []
    for index, line in enumerate(lines):
        if line.is_eave:
            common = common_rafter(building, line, break_of(line, upper).run, 0.0)
            outline = lower_outline(lines, index, upper)
            walls = _walls_along(line.side, [line.side])
            from_right = index >= len(lines) // 2
            lower.append(_made(building, line, outline, common, halves, walls, written, from_right=from_right))
    laid = roof_slopes(outer_ring(above))
    upper_slopes = tuple(as_upper(_slope(building, above, one, halves, written)) for one in laid)
    folds = [
        replace(fold, slopes=(fold.slopes[0] + len(lower), fold.slopes[1] + len(lower)))
        for fold in _folds(laid, lowest_eave(above))
    ]
    return RoofPlan(lines=lines, slopes=(*lower, *upper_slopes), folds=tuple(folds))


def fold_halves(building: Building) -> FoldHalves:
    """Half thicknesses of ridge, hips and valleys as the plan has them; nothing stands between rafters over a beam."""
    roof = building.roof
    return FoldHalves(
        ridge=profile(roof.ridge.size).thickness_in / 2 if roof.ridge and not roof.over_beam else 0.0,
        hip=profile(roof.hip_size).thickness_in / 2,
        valley=profile(roof.valley_size).thickness_in / 2,
        ledger=profile(roof.ledger_size).thickness_in,
        gablet=PLIES * profile(roof.rafters.size).thickness_in,
    )


def _slope(
    building: Building,
    lines: tuple[RoofSideLine, ...],
    laid: RoofSlope,
    halves: FoldHalves,
    written: Callable[[str], Place],
) -> Slope:
    line = lines[laid.edge]
    side = line.side
    (x, y), (ax, ay), (nx, ny) = side.start, side.direction, side.normal
    per_level = hypot(1, laid.slope)

    def on_slope(corner: Vec) -> tuple[float, float]:
        dx, dy = corner[0] - x, corner[1] - y
        return (dx * ax + dy * ay, -(dx * nx + dy * ny) * per_level)

    corners = [on_slope(s.start) for s in laid.sides]
    farthest = max(v for _, v in corners) / per_level
    roles = [_role(s, lines) for s in laid.sides]
    high = next((other for other in lines if other.role == "high"), None) if "high" in roles else None
    heel = None
    if high:
        depth = profile(building.walls.for_side(high.side.name).studs).depth_in
        heel = farthest - high.out - depth
    common = common_rafter(building, line, farthest, 0.0 if high else halves.ridge, heel)
    common = run_over(common, over_beam(building, lines))
    outline = Outline(cut_off_below(ring(corners, roles), -line.out * per_level, "eave"))
    walls = _walls_along(side, [lines[k].side for k in laid.edges])
    made = _made(building, line, outline, common, halves, walls, written, from_right=laid.edge >= len(lines) // 2)
    doubled = tuple(_doubled(outline, profile(building.roof.rafters.size).thickness_in))
    return replace(made, high_overhang=high.out if high else 0.0, doubled=doubled)


def _doubled(outline: Outline, thickness: float) -> Iterator[float]:
    """Centres of the rafters side by side at the faces of small gables, which end the slope."""
    for edge in outline.edges_with("gablet"):
        rise = edge.b[1] - edge.a[1]
        if abs(rise) > TOLERANCE.length:
            inward = -1.0 if rise > 0 else 1.0
            yield from (edge.a[0] + inward * thickness * (ply + 0.5) for ply in range(PLIES))


def _made(
    building: Building,
    line: RoofSideLine,
    outline: Outline,
    common: RafterGeometry,
    halves: FoldHalves,
    walls: tuple[float, float],
    written: Callable[[str], Place],
    *,
    from_right: bool,
) -> Slope:
    """The slope of a side, placed over its wall."""
    side = line.side
    (x, y), (ax, ay), (nx, ny) = side.start, side.direction, side.normal
    up = unit(add((-nx, -ny, 0.0), scale(UP, common.slope)))
    placement = Placement((x, y, line.plate + line.stand), (ax, ay, 0.0), up)
    name = f"{side.name} slope"
    return Slope(
        name=name,
        side=side.name,
        bench=Bench(building=building.name, face=name, placement=placement, written=written("roof.rafters")),
        outline=outline,
        common=common,
        halves=halves,
        walls=walls,
        from_right=from_right,
    )


def _walls_along(side: Side, carriers: list[Side]) -> tuple[float, float]:
    """Ends of the walls that carry a slope, [in] along the first of them; a wing between two is passed over."""
    (x, y), (ax, ay) = side.start, side.direction
    ends = [(px - x) * ax + (py - y) * ay for other in carriers for px, py in (other.start, other.end)]
    return min(ends), max(ends)


def _role(side: RoofSide, lines: tuple[RoofSideLine, ...]) -> str:
    """What an edge of a slope's outline is for its rafters."""
    if side.kind == "gable" and lines[side.across].gablet is not None:
        return "gablet"
    if side.kind == "gable" and lines[side.across].role == "high":
        return "high"
    if side.kind == "gable" and lines[side.across].role == "abutment":
        level = abs(side.start[2] - side.end[2]) < TOLERANCE.length * 100
        return "ledger" if level else "beside wall"
    if side.kind == "gable" and abs(side.start[2] - side.end[2]) < TOLERANCE.length * 100:
        wall = lines[side.across].side
        (x0, y0), (x1, y1) = ((format_length(x), format_length(y)) for x, y in (wall.start, wall.end))
        raise ValueError(
            f"a slope rises {format_length(side.start[2])} to the {wall.name} gable, from x {x0}, y {y0} to x {x1},"
            f" y {y1}, and meets no other there; make that side an eave, an abutment, or the roof a shed (shape: shed)"
        )
    return ROLE_OF[side.kind]


def _folds(laid: tuple[RoofSlope, ...], base: float) -> Iterator[Fold]:
    """Each fold once, ridges in one line run together."""
    place = {one.edge: index for index, one in enumerate(laid)}
    folds: list[Fold] = []
    for index, one in enumerate(laid):
        for side in one.sides:
            other = place.get(side.across, -1)
            if side.kind not in ("ridge", "hip", "valley") or other < index:
                continue
            a, b = (add(p, (0.0, 0.0, base)) for p in (side.start, side.end))
            # A level fold runs the way of its first slope's eave, left to right.
            low, high = (a, b) if a[2] < b[2] - TOLERANCE.length else (b, a)
            kind: FoldKind = "ridge" if side.kind == "ridge" else "hip" if side.kind == "hip" else "valley"
            folds.append(Fold(kind=kind, slopes=(index, other), low=low, high=high))
    return iter(folds)
