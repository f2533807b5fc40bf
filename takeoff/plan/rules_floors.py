"""Rules of floors: lofts lie inside the walls and under the plates, girders cross joists, openings have room."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from math import dist
from typing import TYPE_CHECKING

from takeoff.catalog.grades import grade, grades_for
from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.floors import WAYS, Floor, FloorOpening, Loft, MainFloor
from takeoff.plan.footprint import Footprint, Side, footprint, side_names
from takeoff.plan.loft_shape import wanted_of
from takeoff.plan.schema import Building
from takeoff.plan.tree import Loc

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

LEAST_AREA_SQIN = 4 * 144.0
"""Four square feet: less is a slip of the pen, not a floor."""

SKEW = 0.02
"""A girder out of square to the joists by more than this doesn't cross them: sine of about a degree."""


def floors_of(building: Building) -> Iterator[tuple[Loc, str, Floor]]:
    """Each floor, with where it is written and what it is called."""
    if building.floors.main:
        yield ("floors", "main"), "main floor", building.floors.main
    for index, loft in enumerate(building.floors.lofts):
        yield ("floors", "lofts", index), loft.name, loft


def floor_sides_known(building: Building) -> Iterator[Flaw]:
    """Sides that floors name are there."""
    names = side_names(building)
    for loc, _, floor in floors_of(building):
        span = floor.joists.span
        if span is not None and span not in (*WAYS, *names):
            yield _no_side((*loc, "joists", "span"), span, (*WAYS, *names))
        if isinstance(floor, Loft) and floor.side is not None and floor.side not in names:
            yield _no_side((*loc, "side"), floor.side, names)


def _no_side(loc: Loc, found: str, known: tuple[str, ...]) -> Flaw:
    limit = ", ".join(known)
    return Flaw(
        rule="plan.side", loc=loc, message=f"found {found!r}, expected one of {limit}", found=found, limit=limit
    )


def loft_names_differ(building: Building) -> Iterator[Flaw]:
    """Faces are told apart by name."""
    taken = ["main floor", *side_names(building)]
    for index, loft in enumerate(building.floors.lofts):
        if loft.name in taken:
            message = f"found {loft.name!r} twice, expected each floor's own name, and none of a side"
            yield Flaw(rule="plan.name", loc=("floors", "lofts", index), message=message, found=loft.name)
        taken.append(loft.name)


def floor_grades_fit(building: Building) -> Iterator[Flaw]:
    """Every size of a floor is made in the grade asked for."""
    for loc, _, floor in floors_of(building):
        asked = [((*loc, "joists"), floor.joists.size, floor.joists.made_of)]
        asked += [((*loc, "girders", k), g.size.size, g.grade) for k, g in enumerate(floor.girders)]
        if isinstance(floor, Loft) and floor.beam:
            asked.append(((*loc, "beam"), floor.beam.size.size, floor.beam.grade))
        for at, size, name in asked:
            if not grade(name).fits(profile(size)):
                limit = ", ".join(known.name for known in grades_for(profile(size)))
                message = f"found {name} for {size}, expected a grade it is made in: {limit}"
                yield Flaw(rule="plan.grade", loc=at, message=message, found=name, limit=limit)


def loft_under_the_plates(building: Building) -> Iterator[Flaw]:
    """A loft's joists are fixed to the studs, under the plates of the lowest wall, unless they lie on plates."""
    lowest = min((building.walls.for_side(name).height_in, name) for name in side_names(building))
    plates = 2 * profile(building.walls.for_side(lowest[1]).studs).thickness_in
    for index, loft in enumerate(building.floors.lofts):
        if loft.walls == "plates":
            continue
        top = loft.height - sheet_product(loft.deck).thickness_in
        high = lowest[0] - plates
        if top > high + TOLERANCE.length:
            message = (
                f"the tops of the joists of {loft.name!r} are at {format_length(top)},"
                f" {format_length(top - high)} over the studs of the {lowest[1]} wall ({format_length(high)});"
                f" write a height of {format_length(loft.height - top + high)} at most"
            )
            yield Flaw(rule="plan.floor", loc=("floors", "lofts", index, "height"), message=message)


