"""The beams under the breaks of a gambrel roof, and what there is to say of them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.findings import Finding, Severity
from takeoff.framing.fold_members import RidgeEnd, RidgeStick
from takeoff.framing.plumb_ends import PlanLine
from takeoff.framing.stick import Bench
from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.findings import Place
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.roof_plan import RoofPlan
    from takeoff.framing.slope import Slope
    from takeoff.plan.gambrel import Upper
    from takeoff.plan.schema import Building


def purlins(plan: RoofPlan, upper: Upper, building: str, written: Place) -> tuple[RidgeStick, ...]:
    """The purlins under the breaks, from outside to outside of the end walls."""
    return tuple(
        _purlin(slope, index, plan, upper, building, written)
        for index, slope in enumerate(plan.slopes)
        if slope.on_purlin
    )


def _purlin(slope: Slope, index: int, plan: RoofPlan, upper: Upper, building: str, written: Place) -> RidgeStick:
    size = profile(upper.purlin.size)
    below = next(k for k, other in enumerate(plan.slopes) if other.side == slope.side and not other.on_purlin)
    left, right = slope.walls
    x, y, top = slope.bench.placement.to_world((left, 0.0, 0.0))
    ax, ay, _ = slope.bench.placement.x
    half = size.thickness_in / 2
    bottom = top - slope.common.height_above_plate - size.depth_in
    # u along it, v up, the third axis out of the building: its outer face is plumb under the break.
    placement = Placement((x - ay * half, y + ax * half, bottom), (ax, ay, 0.0), UP)
    return RidgeStick(
        bench=Bench(building=building, face=f"{slope.side} purlin", placement=placement, written=written),
        profile=size,
        grade=upper.purlin.grade,
        kind="purlin",
        run=(0.0, right - left),
        lines=((PlanLine(0.0, 0.0),), (PlanLine(right - left, 0.0),)),
        bottom=bottom,
        slopes=(below, index),
    )


def purlin_ends(plan: RoofPlan, sticks: tuple[RidgeStick, ...]) -> Iterator[RidgeEnd]:
    """Both ends of every purlin, on the gable walls."""
    for stick in sticks:
        slope = plan.slopes[stick.slopes[1]]
        names = [line.side.name for line in plan.lines]
        here = names.index(slope.side)
        for at_start, beside in ((True, here - 1), (False, (here + 1) % len(names))):
            x, y, _ = stick.bench.placement.to_world((stick.run[0] if at_start else stick.run[1], 0.0, 0.0))
            yield RidgeEnd(
                side=names[beside],
                ridge=stick,
                spot=(x, y),
                out=plan.lines[beside].out,
                at_start=at_start,
                top=slope.bench.placement.origin[2],
                fall=slope.common.slope,
            )


def gambrel_decided(building: Building, frame: RoofFrame, written: Callable[[str], Place]) -> Iterator[Finding]:
    """Where the breaks are and how the purlins catch the lower rafters; a purlin wants a design."""
    if building.roof.upper is None:
        return
    for stick in frame.purlins:
        lower, slope = (frame.plan.slopes[k] for k in stick.slopes)
        top = stick.bottom + stick.profile.depth_in
        yield Finding(
            rule="frame.gambrel",
            severity=Severity.NOTE,
            message=f"the slopes break {format_length(lower.common.run)} in from the wall,"
            f" {format_length(slope.bench.placement.origin[2])} over the deck; the purlin's top is"
            f" {format_length(top)} over it, the upper rafters' seat {format_length(slope.common.seat)}",
            place=written("roof.upper"),
            building=building.name,
            where=f"{slope.side} purlin",
        )
        head = lower.common.plumb_depth
        caught = min(head - slope.common.height_above_plate, stick.profile.depth_in)
        hanging = head - slope.common.height_above_plate - stick.profile.depth_in
        if hanging > TOLERANCE.length:
            yield Finding(
                rule="frame.gambrel",
                severity=Severity.WARNING,
                message=f"the lower rafters hang {format_length(hanging)} below the purlin, which catches"
                f" {format_length(caught)} of their plumb cut; take a deeper purlin",
                place=written("roof.upper.purlin"),
                building=building.name,
                where=f"{slope.side} purlin",
            )
        yield Finding(
            rule="frame.purlin-design",
            severity=Severity.WARNING,
            message=f"the purlin {stick.profile.name} spans {format_length(stick.run[1])} from gable to gable and"
            " carries half of both slopes: it is taken as written, its size, bearing and hangers need a design",
            place=written("roof.upper.purlin"),
            building=building.name,
            where=f"{slope.side} purlin",
        )
