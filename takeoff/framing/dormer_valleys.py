r"""A gable dormer on valley rafters: they hang between the doubled trimmers and the header at the dormer's ridge.

Seen from above, the front at the bottom::

      ||======header======||       main jacks stand between header and valleys, the dormer's between valleys and ridge
      ||      ,'|`.       ||
      ||    ,'  |  `.     ||       valleys: from the inside of the trimmers to the header, cut to the ridge's faces
      ||  ,'    |    `.   ||
      ||,'    ridge    `. ||
     /||                 ||\       outside of that the dormer's eaves are laid on the main sheathing, on short plates
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import dist
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.framing.fold_members import sloped_member
from takeoff.framing.folds import FoldStick
from takeoff.framing.laid_ends import LAID
from takeoff.framing.laid_over import shortened, surface_of
from takeoff.framing.mouth import STEP
from takeoff.framing.roof_members import refused
from takeoff.framing.roof_plan import Fold
from takeoff.framing.slope_openings import DORMER_VALLEY
from takeoff.geometry.node import PlumbCut
from takeoff.geometry.outline import Edge, Outline, Point, cut_off

if TYPE_CHECKING:
    from takeoff.findings import Place
    from takeoff.framing.dormer import Spot
    from takeoff.framing.roof_plan import RoofPlan
    from takeoff.framing.slope import Slope
    from takeoff.model.member import Member


LEAST_FOOT_IN = 1.5
"""Least that the foot of a jack on a short plate stands on the trimmers [in]. Common practice, no source."""


def on_valleys(plan: RoofPlan, spot: Spot, rafter: str) -> RoofPlan:
    """A dormer's roof as laid out, cut off where it meets the tops of the main rafters, its eaves on the sheathing.

    Args:
        plan: its roof, laid out.
        spot: where it stands.
        rafter: size of its rafters.

    Raises:
        ValueError: nothing of a slope stands over the main roof.
    """
    plane = spot.plane(0.0)
    slopes = tuple(_on_valley(slope, plan.line(slope.side).plate, spot, rafter) for slope in plan.slopes)
    # Its ridge is cut plumb, at the header.
    folds = tuple(replace(shortened(fold, plane), laid_on=None) for fold in plan.folds)
    return replace(plan, slopes=slopes, folds=folds)


def _on_valley(slope: Slope, plate: float, spot: Spot, rafter: str) -> Slope:
    _, clear, least = surface_of(slope, plate, spot.plane(0.0))
    laid, on_plate, over = surface_of(slope, plate, spot.plane(spot.layer))
    edges = list(cut_off(slope.outline.edges, clear, least, DORMER_VALLEY))
    index = next((k for k, edge in enumerate(edges) if edge.role == DORMER_VALLEY), None)
    if index is None:
        raise ValueError(f"the {slope.name} lies under the roof that it is to be carried by")
    valley = edges[index]
    at_left = valley.b[1] < valley.a[1]
    # The inside of the trimmers stands in line with the inside of the cheek's studs.
    inside = spot.studs.depth_in / slope.level
    start = (_on_line(clear, least, inside), inside)
    low = valley.b if at_left else valley.a
    foot = (_on_line(on_plate, over, low[1]), low[1])
    step = (start[0], (over - on_plate[0] * start[0]) / on_plate[1])
    run: tuple[Edge, ...] = (
        Edge(LAID, foot, step),
        Edge(STEP, step, start),
        Edge(DORMER_VALLEY, start, valley.a if at_left else valley.b),
    )
    if at_left:
        run = tuple(Edge(edge.role, edge.b, edge.a) for edge in reversed(run))
    eave = index + 1 if at_left else index - 1
    beside = edges[eave % len(edges)]
    edges[eave % len(edges)] = Edge(beside.role, foot, beside.b) if at_left else Edge(beside.role, beside.a, foot)
    edges[index : index + 1] = run
    # A jack's foot bears on the short plate over the trimmers; past that it stands on the valley, all of its thickness.
    back, half = 1.0 if at_left else -1.0, profile(rafter).thickness_in / 2
    last = _on_line(on_plate, over, (spot.studs.depth_in - LEAST_FOOT_IN) / slope.level)
    within = (start[0], float("inf")) if at_left else (float("-inf"), start[0])
    return replace(
        slope,
        outline=Outline(tuple(edges), slope.outline.holes),
        surface=replace(laid, within=within),
        moved_on=((last + back * half, start[0] - back * half),),
    )


def _on_line(clear: Point, least: float, v: float) -> float:
    """U of a place on the line ``clear . (u, v) = least`` [in]."""
    return (least - clear[1] * v) / clear[0]


def valley_rafters(spot: Spot, ridge: str, grade: str, written: Place) -> Iterator[Member]:
    """The two valley rafters of a dormer.

    Args:
        spot: where it stands.
        ridge: size of its ridge.
        grade: of them.
        written: where the plan has the dormer.

    Raises:
        PlanError: one can't be cut.
    """
    face = spot.slope.bench.placement
    (left, right), depth = spot.dormer.across_in, spot.studs.depth_in
    size, half = profile(spot.valley_rafter), profile(ridge).thickness_in / 2
    across, inward = face.x[:2], (face.y[0] / spot.slope.level, face.y[1] / spot.slope.level)
    high = face.to_world(((left + right) / 2, spot.ridge_h / spot.slope.level, 0.0))
    for u, sign in ((left + depth, 1.0), (right - depth, -1.0)):
        low = face.to_world((u, spot.shoulder_h / spot.slope.level, 0.0))
        toward = (across[0] * sign, across[1] * sign)
        stick = FoldStick(
            fold=Fold(kind="valley", slopes=(0, 1), low=low, high=high),
            heel=low[:2],
            length=dist(low[:2], high[:2]),
            before=0.0,
            over_wall=False,
            drop=0.0,
            half=size.thickness_in / 2,
            lower=(PlumbCut((-toward[0], -toward[1]), 0.0),),
            upper=(PlumbCut(inward, 0.0), PlumbCut(toward, -half)),
        )
        try:
            yield sloped_member(
                stick,
                bench=replace(spot.slope.bench, written=written),
                size=size,
                grade=grade,
                plate=0.0,
                tail_plumb=None,
            )
        except ValueError as error:
            raise refused("frame.dormer", written, f"the valley rafter of the {spot.label}: {error}") from error
