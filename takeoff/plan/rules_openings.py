"""Rules of openings: each stands in a side, between its corners, clear of its neighbours, under the plates."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from math import ceil

from takeoff.catalog.profiles import profile
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import Side, footprint, side_names
from takeoff.plan.openings import Opening
from takeoff.plan.schema import Building
from takeoff.plan.tree import Loc
from takeoff.plan.wording import did_you_mean

LEAST_TURN = 0.1
"""Sine of the least turn that is a corner to walls: about 6 degrees. Our own limit, no source."""


def sides_known(building: Building) -> Iterator[Flaw]:
    """Every opening is in a side that there is."""
    names = side_names(building)
    for index, opening in enumerate(building.walls.openings):
        if opening.side not in names:
            yield unknown_side((*_loc(index), "side"), opening.side, names)
        elif building.roof.is_abutment(opening.side) and building.walls.for_side(opening.side).top is None:
            message = (
                f"found {_called(opening)} in {opening.side!r}, an abutment: no wall is framed there, another stands"
                f" already; write by_side: {{{opening.side}: {{top: ...}}}} for a wall of your own"
            )
            yield Flaw(rule="plan.opening", loc=(*_loc(index), "side"), message=message, found=opening.side)


def unknown_side(loc: Loc, name: str, names: tuple[str, ...], *, at_key: bool = False) -> Flaw:
    """The flaw of a name that no side has."""
    limit = f"a side: {', '.join(names)}"
    message = f"found {name!r}, expected {limit}{did_you_mean(name, names)}"
    return Flaw(rule="plan.side", loc=loc, message=message, found=name, limit=limit, at_key=at_key)


def inside_their_walls(building: Building) -> Iterator[Flaw]:
    """Beside each opening there is room for its kings and jacks, and for the corner: wall round it and an end stud."""
    walls = footprint(building)
    for index, opening in _openings(building):
        side = walls.side(opening.side)
        framing = _framing_in(building, opening)
        left = opening.left_in - framing - _corner_in(building, side, walls.left_of(side.name))
        right = side.length_in - opening.right_in - framing - _corner_in(building, side, walls.right_of(side.name))
        for end, room in (("left", left), ("right", right)):
            if room < -TOLERANCE.length:
                message = (
                    f"found {_called(opening)} {format_length(-room)} too near the {end} end of {side.name!r}"
                    f" ({format_length(side.length_in)} long), expected room for its studs and the corner's"
                )
                yield Flaw(rule="plan.opening", loc=_loc(index), message=message, found=format_length(-room))


def clear_of_each_other(building: Building) -> Iterator[Flaw]:
    """Openings of a side don't overlap, with the kings and jacks beside them."""
    for (i, first), (j, second) in combinations(_openings(building), 2):
        if first.side != second.side:
            continue
        a, b = sorted((first, second), key=lambda opening: opening.left_in)
        overlap = a.right_in + _framing_in(building, a) + _framing_in(building, b) - b.left_in
        if overlap > TOLERANCE.length:
            message = (
                f"found {_called(second)} overlapping {_called(first)} (openings[{i}]) by {format_length(overlap)}"
                ", expected room for the kings and jacks of both"
            )
            yield Flaw(rule="plan.opening", loc=_loc(j), message=message, found=format_length(overlap))


def under_the_plates(building: Building) -> Iterator[Flaw]:
    """There is a header, and between the head and the top plate it has room."""
    for index, opening in enumerate(building.walls.openings):
        header = opening.header_size
        if header is None:
            width = format_length(opening.rough_width_in)
            message = f"found no header for a rough opening of {width}, expected one: it is wider than any usual header"
            yield Flaw(rule="plan.opening", loc=_loc(index), message=message, found=width)
            continue
        wall = building.walls.for_side(opening.side)
        if rises_to_the_rake(building, opening.side):
            continue  # framing knows where the rake is
        framing = _framing_in(building, opening)
        over = wall.plates_over((opening.left_in - framing, opening.right_in + framing))
        top = over - header.profile.depth_in
        if opening.head_in > top + TOLERANCE.length:
            found, limit = format_length(opening.head_in), f"at most {format_length(top)}"
            why = f"under the top plates less a {header} header"
            if building.roof.is_gable(opening.side):
                why += f"; higher up in the gable with by_side: {{{opening.side}: {{frame: balloon}}}}"
            message = f"found the head of {_called(opening)} at {found}, expected {limit} ({why})"
            loc = (*_loc(index), "head")
            yield Flaw(rule="plan.opening", loc=loc, message=message, found=found, limit=limit)


def rises_to_the_rake(building: Building, side: str) -> bool:
    """Whether the studs of a side run on to the rake: as the plan has it; under a shed roof always."""
    if side not in side_names(building) or not building.roof.is_gable(side):
        return False
    return building.roof.shape == "shed" or building.walls.for_side(side).frame == "balloon"


