"""Rules of porches: each stands at a wall, inside its ends, clear of its neighbours, on posts that carry its beam."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

from takeoff.catalog.profiles import profile
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import footprint, side_names
from takeoff.plan.porches import Porch
from takeoff.plan.rules_openings import unknown_side
from takeoff.plan.schema import Building
from takeoff.plan.tree import Loc


def porch_sides_known(building: Building) -> Iterator[Flaw]:
    """Every porch is at a side whose wall this building has."""
    names, roof = side_names(building), building.roof
    for index, porch in enumerate(roof.porches):
        if porch.side not in names:
            yield unknown_side((*_loc(index), "side"), porch.side, names)
        elif roof.is_abutment(porch.side):
            limit = "a side with a wall: " + ", ".join(name for name in names if not roof.is_abutment(name))
            message = f"found {porch.side!r}, a standing wall that isn't framed here, expected {limit}"
            yield Flaw(rule="plan.side", loc=(*_loc(index), "side"), message=message, found=porch.side, limit=limit)


def porches_inside_their_walls(building: Building) -> Iterator[Flaw]:
    """The wall reaches from end to end of each porch."""
    ground = footprint(building)
    for index, porch in _porches(building):
        length = ground.side(porch.side).length_in
        left, right = porch.across_in
        for end, over in (("left", -left), ("right", right - length)):
            if over > TOLERANCE.length:
                found = format_length(over)
                message = (
                    f"found the porch {found} past the {end} end of {porch.side!r} ({format_length(length)} long),"
                    " expected it inside; make it narrower, or move it"
                )
                yield Flaw(rule="plan.porch", loc=_loc(index), message=message, found=found)


def porches_clear_of_each_other(building: Building) -> Iterator[Flaw]:
    """Two porches of a side stand side by side."""
    for (i, first), (j, second) in combinations(_porches(building), 2):
        if first.side != second.side:
            continue
        a, b = sorted((first.across_in, second.across_in))
        if a[1] - b[0] > TOLERANCE.length:
            found = format_length(a[1] - b[0])
            message = f"found this porch overlapping porch {i + 1} of {first.side!r} by {found}, expected them apart"
            yield Flaw(rule="plan.porch", loc=_loc(j), message=message, found=found)


def porch_beams_on_posts(building: Building) -> Iterator[Flaw]:
    """A post is as wide as the beam on it."""
    for index, porch in enumerate(building.roof.porches):
        wide, post = porch.beam.width_in, profile(porch.posts.size).depth_in
        if wide > post + TOLERANCE.length:
            found, limit = format_length(wide), format_length(post)
            message = (
                f"found a beam of {porch.beam.words}, {found} wide, on posts of {porch.posts.size}, {limit} wide,"
                " expected posts as wide as the beam at least"
            )
            loc = (*_loc(index), "posts", "size")
            yield Flaw(rule="plan.porch", loc=loc, message=message, found=found, limit=limit)


def porch_posts_placed(building: Building) -> Iterator[Flaw]:
    """Posts that the plan places stand under the front beam of a shed porch, one beside the other."""
    for index, porch in enumerate(building.roof.porches):
        places = porch.posts.places
        if places is None:
            continue
        for message in _misplaced(porch, places):
            yield Flaw(rule="plan.porch", loc=(*_loc(index), "posts", "places"), message=message)


def _misplaced(porch: Porch, places: tuple[float, ...]) -> Iterator[str]:
    if porch.shape == "gable":
        yield "found places, expected spacing: the posts of a gabled porch are at its corners and evenly between"
        return
    thick = profile(porch.posts.size).thickness_in
    if any(b - a < thick - TOLERANCE.length for a, b in pairwise(places)):
        yield f"found posts nearer than {format_length(thick)} on centre, or not in order, expected them left to right"
    elif places[0] < thick / 2 - TOLERANCE.length or places[-1] > porch.width - thick / 2 + TOLERANCE.length:
        room = f"{format_length(thick / 2)} to {format_length(porch.width - thick / 2)}"
        yield f"found a post past an end of the beam, expected centres from {room} from its left end"


def porch_grades(building: Building) -> Iterator[tuple[Loc, str, str]]:
    """Every grade of a porch, with where it is written and the size it is for."""
    for index, porch in enumerate(building.roof.porches):
        loc = _loc(index)
        main = building.roof.rafters
        yield (*loc, "beam", "material"), porch.beam.size.size, porch.beam.grade
        yield (*loc, "posts", "grade"), porch.posts.size, porch.posts.grade
        yield (*loc, "rafters", "grade"), porch.rafters.size or main.size, porch.rafters.grade or main.grade
        if porch.ridge:
            yield (*loc, "ridge", "material"), porch.ridge.size, porch.ridge.material or "no2"


def _porches(building: Building) -> tuple[tuple[int, Porch], ...]:
    """Porches with their numbers, less those at no side."""
    names = side_names(building)
    return tuple((index, porch) for index, porch in enumerate(building.roof.porches) if porch.side in names)


def _loc(index: int) -> tuple[str, str, int]:
    return ("roof", "porches", index)