def lofts_inside_the_walls(building: Building) -> Iterator[Flaw]:
    """No corner of a loft lies outside the walls, and a loft along a side ends before the wall opposite."""
    from shapely import Point, Polygon

    ground = footprint(building)
    walls = Polygon(ground.points)
    for index, loft in enumerate(building.floors.lofts):
        loc: Loc = ("floors", "lofts", index)
        for k, (x, y) in enumerate(loft.outline or ()):
            away = walls.distance(Point(x, y))
            if away > TOLERANCE.mark:
                near = min(ground.sides, key=lambda side: _away(side, (x, y))).name
                message = (
                    f"the corner {_at((x, y))} of {loft.name!r} lies {format_length(away)} outside the {near} wall"
                )
                yield Flaw(rule="plan.floor", loc=(*loc, "outline", k), message=message)
        if loft.side in side_names(building) and loft.side is not None and loft.depth is not None:
            side = ground.side(loft.side)
            nx, ny = side.normal
            room = max((side.start[0] - x) * nx + (side.start[1] - y) * ny for x, y in ground.points)
            if loft.depth > room + TOLERANCE.length:
                message = (
                    f"{loft.name!r} reaches {format_length(loft.depth)} from the {loft.side} wall,"
                    f" {format_length(loft.depth - room)} past the building's {format_length(room)}"
                )
                yield Flaw(rule="plan.floor", loc=(*loc, "depth"), message=message)


def lofts_leave_a_floor(building: Building) -> Iterator[Flaw]:
    """Something of a loft lies inside the walls."""
    from shapely import Polygon

    ground = footprint(building)
    deepest = max(profile(building.walls.for_side(name).studs).depth_in for name in side_names(building))
    inside = Polygon(ground.points).buffer(-deepest, join_style="mitre")
    for index, loft in enumerate(building.floors.lofts):
        if loft.outline is not None:
            shape = Polygon(loft.outline)
        elif loft.depth is not None and loft.side in side_names(building) and loft.side is not None:
            side = ground.side(loft.side)
            (nx, ny), d = side.normal, loft.depth
            back = [(x - nx * d, y - ny * d) for x, y in (side.end, side.start)]
            shape = Polygon([side.start, side.end, *back])
        else:
            continue
        if shape.is_valid and shape.intersection(inside).area < LEAST_AREA_SQIN:
            message = (
                f"{loft.name!r} leaves {shape.intersection(inside).area / 144:.1f} sq ft inside the walls,"
                f" expected {LEAST_AREA_SQIN / 144:.0f} at least"
            )
            yield Flaw(rule="plan.floor", loc=("floors", "lofts", index), message=message)


def girders_inside(building: Building) -> Iterator[Flaw]:
    """A girder lies under its floor from end to end."""
    from shapely import LineString, Polygon

    ground = footprint(building)
    for loc, name, floor in floors_of(building):
        shape = Polygon(getattr(floor, "outline", None) or ground.points)
        for k, girder in enumerate(floor.girders if shape.is_valid else ()):
            past = LineString([girder.start, girder.end]).difference(shape.buffer(TOLERANCE.mark)).length
            if past > TOLERANCE.mark:
                message = f"girder {k + 1} of {name!r} lies {format_length(past)} of its length outside the floor"
                yield Flaw(rule="plan.floor", loc=(*loc, "girders", k), message=message)


def outlines_sound(building: Building) -> Iterator[Flaw]:
    """A floor's own outline doesn't cross itself."""
    from shapely import Polygon

    for loc, name, floor in floors_of(building):
        outline = getattr(floor, "outline", None)
        if outline is not None and (not Polygon(outline).is_valid or Polygon(outline).area < 1):
            message = f"the outline of {name!r} crosses itself or encloses nothing"
            yield Flaw(rule="plan.floor", loc=(*loc, "outline"), message=message)


