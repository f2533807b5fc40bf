"""Rules of dormers: each stands on a slope, behind the wall, high and wide enough; its windows fit its front.

Hips, valleys, ridges and rakes are found once the roof is laid out: framing refuses a dormer that runs past them.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot

from takeoff.catalog.openings import usual_header
from takeoff.catalog.profiles import Profile, profile
from takeoff.catalog.sheets import sheet_product
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.dormers import Dormer, DormerWindow
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import side_names
from takeoff.plan.rules_openings import unknown_side
from takeoff.plan.schema import Building
from takeoff.plan.tree import Loc

LEAST_OPEN_IN = 12.0
"""Least clear width and clear depth inside a dormer [in]. Common practice, no source."""

FRAMING = 2
"""Studs at each side of a window: king and jack."""


def dormers_on_slopes(building: Building) -> Iterator[Flaw]:
    """Every dormer is on the slope of a side that has one."""
    names, roof = side_names(building), building.roof
    for index, dormer in enumerate(roof.dormers):
        loc = (*_loc(index), "side")
        if dormer.side not in names:
            yield unknown_side(loc, dormer.side, names)
        elif roof.pitch_of(dormer.side) is None:
            limit = f"a side with an eave: {', '.join(name for name in names if roof.pitch_of(name) is not None)}"
            message = f"found {dormer.side!r}, where no slope starts, expected {limit}"
            yield Flaw(rule="plan.side", loc=loc, message=message, found=dormer.side, limit=limit)


def dormers_behind_the_wall(building: Building) -> Iterator[Flaw]:
    """The lower header of a dormer's opening stands inside the wall: no dormer carries the wall up through the eave."""
    for index, dormer in _dormers(building):
        least = building.walls.for_side(dormer.side).bearing_in
        if dormer.front < least - TOLERANCE.length:
            found, limit = format_length(dormer.front), f"at least {format_length(least)}"
            message = (
                f"found the front {found} in from the wall, expected {limit}: it stands on a header inside the wall"
            )
            yield Flaw(rule="plan.dormer", loc=(*_loc(index), "front"), message=message, found=found, limit=limit)


def dormers_wide_enough(building: Building) -> Iterator[Flaw]:
    """Between the cheek walls there is room."""
    for index, dormer in _dormers(building):
        least = 2 * _studs(building, dormer).depth_in + LEAST_OPEN_IN
        if dormer.width < least - TOLERANCE.length:
            found, limit = format_length(dormer.width), f"at least {format_length(least)}"
            message = (
                f"found a dormer {found} wide, expected {limit}: its cheek walls and {format_length(LEAST_OPEN_IN)}"
            )
            yield Flaw(rule="plan.dormer", loc=(*_loc(index), "width"), message=message, found=found, limit=limit)


def sheds_flatter_than_their_slope(building: Building) -> Iterator[Flaw]:
    """A shed dormer's roof meets the slope that it stands on."""
    for index, dormer in _dormers(building):
        main = building.roof.pitch_of(dormer.side)
        if dormer.shape != "shed" or dormer.pitch is None or main is None or dormer.pitch.slope < main.slope:
            continue
        found, limit = str(dormer.pitch), f"less than the slope's {main}"
        message = f"found pitch {found} of a shed dormer, expected {limit}: its roof would never meet the main one"
        yield Flaw(rule="plan.dormer", loc=(*_loc(index), "pitch"), message=message, found=found, limit=limit)


def dormers_high_enough(building: Building) -> Iterator[Flaw]:
    """Its plates stand high enough over the slope for an opening behind its front."""
    for index, dormer in _dormers(building):
        main = building.roof.pitch_of(dormer.side)
        assert main is not None  # see _dormers
        flat = dormer.pitch.slope if dormer.shape == "shed" and dormer.pitch else 0.0
        if flat >= main.slope:
            continue  # told by another rule
        layer = sheet_product(building.roof.sheathing.field).thickness_in + profile(dormer.valley).thickness_in
        studs = _studs(building, dormer)
        open_in = studs.depth_in + LEAST_OPEN_IN
        least = max(layer * hypot(1, main.slope) + open_in * (main.slope - flat), 3 * studs.thickness_in)
        if dormer.height < least - TOLERANCE.length:
            found, limit = format_length(dormer.height), f"at least {format_length(least)}"
            message = f"found walls {found} high, expected {limit}: the opening behind its front would have no depth"
            yield Flaw(rule="plan.dormer", loc=(*_loc(index), "height"), message=message, found=found, limit=limit)


def dormer_windows_fit(building: Building) -> Iterator[Flaw]:
    """Its windows stand between its corners, clear of each other, under a header."""
    for index, dormer in _dormers(building):
        studs = _studs(building, dormer)
        corner = studs.depth_in + studs.thickness_in
        spans = [(corner, corner)]
        for number, window in enumerate(dormer.windows):
            left, right = _span(dormer, window, studs)
            loc = (*_loc(index), "windows", number)
            over = max(corner - left, right - (dormer.width - corner))
            if over > TOLERANCE.length:
                found = format_length(over)
                message = (
                    f"found the window {found} too near a corner of the front ({format_length(dormer.width)} wide),"
                    " expected room for its studs and the corner's"
                )
                yield Flaw(rule="plan.dormer", loc=loc, message=message, found=found)
            if window.header is None and usual_header(_rough(window)) is None:
                found = format_length(_rough(window))
                message = (
                    f"found no header for a rough opening of {found}, expected one: it is wider than any usual header"
                )
                yield Flaw(rule="plan.dormer", loc=loc, message=message, found=found)
            spans.append((left, right))
        for (_, before), (after, _) in pairwise(sorted(spans[1:])):
            if before - after > TOLERANCE.length:
                found = format_length(before - after)
                message = f"found two windows of a dormer overlapping by {found}, expected room for the studs of both"
                yield Flaw(rule="plan.dormer", loc=(*_loc(index), "windows"), message=message, found=found)


def _span(dormer: Dormer, window: DormerWindow, studs: Profile) -> tuple[float, float]:
    """A window with its kings and jacks, along the front [in]."""
    middle = dormer.width / 2 if window.center is None else window.center
    half = _rough(window) / 2 + FRAMING * studs.thickness_in
    return middle - half, middle + half


def _rough(window: DormerWindow) -> float:
    return window.opening("front", 0.0).rough_width_in


def _studs(building: Building, dormer: Dormer) -> Profile:
    return profile(building.walls.for_side(dormer.side).studs)


def _dormers(building: Building) -> tuple[tuple[int, Dormer], ...]:
    """Dormers with their numbers, less those that are on no slope."""
    names, roof = side_names(building), building.roof
    return tuple(
        (index, dormer)
        for index, dormer in enumerate(roof.dormers)
        if dormer.side in names and roof.pitch_of(dormer.side) is not None
    )


def _loc(index: int) -> Loc:
    return ("roof", "dormers", index)
