"""The sticks and the sheathing of a gable on a hip: the header that ends the hip slope, and the studs over it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.framing.gablets import PLIES
from takeoff.framing.studs import stud_ends
from takeoff.geometry.outline import Edge, Outline, ring
from takeoff.geometry.placement import Placement
from takeoff.geometry.rake_line import RakeLine
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP
from takeoff.model.face import Cover, Face, Supports

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.fold_members import RidgeStick
    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.stick import Bench
    from takeoff.model.member import Member
    from takeoff.plan.schema import Building

Point = tuple[float, float]

LEAST_STUD_IN = 3.0
"""A shorter stud over the header is left out: the header is right under the rafters [in]. No source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallGable:
    """A gable on a hip, in a plumb plane: u along the end's eave, v up from the deck."""

    row: RafterRow
    """Of the hip slope that it stands over."""
    bench: Bench
    foot: float
    """Height of the hip slope at its face [in]."""
    tops: tuple[Point, Point, Point]
    """Where the tops of the pair leave the hip slope, meet, and come down to it again: u and v [in]."""
    drops: tuple[float, float]
    """Plumb depth of the pair at the left and at the right [in]."""
    ridge: RidgeStick


def small_gables(frame: RoofFrame) -> Iterator[SmallGable]:
    """All of a roof."""
    for row in frame.rows:
        line = frame.plan.line(row.slope.side)
        if line.gablet is None:
            continue
        slope = row.slope
        (edge,) = (edge for edge in slope.outline.edges_with("gablet") if _is_level(edge))
        (x, y, foot), along = slope.bench.placement.to_world((0.0, edge.a[1], 0.0)), slope.bench.placement.x
        bench = replace(slope.bench, face=f"{slope.side} gablet", placement=Placement((x, y, 0.0), along, UP))
        left, right = sorted((edge.a[0], edge.b[0]))
        beside = [k for k in range(len(frame.rows)) if _top(frame, k, bench)]
        at = {k: _top(frame, k, bench) for k in beside}
        one, other = sorted(beside, key=lambda k: at[k][0][0])
        ridge = next(r for r in frame.ridges if set(r.slopes) == {one, other})
        yield SmallGable(
            row=row,
            bench=bench,
            foot=foot,
            tops=((left, foot), max(at[one], key=lambda p: p[1]), (right, foot)),
            drops=(frame.rows[one].slope.common.plumb_depth, frame.rows[other].slope.common.plumb_depth),
            ridge=ridge,
        )


def _is_level(edge: Edge) -> bool:
    return abs(edge.a[1] - edge.b[1]) < TOLERANCE.length * 10


def _top(frame: RoofFrame, index: int, bench: Bench) -> tuple[Point, ...]:
    """Ends of the edge of a slope that lies in a plumb plane, in the plane's u and v."""
    slope = frame.plan.slopes[index]
    for edge in slope.outline.edges_with("gablet"):
        if not _is_level(edge):
            spots = [bench.placement.from_world(slope.bench.placement.to_world((*p, 0.0))) for p in (edge.a, edge.b)]
            if all(abs(away) < TOLERANCE.length * 10 for _, _, away in spots):
                return tuple(sorted((u, v) for u, v, _ in spots))
    return ()


def gablet_members(building: Building, frame: RoofFrame) -> Iterator[Member]:
    """Headers and studs of all small gables of a roof."""
    for gable in small_gables(frame):
        yield from _header(gable, profile(building.roof.rafters.size), building.roof.rafters.grade)
        studs = profile(building.roof.gablets[gable.row.slope.side].studs)
        zone = _zone(gable, gable.foot - _drop(gable, 0) - profile(building.roof.rafters.size).depth_in)
        for u in _centres(gable, building.walls.spacing):
            for cut in zone.slices(u):
                v, cuts = stud_ends(zone, cut, studs.thickness_in)
                if v[1] - gable.foot > LEAST_STUD_IN:
                    yield gable.bench.along_v("gable-stud", studs, building.walls.grade, u=u, v=v, cuts=cuts)


def _drop(gable: SmallGable, ply: int) -> float:
    """How far a ply's top is under the slope at the small gable's face, its outer edge in the slope [in]."""
    return gable.row.slope.common.slope * (ply + 1) * gable.row.profile.thickness_in


def _header(gable: SmallGable, size: Profile, grade: str) -> Iterator[Member]:
    """The plies on the outer face of the pair, between the hips."""
    slope, (left, _, right) = gable.row.slope, gable.tops
    hips = sorted(slope.outline.edges_with("hip"), key=lambda edge: edge.a[0] + edge.b[0])
    skews = [abs((e.b[0] - e.a[0]) / ((e.b[1] - e.a[1]) * slope.level)) for e in (hips[0], hips[-1])]
    inner = [slope.halves.hip * hypot(1, skew) for skew in skews]
    span = (left[0] + inner[0], right[0] - inner[1])
    for ply in range(PLIES):
        top = gable.foot - _drop(gable, ply)
        outward = (ply + 1) * size.thickness_in
        yield gable.bench.edge_along_u("roof-header", size, grade, u=span, v=top - size.depth_in, outward=outward)


def _zone(gable: SmallGable, bottom: float) -> Outline:
    """What studs are sliced from: from the header's lower edge to the undersides of the pair and the ridge."""
    (u0, v0), (um, vm), (u1, v1) = gable.tops
    left, right = gable.drops
    rises = ((vm - v0) / (um - u0), (vm - v1) / (um - u1))
    starts = (um - (vm - left - bottom) / rises[0], um - (vm - right - bottom) / rises[1])
    rake = RakeLine(points=((starts[0], bottom), (um, vm - left), (um, vm - right), (starts[1], bottom)))
    half, low = gable.ridge.profile.thickness_in / 2, gable.ridge.bottom
    points = [(starts[0], bottom), (starts[1], bottom)]
    if bottom < low < min(rake.at(um - half), rake.past(um + half)):
        points += [
            (um + half, rake.past(um + half)),
            (um + half, low),
            (um - half, low),
            (um - half, rake.at(um - half)),
        ]
        return Outline(ring(points, ("bottom", "rake", "ridge", "ridge", "ridge", "rake")))
    return Outline(ring([*points, (um, min(vm - left, vm - right))], ("bottom", "rake", "rake")))


def _centres(gable: SmallGable, spacing: float) -> tuple[float, ...]:
    """One stud under a ridge board, the others on the spacing to both sides; a beam has its post there."""
    (left, _), (middle, _), (right, _) = gable.tops
    count = int((right - left) / spacing) + 1
    return tuple(
        u
        for k in range(-count, count + 1)
        if (k or not gable.ridge.beam) and left < (u := middle + k * spacing) < right
    )


def gablet_faces(building: Building, frame: RoofFrame) -> Iterator[Face]:
    """What covers them: from the hip slope up to the tops of the pair."""
    for gable in small_gables(frame):
        product = building.walls.for_side(gable.row.slope.side).sheathing
        yield Face(
            kind="wall",
            name=f"{gable.row.slope.side} gablet",
            outline=Outline(ring([gable.tops[0], gable.tops[2], gable.tops[1]], ("bottom", "rake", "rake"))),
            placement=gable.bench.placement,
            supports=Supports(
                centres=_centres(gable, building.walls.spacing),
                thickness=profile(building.roof.gablets[gable.row.slope.side].studs).thickness_in,
                rows=(),
                from_right=False,
            ),
            cover=Cover(field=product, exposed=product) if product else None,
            shown=None,
            written=gable.bench.written,
        )