def girders_cross(building: Building) -> Iterator[Flaw]:
    """Girders of one floor lie in one direction, and joists cross them where their way is told by a compass word."""
    for loc, name, floor in floors_of(building):
        for k, girder in enumerate(floor.girders):
            length = dist(girder.start, girder.end)
            if length < 12:
                message = f"girder {k + 1} of {name!r} is {format_length(length)} long, expected 1'-0\" at least"
                yield Flaw(rule="plan.floor", loc=(*loc, "girders", k), message=message)
                continue
            way = {"north-south": (0.0, 1.0), "east-west": (1.0, 0.0)}.get(floor.joists.span or "")
            dx, dy = ((b - a) / length for a, b in zip(girder.start, girder.end, strict=True))
            if way and abs(dx * way[0] + dy * way[1]) > SKEW:
                message = f"girder {k + 1} of {name!r} doesn't run square to the joists, which run {floor.joists.span}"
                yield Flaw(rule="plan.floor", loc=(*loc, "girders", k), message=message)
            for p, at in enumerate(girder.posts):
                if at > length + TOLERANCE.length:
                    message = (
                        f"a post at {format_length(at)} stands {format_length(at - length)} past the end of girder"
                        f" {k + 1}, which is {format_length(length)} long"
                    )
                    yield Flaw(rule="plan.floor", loc=(*loc, "girders", k, "posts", p), message=message)


def floor_openings_have_room(building: Building) -> Iterator[Flaw]:
    """An opening lies inside its floor with its headers and trimmers, clear of girders and of other openings."""
    from shapely import Point, Polygon, box, get_coordinates

    ground = footprint(building)
    for loc, name, floor in floors_of(building):
        if isinstance(floor, Loft) and floor.side is not None and floor.side not in side_names(building):
            continue
        own: BaseGeometry = Polygon(wanted_of(ground, floor) if isinstance(floor, Loft) else _outline(floor, ground))
        if isinstance(floor, Loft) and own.is_valid:
            least = min(profile(building.walls.for_side(side.name).studs).depth_in for side in ground.sides)
            own = own.intersection(Polygon(ground.points).buffer(-least, join_style="mitre"))
        for k, opening in enumerate(floor.openings if own.is_valid else ()):
            low, high = framed(opening, profile(floor.joists.size).thickness_in)
            out = box(*low, *high).difference(own)
            if out.area > TOLERANCE.area:
                past = max(own.distance(Point(corner)) for corner in get_coordinates(out))
                message = (
                    f"the {opening.kind} opening reaches {format_length(past)} past the edge of {name!r},"
                    " headers and trimmers reckoned in"
                )
                yield Flaw(rule="plan.floor", loc=(*loc, "openings", k), message=message)
            for g, girder in enumerate(floor.girders):
                half = girder.size.plies * girder.size.profile.thickness_in / 2
                gx = sorted((girder.start[0], girder.end[0]))
                gy = sorted((girder.start[1], girder.end[1]))
                into = min(high[0] - gx[0], gx[1] - low[0]), min(high[1] - gy[0], gy[1] - low[1])
                depth = min(into) + half
                if depth > TOLERANCE.length:
                    message = (
                        f"the {opening.kind} opening reaches {format_length(depth)} into girder {g + 1} of {name!r}"
                    )
                    yield Flaw(rule="plan.floor", loc=(*loc, "openings", k), message=message)
        for (_, a), (k, b) in combinations(enumerate(floor.openings), 2):
            (al, ah), (bl, bh) = (framed(o, profile(floor.joists.size).thickness_in) for o in (a, b))
            shared = min(min(ah[i], bh[i]) - max(al[i], bl[i]) for i in (0, 1))
            if shared > TOLERANCE.length:
                message = (
                    f"the {b.kind} opening overlaps the {a.kind} opening of {name!r} by {format_length(shared)},"
                    " headers and trimmers reckoned in"
                )
                yield Flaw(rule="plan.floor", loc=(*loc, "openings", k), message=message)


def _outline(floor: Floor, ground: Footprint) -> tuple[tuple[float, float], ...]:
    return (floor.outline if isinstance(floor, MainFloor) else None) or ground.points


def framed(opening: FloorOpening, thickness: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """Least and greatest x and y of an opening with its headers and trimmers [in]."""
    (x, y), (dx, dy), t = opening.corner, opening.size, opening.plies * thickness
    return (x - t, y - t), (x + dx + t, y + dy + t)


def _away(side: Side, p: tuple[float, float]) -> tuple[float, float]:
    """How far a point is from a side [in]; of two equally near, the one that it lies further out of comes first."""
    from shapely import LineString, Point

    (x, y), (nx, ny) = side.start, side.normal
    distance = LineString([side.start, side.end]).distance(Point(p))
    return round(distance, 3), -((p[0] - x) * nx + (p[1] - y) * ny)


def _at(point: tuple[float, float]) -> str:
    return f"({format_length(point[0])}, {format_length(point[1])})"
