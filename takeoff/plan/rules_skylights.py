"""Rules of openings in slopes: each is in a slope, inside the wall that carries it, clear of its neighbours.

Hips, valleys, ridges and rakes are found once the roof is laid out: framing refuses an opening that runs into them.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from math import hypot

from takeoff.catalog.profiles import profile
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import side_names
from takeoff.plan.rules_openings import unknown_side
from takeoff.plan.schema import Building
from takeoff.plan.skylights import Skylight

LEAST_CUT_IN = 3.0
"""Shortest cut rafter between the headers of two openings, one above the other [in]. Common practice, no source."""


def skylights_in_slopes(building: Building) -> Iterator[Flaw]:
    """Every opening in the roof is in the slope of a side that has one."""
    names, roof = side_names(building), building.roof
    for index, skylight in enumerate(roof.skylights):
        if skylight.side not in names:
            yield unknown_side((*_loc(index), "side"), skylight.side, names)
        elif roof.pitch_of(skylight.side) is None:
            limit = f"a side with an eave: {', '.join(name for name in names if roof.pitch_of(name) is not None)}"
            message = f"found {skylight.side!r}, where no slope starts, expected {limit}"
            loc = (*_loc(index), "side")
            yield Flaw(rule="plan.side", loc=loc, message=message, found=skylight.side, limit=limit)


def skylights_inside_the_wall(building: Building) -> Iterator[Flaw]:
    """The lower header stands inside the plate that the cut rafters below it bear on."""
    for index, skylight in _skylights(building):
        plate = profile(building.walls.for_side(skylight.side).studs).depth_in
        short = plate - _band(building, skylight)[0] / hypot(1, _slope(building, skylight))
        if short > TOLERANCE.length:
            found = format_length(short)
            message = (
                f"found the lower header of the {skylight.call} {found} over the {skylight.side} wall's plate (level),"
                " expected it inside the wall; move the opening up the slope"
            )
            yield Flaw(rule="plan.opening", loc=_loc(index), message=message, found=found)


def skylights_clear_of_each_other(building: Building) -> Iterator[Flaw]:
    """Side by side there is room for the trimmers of both; one above the other they share them, edge in line."""
    for (i, first), (j, second) in combinations(_skylights(building), 2):
        if first.side != second.side:
            continue
        if _in_line(first, second) and first.plies == second.plies:
            overlap = _overlap_up(building, first, second)
            wanted = f"a cut rafter of {format_length(LEAST_CUT_IN)} between their headers"
        else:
            overlap = _overlap_across(building, first, second)
            wanted = "room for the trimmers of both, or one above the other with both sides in line"
        if overlap > TOLERANCE.length:
            found = format_length(overlap)
            message = (
                f"found the {second.call} overlapping the {first.call} (opening {i + 1}) by {found}, expected {wanted}"
            )
            yield Flaw(rule="plan.opening", loc=_loc(j), message=message, found=found)


def _in_line(first: Skylight, second: Skylight) -> bool:
    return all(abs(a - b) < TOLERANCE.length for a, b in zip(first.across_in, second.across_in, strict=True))


def _overlap_up(building: Building, first: Skylight, second: Skylight) -> float:
    low, high = sorted((_band(building, first), _band(building, second)))
    return low[1] + LEAST_CUT_IN - high[0]


def _overlap_across(building: Building, first: Skylight, second: Skylight) -> float:
    left, right = sorted((first, second), key=lambda skylight: skylight.across_in)
    trimmers = (first.plies + second.plies) * profile(building.roof.rafters.size).thickness_in
    return left.across_in[1] + trimmers - right.across_in[0]


def _band(building: Building, skylight: Skylight) -> tuple[float, float]:
    """From the lower face of the lower header to the upper face of the upper one, along the slope [in]."""
    slope, size = _slope(building, skylight), _header_size(building, skylight)
    low, high = skylight.reach_in(slope, profile(size).depth_in)
    header = skylight.header_reach_in(slope, size)
    return low - header, high + header


def _header_size(building: Building, skylight: Skylight) -> str:
    """Size of the headers of an opening that is in a slope."""
    return skylight.header_size(building.roof.rafters.size, _slope(building, skylight))


def _slope(building: Building, skylight: Skylight) -> float:
    pitch = building.roof.pitch_of(skylight.side)
    assert pitch is not None  # see _skylights
    return pitch.slope


def _skylights(building: Building) -> tuple[tuple[int, Skylight], ...]:
    """Openings with their numbers, less those that are in no slope."""
    names, roof = side_names(building), building.roof
    return tuple(
        (index, skylight)
        for index, skylight in enumerate(roof.skylights)
        if skylight.side in names and roof.pitch_of(skylight.side) is not None
    )


def _loc(index: int) -> tuple[str, str, int]:
    return ("roof", "skylights", index)
