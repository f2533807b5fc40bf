"""Rules of the outline: that it encloses something, once, and that each of its sides has a name of its own."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.crossings import crossing
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import Point, side_names, signed_area
from takeoff.plan.schema import Building

LEAST_SIDE_IN = 12.0
"""A shorter side leaves no room for the posts of two corners."""

LONGEST_SIDE_IN = 200 * 12.0
LEAST_AREA_SQIN = 9 * 144.0
"""Nine square feet: less is a slip of the pen, not a building."""


def names_match(building: Building) -> Iterator[Flaw]:
    """As many names of sides as edges, no name twice."""
    names, edges = side_names(building), len(building.outline)
    if len(names) != edges:
        message = f"found {len(names)} names, expected one for each of {edges} sides"
        yield Flaw(rule="plan.side", loc=("sides",), message=message)
    for index, name in enumerate(names):
        if name in names[:index]:
            message = f"found {name!r} twice, expected each side's own name"
            yield Flaw(rule="plan.side", loc=("sides", index), message=message, found=name)


def points_apart(building: Building) -> Iterator[Flaw]:
    """No corner is written twice; the outline closes by itself."""
    points = building.outline
    for index, point in enumerate(points):
        twin = next((other for other in range(index) if _same(points[other], point)), None)
        if twin is None:
            continue
        if twin == 0 and index == len(points) - 1:
            message = "found the first corner again at the end, expected it once; the outline closes by itself"
        elif twin == index - 1:
            message = f"found the corner {_at(point)} twice running, expected a side between two corners"
        else:
            message = f"found the corner {_at(point)} again (corner {twin + 1}), expected each corner once;"
            message += " leave one out, or make two buildings of parts that only touch there"
        yield Flaw(rule="plan.geometry", loc=("outline", index), message=message)


def sides_measured(building: Building) -> Iterator[Flaw]:
    """No side is too short for a wall, or absurdly long."""
    points = building.outline
    for index, (a, b) in enumerate(_edges(points)):
        length = math.dist(a, b)
        if TOLERANCE.length < length < LEAST_SIDE_IN:  # without any length it is a corner written twice
            limit = f"at least {format_length(LEAST_SIDE_IN)}"
        elif length > LONGEST_SIDE_IN:
            limit = f"at most {format_length(LONGEST_SIDE_IN)}"
        else:
            continue
        found = format_length(length)
        message = f"found {_edge_name(building, index)} {found} long, expected {limit}"
        yield Flaw(rule="plan.geometry", loc=("outline", index), message=message, found=found, limit=limit)


def not_crossing(building: Building) -> Iterator[Flaw]:
    """No side meets another but its neighbours at their corners."""
    edges = list(enumerate(_edges(building.outline)))
    for (i, first), (j, second) in combinations(edges, 2):
        if min(math.dist(*first), math.dist(*second)) <= TOLERANCE.length:
            continue
        at = crossing(first, second)
        if at is not None:
            names = f"{_edge_name(building, i)} and {_edge_name(building, j)}"
            message = (
                f"found {names} touching or crossing at {_at(at)}, expected sides that meet at their corners only;"
            )
            message += " write the corners in the order of a walk round the building, or move one off the other side"
            yield Flaw(rule="plan.geometry", loc=("outline", j), message=message)


def area_enough(building: Building) -> Iterator[Flaw]:
    """It encloses enough to be a building. Asked only of an outline that is sound otherwise."""
    if any(True for rule in (points_apart, sides_measured, not_crossing) for _ in rule(building)):
        return
    area = abs(signed_area(building.outline))
    if area < LEAST_AREA_SQIN:
        found, limit = f"{area / 144:.1f} sq ft", f"at least {LEAST_AREA_SQIN / 144:.0f} sq ft"
        message = f"found an area of {found}, expected {limit}"
        yield Flaw(rule="plan.geometry", loc=("outline",), message=message, found=found, limit=limit)


def outline_sound(building: Building) -> bool:
    """Whether the outline and its names can be worked with."""
    rules = (names_match, points_apart, sides_measured, not_crossing, area_enough)
    return not any(True for rule in rules for _ in rule(building))


def _edges(points: tuple[Point, ...]) -> zip[tuple[Point, Point]]:
    return zip(points, (*points[1:], points[0]), strict=True)


def _edge_name(building: Building, index: int) -> str:
    names = side_names(building)
    return repr(names[index]) if len(names) == len(building.outline) else f"side {index + 1}"


def _same(a: Point, b: Point) -> bool:
    return math.dist(a, b) <= TOLERANCE.length


def _at(point: Point) -> str:
    return f"({format_length(point[0])}, {format_length(point[1])})"
