"""Plates that lie flat on another roof's sheathing: valley plates under rafters' feet, soles under a dormer's walls."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from math import dist
from typing import TYPE_CHECKING

from takeoff.catalog.roles import role
from takeoff.framing.laid_ends import LAID
from takeoff.framing.splices import spliced
from takeoff.geometry.placement import Placement
from takeoff.geometry.polygon import cleaned
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import add, scale
from takeoff.model.member import SQUARE_ENDS, EndCut, Member

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.catalog.profiles import Profile
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.slope import Slope
    from takeoff.framing.stick import Bench

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class ValleyPlate:
    """A valley plate, or a piece of one, as it lies on a plane."""

    row: int
    """Place of the slope whose rafters stand on it, among the rows of its roof."""
    run: tuple[Point, Point]
    """The line of its edge beside the valley [in]."""
    shape: Polygon


def laid_runs(roof: RoofFrame, plane: Placement) -> tuple[tuple[Point, Point], ...]:
    """The laid edges of a roof on the plane that it lies on: u and v of their ends, the roof to their right."""
    return tuple(run for row in roof.rows for run in laid_edges(row.slope, plane))


def whole_plates(roof: RoofFrame, plane: Placement, width: float) -> tuple[ValleyPlate, ...]:
    """The valley plates under all of a roof's laid edges."""
    return tuple(
        ValleyPlate(row=index, run=run, shape=shape)
        for index, row in enumerate(roof.rows)
        for run in laid_edges(row.slope, plane)
        for shape in valley_strips((run,), width)
    )


def laid_edges(slope: Slope, plane: Placement) -> Iterator[tuple[Point, Point]]:
    """Those of one slope."""
    face = slope.bench.placement
    for edge in slope.outline.edges_with(LAID):
        a, b = (plane.from_world(face.to_world((*spot, 0.0))) for spot in (edge.a, edge.b))
        # An outline runs counter-clockwise, the roof to the left of its edges, and on the plane as seen from above.
        yield (b[0], b[1]), (a[0], a[1])


def strip(run: tuple[Point, Point], width: float) -> Polygon:
    """A board's outline on its plane: along a run, to its right."""
    from shapely import Polygon

    (ax, ay), (bx, by) = run
    length = dist(*run)
    rx, ry = (by - ay) / length * width, -(bx - ax) / length * width
    return Polygon([(ax, ay), (bx, by), (bx + rx, by + ry), (ax + rx, ay + ry)])


def valley_strips(runs: tuple[tuple[Point, Point], ...], width: float) -> tuple[Polygon, ...]:
    """Outlines of the valley plates: each along its run, two that meet cut on the line between them."""
    from shapely import box

    whole = [strip(_longer(run, width), width) for run in runs]
    shapes = []
    for k, run in enumerate(runs):
        _, low, _, high = whole[k].bounds
        u0, u1 = sorted((run[0][0], run[1][0]))
        # Every laid run lies between the tail cuts outside and the line of the peak, both plumb and up the slope.
        window = box(u0, low - 1, u1, high + 1)
        shapes += list(cleaned(whole[k].intersection(window)))
    return tuple(shapes)


def in_lengths(shape: Polygon, longest: float, rafters: tuple[float, ...]) -> Iterator[Polygon]:
    """A plate that is longer than stock in pieces, parted plumb up the slope over rafters where any is in reach.

    Args:
        shape: its outline on its plane, its ends plumb up the slope.
        longest: board on sale [in].
        rafters: centre lines of the rafters under it, along u [in].
    """
    from shapely import box

    u0, v0, u1, v1 = shape.bounds
    if dist((u0, v0), (u1, v1)) <= longest:
        yield shape
        return
    (ax, ay), (bx, by) = _longest_side(shape)
    length = dist((ax, ay), (bx, by))
    along, across = abs(bx - ax) / length, abs(by - ay) / length
    # An end that runs up the slope makes a slanting board longer on one edge than it is on its centre line.
    reach = longest * along - float(shape.area) / length * across
    for a, b in spliced((u0, u1), reach, rafters):
        yield from cleaned(shape.intersection(box(a, v0, b, v1)))


def _longer(run: tuple[Point, Point], width: float) -> tuple[Point, Point]:
    """A run drawn out at both ends far enough for its inner edge to reach where the outer one ends."""
    (ax, ay), (bx, by) = run
    length = dist(*run)
    dx, dy = (bx - ax) / length, (by - ay) / length
    more = width * abs(dy / dx) if abs(dx) > TOLERANCE.length else 0.0
    return (ax - dx * more, ay - dy * more), (bx + dx * more, by + dy * more)


def flat_boards(
    bench: Bench,
    plane: Placement,
    shapes: tuple[Polygon, ...],
    profile: Profile,
    grade: str,
    role_name: str,
    along: tuple[Point, Point] | None = None,
) -> Iterator[Member]:
    """Boards lying flat under a plane that their tops are in.

    Args:
        bench: what they are made for.
        plane: of their tops, its third axis out.
        shapes: their outlines on it.
        profile: as wide as they are at most.
        grade: of them.
        role_name: what they are.
        along: a line along which they run, on their right; left out, the longest side of each.
    """
    for shape in shapes:
        (ax, ay), (bx, by) = along or _longest_side(shape)
        length = dist((ax, ay), (bx, by))
        x = add(scale(plane.x, (bx - ax) / length), scale(plane.y, (by - ay) / length))
        y = add(scale(plane.x, -(by - ay) / length), scale(plane.y, (bx - ax) / length))
        middle = plane.to_world((ax, ay, -profile.thickness_in / 2))
        at = Placement(middle, x, y)
        side = _seen_along(shape, (ax, ay), ((bx - ax) / length, (by - ay) / length))
        x0 = side.bounds[0]
        from shapely.affinity import translate

        yield Member(
            building=bench.building,
            face=bench.face,
            role=role(role_name),
            profile=profile,
            grade=grade,
            side=translate(side, -x0, 0.0),
            placement=replace(at, origin=at.to_world((x0, 0.0, 0.0))),
            cuts=_end_cuts(translate(side, -x0, 0.0)),
            written=bench.written,
        )


def _longest_side(shape: Polygon) -> tuple[Point, Point]:
    """The longest side of an outline, run so that the outline is to its left."""
    from shapely.geometry.polygon import orient

    points = [(float(x), float(y)) for x, y in orient(shape).exterior.coords]
    return max(pairwise(points), key=lambda side: (round(dist(*side), 6), side))


def _seen_along(shape: Polygon, origin: Point, direction: Point) -> Polygon:
    from shapely.affinity import affine_transform

    (ox, oy), (c, s) = origin, direction
    return affine_transform(shape, [c, s, -s, c, -c * ox - s * oy, s * ox - c * oy])


def _end_cuts(side: Polygon) -> tuple[EndCut, EndCut]:
    """Cuts of a board's ends, read off the sides of its outline that are not along it."""
    from shapely.geometry.polygon import orient

    points = [(float(x), float(y)) for x, y in orient(side).exterior.coords]
    cuts = list(SQUARE_ENDS)
    for (ax, ay), (bx, by) in pairwise(points):
        length = dist((ax, ay), (bx, by))
        normal = ((by - ay) / length, -(bx - ax) / length, 0.0)
        if abs(normal[0]) > TOLERANCE.length * 100:
            cuts[normal[0] > 0] = EndCut(normal, (ax, ay, 0.0))
    return cuts[0], cuts[1]
