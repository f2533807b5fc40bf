"""Rules of pony walls: under a side that there is and a main floor, along that side, on steps, with room for studs."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import footprint, side_names
from takeoff.plan.rules_openings import unknown_side
from takeoff.plan.schema import Building
from takeoff.plan.tree import Loc

LEAST_STUD_IN = 3.0
"""Shortest stud of a pony wall [in]; what is lower is packed out with sills. Common practice, no source."""

PLATES = 3
"""Bottom plate, top plate and cap plate."""


def pony_walls_under_a_floor(building: Building) -> Iterator[Flaw]:
    """Every pony wall is under a side, and carries the platform."""
    names, main = side_names(building), building.floors.main
    for name in building.walls.pony:
        loc: Loc = ("walls", "pony", name)
        if name not in names:
            yield unknown_side(loc, name, names, at_key=True)
        elif main is None:
            message = f"found a pony wall under the {name} wall and no floor for it to carry, expected floors: main"
            yield Flaw(rule="plan.pony", loc=loc, message=message, found="no main floor")


def pony_walls_stepped(building: Building) -> Iterator[Flaw]:
    """The foundation under a pony wall steps from level to level along its side, low enough for plates and studs."""
    ground, main = footprint(building), building.floors.main
    for name, pony in building.walls.pony.items():
        if name not in side_names(building) or main is None:
            continue
        loc: Loc = ("walls", "pony", name, "bottom")
        length = ground.side(name).length_in
        under = -sheet_product(main.deck).thickness_in - profile(main.joists.size).depth_in
        highest = under - PLATES * profile(pony_size(building)).thickness_in - LEAST_STUD_IN
        for k, ((u0, v0), (u1, v1)) in enumerate(pairwise(pony.bottom)):
            fault = ""
            if u1 < u0:
                fault = f"corner {k + 2} at {format_length(u1)}, before the one at {format_length(u0)}"
            elif u1 - u0 > TOLERANCE.length and abs(v1 - v0) > TOLERANCE.length:
                fault = f"the foundation {format_length(abs(v1 - v0))} off level from corner {k + 1} to {k + 2}"
            if fault:
                message = f"found {fault} under the {name} wall, expected level parts from left to right and steps"
                yield Flaw(rule="plan.pony", loc=(*loc, k + 1), message=message)
        for k, (u, v) in enumerate(pony.bottom):
            past = max(-u, u - length)
            if past > TOLERANCE.mark:
                message = (
                    f"found corner {k + 1} {format_length(past)} past the end of the {name} wall, expected it before"
                )
                yield Flaw(rule="plan.pony", loc=(*loc, k), message=message, found=format_length(past))
            if v > highest + TOLERANCE.length and v not in [height for _, height in pony.bottom[:k]]:
                found, limit = format_length(v), f"at most {format_length(highest)}"
                message = (
                    f"found the foundation under the {name} wall at {found}, expected {limit} (the joists' underside at"
                    f" {format_length(under)} less three plates and a stud of {format_length(LEAST_STUD_IN)}); end the"
                    " pony wall before that part: a mud sill lies there"
                )
                yield Flaw(rule="plan.pony", loc=(*loc, k), message=message, found=found, limit=limit)


def pony_size(building: Building) -> str:
    """Size of plates and studs of pony walls: the mud sill's, beside which they stand, or the walls' without one."""
    main = building.floors.main
    return main.sill if main and main.sill != "none" else building.walls.studs
