"""Rules of slopes told by outline: each simple, with an eave along a side; together they cover the roof once."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from math import dist

from takeoff.measure import format_length
from takeoff.plan.crossings import crossing
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import Footprint, Point, footprint, signed_area
from takeoff.plan.outlines import SlopeOutline
from takeoff.plan.schema import Building
from takeoff.plan.slope_edges import (
    TOUCH_IN,
    SlopeEdges,
    TracedSlopes,
    eave_numbers,
    traced_slopes,
)
from takeoff.plan.slope_faults import loose_message, overlap_message
from takeoff.plan.tree import Loc

LEAST_EDGE_IN = 1.0
"""Points nearer to each other are a slip of the pen [in]."""


def slopes_of_edges(building: Building) -> Iterator[Flaw]:
    """Slopes are told of a roof of shape edges, each by its own name."""
    slopes, shape = building.outlines.slopes, building.roof.shape
    if slopes and shape != "edges":
        message = f"found slopes told by outline under a {shape} roof, expected shape: edges, which they tell all about"
        yield Flaw(
            rule="plan.slope", loc=("outlines", "slopes"), message=message, found=shape, limit="edges", at_key=True
        )
    for index, slope in enumerate(slopes):
        if any(slope.name == other.name for other in slopes[:index]):
            message = f"found {slope.name!r} twice, expected each slope's own name"
            yield Flaw(rule="plan.slope", loc=(*_loc(index), "name"), message=message, found=slope.name)


def slopes_simple(building: Building) -> Iterator[Flaw]:
    """No corner of a slope is written twice, none of its edges crosses another, and it encloses something."""
    for index, slope in enumerate(building.outlines.slopes):
        flaws = [*_corners_twice(index, slope), *_crossings(index, slope)]
        yield from flaws
        if not flaws and abs(signed_area(slope.points)) < 144.0:
            message = f"found {slope.name!r} with no area, expected the outline of a slope seen from above"
            yield Flaw(rule="plan.slope", loc=(*_loc(index), "points"), message=message)


def slopes_sound(building: Building) -> Iterator[Flaw]:
    """Slopes don't overlap; each edge is shared by two or lies along a side; eaves lie along sides of their own.

    Asked only of simple outlines, and of each step only where the steps before found nothing.
    """
    if not building.outlines.slopes or any(True for _ in slopes_simple(building)):
        return
    walls = footprint(building)
    for step in (_overlapping, _loose, _without_eave, _beside_roles, _uneven):
        flaws = tuple(step(building, walls, traced_slopes(building.outlines, walls)))
        if flaws:
            yield from flaws
            return


def _loc(index: int) -> Loc:
    return ("outlines", "slopes", index)


def _flaw(index: int, number: int, message: str, found: str = "") -> Flaw:
    """A flaw of an edge, told at the point that it starts in."""
    return Flaw(rule="plan.slope", loc=(*_loc(index), "points", number - 1), message=message, found=found)


def _at(point: Point) -> str:
    return f"({format_length(point[0])}, {format_length(point[1])})"


def _corners_twice(index: int, slope: SlopeOutline) -> Iterator[Flaw]:
    for k, point in enumerate(slope.points):
        twin = next((j for j in range(k) if dist(slope.points[j], point) < LEAST_EDGE_IN), None)
        if twin is None:
            continue
        apart = dist(slope.points[twin], point)
        if twin == 0 and k == len(slope.points) - 1 and apart <= TOUCH_IN:
            message = (
                f"found the first corner of {slope.name!r} again at the end, expected it once; it closes by itself"
            )
        else:
            near = f"{format_length(apart)} from point {twin + 1}" if apart > TOUCH_IN else f"again (point {twin + 1})"
            message = (
                f"found the corner {_at(point)} of {slope.name!r} {near}, expected each corner once; leave one out"
            )
        yield _flaw(index, k + 1, message)


def _crossings(index: int, slope: SlopeOutline) -> Iterator[Flaw]:
    ring = slope.points
    edges = [(k, (a, b)) for k, (a, b) in enumerate(zip(ring, (*ring[1:], ring[0]), strict=True), 1) if a != b]
    for (i, first), (j, second) in combinations(edges, 2):
        at = crossing(first, second)
        if at is not None:
            message = (
                f"found edges {i} and {j} of {slope.name!r} crossing at {_at(at)}, expected edges that meet at their"
                " corners only; write the points in order round the slope"
            )
            yield _flaw(index, j, message)


def _overlapping(building: Building, walls: Footprint, traced: TracedSlopes) -> Iterator[Flaw]:
    for (_, one), (j, other) in combinations(enumerate(building.outlines.slopes), 2):
        found = overlap_message(one, other)
        if found:
            yield _flaw(j, *found)


def _loose(building: Building, walls: Footprint, traced: TracedSlopes) -> Iterator[Flaw]:
    told: set[tuple[int, int]] = set()
    for slope in traced.slopes:
        for edge in slope.edges:
            if edge.is_loose and (slope.index, edge.number) not in told:
                told.add((slope.index, edge.number))
                message, found = loose_message(building.outlines, traced, slope, edge, walls)
                yield _flaw(slope.index, edge.number, message, found)


def _without_eave(building: Building, walls: Footprint, traced: TracedSlopes) -> Iterator[Flaw]:
    starts: dict[int, SlopeEdges] = {}
    for slope, edges in zip(building.outlines.slopes, traced.slopes, strict=True):
        loc = (*_loc(edges.index), "eave")
        if edges.side is None:
            yield Flaw(rule="plan.slope", loc=loc, message=_no_eave(slope, edges, traced, walls), found=str(slope.eave))
            continue
        for k in {edge.side for edge in edges.edges if edge.is_eave and edge.side is not None}:
            first = starts.setdefault(k, edges)
            if first is not edges:
                message = (
                    f"found the eave of {slope.name!r} on {walls.sides[k].name}, where that of"
                    f" {building.outlines.slopes[first.index].name!r} is, expected one slope a side; write them as one"
                )
                yield Flaw(rule="plan.slope", loc=loc, message=message)


def _no_eave(slope: SlopeOutline, edges: SlopeEdges, traced: TracedSlopes, walls: Footprint) -> str:
    beside = sorted({walls.sides[edge.side].name for edge in edges.edges if edge.side is not None})
    free = "an edge along a side of the building" + (f": {', '.join(beside)}" if beside else "")
    numbers = eave_numbers(slope, edges.edges, traced.nodes, walls)
    inner = next((edge for edge in edges.edges if edge.number in numbers), None)
    if inner is not None:
        a, b = traced.ends(inner)
        head = f"found edge {inner.number} of {slope.name!r} from {_at(a)} to {_at(b)}"
        return (
            head + ("" if inner.across is None else ", which another slope shares") + f", expected as its eave {free}"
        )
    if isinstance(slope.eave, int):
        return f"found no edge {slope.eave} of {slope.name!r}: it has {len(slope.points)}; expected as its eave {free}"
    if isinstance(slope.eave, str):
        return f"found no edge of {slope.name!r} along {slope.eave}, expected as its eave {free}"
    near = _nearest(slope, slope.eave)
    return f"found no edge of {slope.name!r} between those points; {near}; expected as its eave {free}"


def _nearest(slope: SlopeOutline, ends: tuple[Point, Point]) -> str:
    """The edge whose ends lie nearest to two points, and how far they are off."""
    ring = slope.points
    off = {
        number: min(max(dist(a, p), dist(b, q)) for p, q in (ends, ends[::-1]))
        for number, (a, b) in enumerate(zip(ring, (*ring[1:], ring[0]), strict=True), 1)
    }
    best = min(off, key=lambda number: off[number])
    return f"the nearest is edge {best}, {format_length(off[best])} off"


def _beside_roles(building: Building, walls: Footprint, traced: TracedSlopes) -> Iterator[Flaw]:
    """What is told of the sides goes with the slopes."""
    for k, side in enumerate(walls.sides):
        edges = [(slope, edge) for slope in traced.slopes for edge in slope.edges if edge.side == k]
        starts = [slope for slope, edge in edges if edge.is_eave]
        rakes = [(slope, edge) for slope, edge in edges if not edge.is_eave]
        role = building.roof.edges.get(side.name)
        if starts and rakes:
            slope, edge = rakes[0]
            name = building.outlines.slopes[slope.index].name
            message = (
                f"found edge {edge.number} of {name!r} along {side.name}, where"
                f" {building.outlines.slopes[starts[0].index].name!r} has its eave, expected an eave or a rake all"
                " along a side; let another slope end there, or run that eave on"
            )
            yield _flaw(slope.index, edge.number, message)
        if role == "eave" and not starts:
            message = f"found eave on {side.name}, where no slope has its eave, expected gable or abutment, or a slope"
            yield Flaw(rule="plan.slope", loc=("roof", "edges", side.name), message=message, found="eave")
        if role in ("gable", "abutment") and starts:
            name = building.outlines.slopes[starts[0].index].name
            message = f"found {role} on {side.name}, where {name!r} has its eave, expected eave, or left out"
            yield Flaw(rule="plan.slope", loc=("roof", "edges", side.name), message=message, found=str(role))
        if starts:
            yield from _told_twice(building, side.name, building.outlines.slopes[starts[0].index])


def _told_twice(building: Building, side: str, slope: SlopeOutline) -> Iterator[Flaw]:
    """A side's own pitch and height are those of its slope."""
    pitch, height = building.roof.pitches.get(side), building.walls.for_side(side).height_in
    if slope.pitch is not None and pitch is not None and pitch != slope.pitch:
        message = f"found {pitch} for {side}, where {slope.name!r} has {slope.pitch}, expected it told once"
        yield Flaw(rule="plan.slope", loc=("roof", "pitches", side), message=message, found=str(pitch))
    if slope.plate is not None and abs(slope.plate - height) > TOUCH_IN:
        found = format_length(height)
        message = f"found {found} for {side}, where {slope.name!r} has its plate at {format_length(slope.plate)}"
        message += ", expected it told once"
        yield Flaw(rule="plan.slope", loc=("walls", "by_side", side, "height"), message=message, found=found)


def _uneven(building: Building, walls: Footprint, traced: TracedSlopes) -> Iterator[Flaw]:
    """An eave reaches out equally far all along its side, rakes do everywhere, and nothing does over an abutment."""
    first: dict[str, float] = {}
    for slope in traced.slopes:
        for edge in slope.edges:
            if edge.side is None:
                continue
            name, side = building.outlines.slopes[slope.index].name, walls.sides[edge.side].name
            if building.roof.edges.get(side) == "abutment":
                out, words = 0.0, f"on the standing wall at {side}"
            else:
                out = first.setdefault(side if edge.is_eave else "rake", edge.out)
                words = f"{format_length(out)} out, as {'the rest of that eave' if edge.is_eave else 'the other rakes'}"
            if abs(edge.out - out) > TOUCH_IN:
                found = format_length(edge.out)
                message = f"found edge {edge.number} of {name!r} {found} outside of {side}, expected it {words}"
                yield _flaw(slope.index, edge.number, message, found)