def hung_under_plates(building: Building) -> Iterator[Flaw]:
    """A header that is told to hang under the plates is in a wall that has plates."""
    for index, opening in enumerate(building.walls.openings):
        if opening.header_at == "plates" and rises_to_the_rake(building, opening.side):
            message = f"found plates, expected head: the studs of {opening.side!r} run on to the rake past the plates"
            yield Flaw(rule="plan.opening", loc=(*_loc(index), "header_at"), message=message, found="plates")
        elif opening.header_at == "plates" and building.walls.for_side(opening.side).top:
            message = f"found plates, expected head: the plates of {opening.side!r} are stepped or raked"
            yield Flaw(rule="plan.opening", loc=(*_loc(index), "header_at"), message=message, found="plates")


def header_in_the_wall(building: Building) -> Iterator[Flaw]:
    """The plies of a header have room beside each other in the wall."""
    for index, opening in enumerate(building.walls.openings):
        header = opening.header_size
        studs = profile(building.walls.for_side(opening.side).studs)
        if header is None or header.plies * header.profile.thickness_in <= studs.depth_in + TOLERANCE.length:
            continue
        found, limit = format_length(header.plies * header.profile.thickness_in), format_length(studs.depth_in)
        message = f"found header {header}, {found} thick, expected at most {limit}: the wall is of {studs.name}"
        yield Flaw(rule="plan.opening", loc=(*_loc(index), "header"), message=message, found=found, limit=limit)


def clear_of_ridge_posts(building: Building) -> Iterator[Flaw]:
    """An opening in a gable stands clear of the post under the ridge beam, or spans it with its header."""
    roof = building.roof
    if roof.shape != "gable" or roof.ridge is None or roof.ridge.kind != "beam" or roof.pitches:
        return  # where the ridge isn't over the middle, framing knows where the post stands, and refuses what cuts it
    walls = footprint(building)
    eaves = [name for name in side_names(building) if not roof.is_gable(name)]
    if len({building.walls.for_side(name).height_in for name in eaves}) > 1:
        return  # nor is it between walls of unequal height
    for index, opening in _openings(building):
        if not roof.is_gable(opening.side):
            continue
        stud = profile(building.walls.for_side(opening.side).studs).thickness_in
        half = ridge_post_width(roof.ridge.size, stud) / 2 + stud
        middle = walls.side(opening.side).length_in / 2
        framing = _framing_in(building, opening)
        left, right = opening.left_in - framing, opening.right_in + framing
        if right <= middle - half or left >= middle + half:
            continue
        if opening.left_in <= middle - half and opening.right_in >= middle + half:
            continue
        overlap = min(right, middle + half) - max(left, middle - half)
        message = (
            f"found {_called(opening)} running {format_length(overlap)} into the post under the ridge beam"
            f" (middle of {opening.side!r} at {format_length(middle)}), expected it clear of the post or right under it"
        )
        yield Flaw(rule="plan.opening", loc=_loc(index), message=message, found=format_length(overlap))


def ridge_post_width(beam: str, stud_thickness: float) -> float:
    """Width of the post under a ridge beam [in]: studs side by side, together at least as wide as the beam."""
    return ceil(profile(beam).thickness_in / stud_thickness - TOLERANCE.length) * stud_thickness


def above_the_floor(building: Building) -> Iterator[Flaw]:
    """A sill stands on the bottom plate or above; what reaches the floor is at least as high as its size asks for."""
    for index, opening in enumerate(building.walls.openings):
        thickness = profile(building.walls.for_side(opening.side).studs).thickness_in
        least = opening.rough_height_in + (2 * thickness if opening.has_sill else 0)  # bottom plate and rough sill
        if opening.head_in < least - TOLERANCE.length:
            found, limit = format_length(opening.head_in), f"at least {format_length(least)}"
            why = "rough height, bottom plate and sill" if opening.has_sill else "rough height"
            message = f"found the head of {_called(opening)} at {found}, expected {limit} ({why})"
            loc = (*_loc(index), "head")
            yield Flaw(rule="plan.opening", loc=loc, message=message, found=found, limit=limit)


def _openings(building: Building) -> tuple[tuple[int, Opening], ...]:
    """Openings with their numbers, less those in sides that there aren't."""
    names = side_names(building)
    return tuple((i, opening) for i, opening in enumerate(building.walls.openings) if opening.side in names)


def _framing_in(building: Building, opening: Opening) -> float:
    """Width of king and jacks at one side of an opening [in]."""
    return (1 + opening.jack_count) * profile(building.walls.for_side(opening.side).studs).thickness_in


def _corner_in(building: Building, side: Side, neighbour: Side) -> float:
    """What the corner takes of a wall [in]: the depth of the wall round it, along this one, and an end stud.

    A through wall needs as much for its backing as a butt wall for the wall it butts against, so which of them it is
    needs not be known here. At a sharp corner the wall's inside starts later than its outside.
    """
    own, met = (profile(building.walls.for_side(each.name).studs) for each in (side, neighbour))
    (ax, ay), (bx, by) = side.direction, neighbour.direction
    sine, sharp = abs(ax * by - ay * bx), max(0.0, -(ax * bx + ay * by))
    if sine < LEAST_TURN:
        return met.depth_in + met.thickness_in
    return (met.depth_in + own.depth_in * sharp) / sine + met.thickness_in


def _called(opening: Opening) -> str:
    return f"the {opening.call} {opening.usual.words}"


def _loc(index: int) -> tuple[str, str, int]:
    return ("walls", "openings", index)
