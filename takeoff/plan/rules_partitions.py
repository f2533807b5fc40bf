"""Rules of partitions: each inside the outline, clear of openings and of other walls, its own openings in it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import TYPE_CHECKING

from takeoff.catalog.grades import grade, grades_for
from takeoff.catalog.profiles import profile
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import footprint, side_names
from takeoff.plan.partitions import Partition
from takeoff.plan.runs import LEAST_SKEW, REACH_IN, RunPiece, run_pieces, strip_of, tees
from takeoff.plan.schema import Building
from takeoff.plan.tree import Loc

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.plan.openings import WallOpening

LEAST_RUN_IN = 12.0
"""A shorter partition, or piece of one between two walls, is a slip of the pen [in]."""


def names_apart(building: Building) -> Iterator[Flaw]:
    """A partition has a name that no side and no other partition has."""
    taken = list(side_names(building))
    for index, partition in enumerate(building.walls.partitions):
        if partition.name in taken:
            message = f"found a second wall named {partition.name!r}, expected each wall's own name"
            yield Flaw(rule="plan.name", loc=(*_loc(index), "name"), message=message, found=partition.name)
        taken.append(partition.name)


def sizes_made(building: Building) -> Iterator[Flaw]:
    """Its studs are made in the grade asked for."""
    for index, partition in enumerate(building.walls.partitions):
        stick, asked = profile(partition.studs), partition.grade or building.walls.grade
        if not grade(asked).fits(stick):
            limit = ", ".join(known.name for known in grades_for(stick))
            message = f"found {asked} for {partition.studs}, expected a grade it is made in: {limit}"
            yield Flaw(rule="plan.grade", loc=_loc(index), message=message, found=asked, limit=limit)


def inside_the_outline(building: Building) -> Iterator[Flaw]:
    """Both ends lie within the outline, and all between them."""
    from shapely import LineString, Point, Polygon

    ground = Polygon(footprint(building).points)
    for index, partition in enumerate(building.walls.partitions):
        for key, spot in (("from", partition.start), ("to", partition.end)):
            out = ground.distance(Point(spot))
            if out > REACH_IN:
                found = format_length(out)
                message = f"found the end of partition {partition.name!r} {found} outside the walls, expected it inside"
                yield Flaw(rule="plan.partition", loc=(*_loc(index), key), message=message, found=found)
        beyond = LineString([partition.start, partition.end]).difference(ground.buffer(REACH_IN)).length
        ends_inside = all(ground.distance(Point(spot)) <= REACH_IN for spot in (partition.start, partition.end))
        if beyond > REACH_IN and ends_inside:
            found = format_length(beyond)
            message = f"found partition {partition.name!r} running {found} outside the walls, expected it inside"
            yield Flaw(rule="plan.partition", loc=_loc(index), message=message, found=found)


def long_enough(building: Building) -> Iterator[Flaw]:
    """A partition, and each piece of one between walls that it crosses, has room for its end studs."""
    if _unsound(building):
        return
    for piece in run_pieces(building):
        length = piece.inner[1] - piece.inner[0]
        if length < LEAST_RUN_IN - TOLERANCE.length:
            found, limit = format_length(max(length, 0.0)), f"at least {format_length(LEAST_RUN_IN)}"
            message = f"found partition {piece.name!r} {found} long between the walls it meets, expected {limit}"
            yield Flaw(rule="plan.partition", loc=_loc(piece.partition), message=message, found=found, limit=limit)


def apart_from_each_other(building: Building) -> Iterator[Flaw]:
    """Partitions that run alike don't lie in each other, or in a wall of the outline; no two meet too sharply."""
    from shapely import LineString, Polygon, get_coordinates

    inner = list(enumerate(building.walls.partitions))
    if any(True for _ in _without_length(building)):
        return
    strips = [(partition.name, strip_of(partition)) for _, partition in inner]
    sides = [(s.name, s.start, s.end) for s in footprint(building).sides]
    for (i, (name, a)), (j, (other, b)) in combinations(enumerate(strips), 2):
        shapes = [Polygon([s.at(0, 0), s.at(s.length, 0), s.at(s.length, s.depth), s.at(0, s.depth)]) for s in (a, b)]
        common = shapes[0].intersection(shapes[1])
        if abs(a.skew(b)) < LEAST_SKEW and common.area > 1.0:
            across = [a.measured((x, y))[1] for x, y in get_coordinates(common)]
            found = format_length(max(across) - min(across))
            message = (
                f"found partition {other!r} standing {found} in {name!r} (partitions[{i}]) beside it"
                ", expected walls that run alike apart, and others to meet at 30 degrees or more"
            )
            yield Flaw(rule="plan.partition", loc=_loc(j), message=message, found=found)
    for k, (name, strip) in enumerate(strips):
        middle = LineString([strip.at(0, strip.depth / 2), strip.at(strip.length, strip.depth / 2)])
        for side, start, end in sides:
            reach = profile(building.walls.for_side(side).studs).depth_in + strip.depth / 2
            along = LineString([start, end])
            direction = ((end[0] - start[0]) / along.length, (end[1] - start[1]) / along.length)
            turn = strip.direction[0] * direction[1] - strip.direction[1] * direction[0]
            shared = middle.intersection(along.buffer(reach - REACH_IN, cap_style="flat")).length
            if abs(turn) < LEAST_SKEW and shared > REACH_IN:
                found = format_length(shared)
                message = (
                    f"found partition {name!r} standing in the {side} wall for {found}"
                    ", expected walls that run alike apart, and others to meet at 30 degrees or more"
                )
                yield Flaw(rule="plan.partition", loc=_loc(k), message=message, found=found)


def pieces_apart(building: Building) -> Iterator[Flaw]:
    """No two partitions end in one place of a third wall, in each other."""
    from shapely import get_coordinates

    if _unsound(building) or any(True for _ in long_enough(building)):
        return
    pieces = [(piece, _wood(piece)) for piece in run_pieces(building)]
    for (one, here), (other, there) in combinations(pieces, 2):
        common = here.intersection(there)
        if one.partition == other.partition or common.area < 0.05:
            continue
        across = [one.strip.measured((x, y))[1] for x, y in get_coordinates(common)]
        found = format_length(max(across) - min(across))
        message = (
            f"found partition {other.name!r} standing {found} in {one.name!r} (partitions[{one.partition}])"
            ", expected ends apart, or one that ends in the other"
        )
        yield Flaw(rule="plan.partition", loc=_loc(other.partition), message=message, found=found)


def _wood(piece: RunPiece) -> Polygon:
    """A piece seen from above."""
    from shapely import Polygon

    (a, b), (c, d), deep = piece.ends[0].at, piece.ends[1].at, piece.strip.depth
    return Polygon([piece.strip.at(u, y) for u, y in ((a, 0.0), (c, 0.0), (d, deep), (b, deep))])


def ends_clear_of_openings(building: Building) -> Iterator[Flaw]:
    """No partition ends in an opening of the wall it meets, or in the studs beside it."""
    if _unsound(building):
        return
    names = [p.name for p in building.walls.partitions]
    for tee in tees(building):
        studs = profile(_studs_of(building, tee.host)).thickness_in
        for opening in _openings_of(building, tee.host):
            side = (1 + opening.jack_count) * studs
            left, right = opening.left_in - side, opening.right_in + side
            parts = [(left, opening.left_in), (opening.right_in, right)]
            if opening.sill_in - studs < _height(building, tee.partition):
                parts = [(left, right)]  # else it passes under the sill, between the jacks
            overlap = max(min(tee.u[1], high) - max(tee.u[0], low) for low, high in parts)
            if overlap > TOLERANCE.length:
                found, where = format_length(overlap), tee.host if tee.host in names else f"{tee.host} wall"
                message = (
                    f"found partition {names[tee.partition]!r} ending {found} in the {opening.call}"
                    f" {opening.usual.words} of the {where} or its kings and jacks, expected it to meet plain wall"
                )
                yield Flaw(rule="plan.partition", loc=_loc(tee.partition), message=message, found=found)


def openings_fit(building: Building) -> Iterator[Flaw]:
    """An opening of a partition lies in one piece of it, with its studs, and its header under the plates."""
    if _unsound(building):
        return
    pieces = run_pieces(building)
    for index, partition in enumerate(building.walls.partitions):
        own = [piece for piece in pieces if piece.partition == index]
        for number, opening in enumerate(partition.openings):
            loc = (*_loc(index), "openings", number)
            yield from _in_a_piece(partition, opening, own, loc)
            yield from _under_its_plates(building, partition, opening, loc)
        for (i, first), (j, second) in combinations(enumerate(partition.openings), 2):
            a, b = sorted((first, second), key=lambda opening: opening.left_in)
            t = profile(partition.studs).thickness_in
            overlap = a.right_in + (2 + a.jack_count + b.jack_count) * t - b.left_in
            if overlap > TOLERANCE.length:
                found = format_length(overlap)
                message = (
                    f"found {_called(second)} overlapping {_called(first)} (openings[{i}]) by {found}"
                    ", expected room for the kings and jacks of both"
                )
                yield Flaw(rule="plan.opening", loc=(*_loc(index), "openings", j), message=message, found=found)


def _in_a_piece(partition: Partition, opening: WallOpening, pieces: list[RunPiece], loc: Loc) -> Iterator[Flaw]:
    t = profile(partition.studs).thickness_in
    side = (2 + opening.jack_count) * t  # kings and jacks, and the end stud or the backing of a wall met there
    left, right = opening.left_in - side, opening.right_in + side
    lacking = [
        max(piece.inner[0] + _corner(piece, 0) - left, right - piece.inner[1] + _corner(piece, 1)) for piece in pieces
    ]
    if pieces and min(lacking) > TOLERANCE.length:
        piece, found = pieces[lacking.index(min(lacking))], format_length(min(lacking))
        message = (
            f"found {_called(opening)} {found} too near the end of {piece.name!r} (free from"
            f" {format_length(piece.inner[0])} to {format_length(piece.inner[1])} along {partition.name!r})"
            ", expected room for its studs and the end's"
        )
        yield Flaw(rule="plan.opening", loc=loc, message=message, found=found)


def _corner(piece: RunPiece, end: int) -> float:
    """What a corner takes of a partition's end: the wall behind it."""
    return piece.ends[end].depth if piece.ends[end].kind == "corner" else 0.0


def _under_its_plates(building: Building, partition: Partition, opening: WallOpening, loc: Loc) -> Iterator[Flaw]:
    studs = profile(partition.studs)
    header = opening.header_size
    if header is None and partition.bearing:
        width = format_length(opening.rough_width_in)
        message = f"found no header for a rough opening of {width}, expected one: it is wider than any usual header"
        yield Flaw(rule="plan.opening", loc=loc, message=message, found=width)
        return
    carried = opening.carried
    if partition.bearing and carried and opening.header is None and opening.table_header is None:
        width = format_length(opening.rough_width_in)
        message = (
            f"found no header for a rough opening of {width} in {partition.name!r}, which bears: none that has room in"
            f" {partition.studs} studs spans it in the table for one floor of a building"
            f" {format_length(carried.width_in)} wide; write header: the size it was designed with"
        )
        yield Flaw(rule="plan.opening", loc=loc, message=message, found=width)
        return
    flat = not partition.bearing and opening.header is None
    deep = studs.thickness_in if flat or header is None else header.profile.depth_in
    side = (1 + opening.jack_count) * studs.thickness_in
    over = partition.lowest_in((opening.left_in - side, opening.right_in + side), building.walls.height)
    top = over - 2 * studs.thickness_in * partition.steepest - deep
    if opening.head_in > top + TOLERANCE.length:
        found, limit = format_length(opening.head_in), f"at most {format_length(top)}"
        message = (
            f"found the head of {_called(opening)} at {found}, expected {limit}"
            f" (under the top plates of {partition.name!r} less its header)"
        )
        yield Flaw(rule="plan.opening", loc=(*loc, "head"), message=message, found=found, limit=limit)
    least = opening.rough_height_in + (2 * studs.thickness_in if opening.has_sill else 0.0)
    if opening.head_in < least - TOLERANCE.length:
        found, limit = format_length(opening.head_in), f"at least {format_length(least)}"
        message = f"found the head of {_called(opening)} at {found}, expected {limit} (its rough height and sill)"
        yield Flaw(rule="plan.opening", loc=(*loc, "head"), message=message, found=found, limit=limit)
    if not flat and header and header.plies * header.profile.thickness_in > studs.depth_in + TOLERANCE.length:
        found, limit = format_length(header.plies * header.profile.thickness_in), format_length(studs.depth_in)
        message = (
            f"found header {header}, {found} thick, expected at most {limit}: {partition.name!r} is of {studs.name}"
        )
        yield Flaw(rule="plan.opening", loc=(*loc, "header"), message=message, found=found, limit=limit)


def _unsound(building: Building) -> bool:
    """Whether runs can't be reckoned: another rule says why."""
    rules = (names_apart, _without_length, apart_from_each_other, tops_in_order)
    return any(True for rule in rules for _ in rule(building))


def _without_length(building: Building) -> Iterator[Flaw]:
    for index, partition in enumerate(building.walls.partitions):
        if strip_of(partition).length < LEAST_RUN_IN:
            yield Flaw(rule="plan.partition", loc=_loc(index), message="no length")


def measured(building: Building) -> Iterator[Flaw]:
    """Its two points are apart."""
    for flaw in _without_length(building):
        index = int(flaw.loc[-1])
        partition = building.walls.partitions[index]
        length = format_length(strip_of(partition).length)
        limit = f"at least {format_length(LEAST_RUN_IN)}"
        message = f"found partition {partition.name!r} {length} long, expected {limit}"
        yield Flaw(rule="plan.partition", loc=_loc(index), message=message, found=length, limit=limit)


def tops_in_order(building: Building) -> Iterator[Flaw]:
    """The corners of a stepped or raked top run from left to right, and stand instead of a height."""
    for index, partition in enumerate(building.walls.partitions):
        if partition.top is None:
            continue
        loc = (*_loc(index), "top")
        along = [u for u, _ in partition.top]
        back = next((k for k in range(1, len(along)) if along[k] < along[k - 1]), None)
        if back is not None:
            found, limit = format_length(along[back]), f"at least {format_length(along[back - 1])}"
            message = (
                f"found corner {back + 1} of the top at {found}, expected {limit}: corners run along the partition"
            )
            yield Flaw(rule="plan.partition", loc=loc, message=message, found=found, limit=limit)
        elif along[-1] - along[0] < LEAST_RUN_IN:
            found = format_length(along[-1] - along[0])
            message = f"found a top {found} long, expected corners along the partition {partition.name!r}"
            yield Flaw(rule="plan.partition", loc=loc, message=message, found=found)
        if partition.height is not None:
            message = f"found height beside top of {partition.name!r}, expected one of the two"
            yield Flaw(rule="plan.partition", loc=(*_loc(index), "height"), message=message, found="height and top")


def _height(building: Building, index: int) -> float:
    return building.walls.partitions[index].height_in(building.walls.height)


def _studs_of(building: Building, host: str) -> str:
    own = next((p.studs for p in building.walls.partitions if p.name == host), None)
    return own or building.walls.for_side(host).studs


def _openings_of(building: Building, host: str) -> tuple[WallOpening, ...]:
    own = next((p.openings for p in building.walls.partitions if p.name == host), None)
    return own if own is not None else tuple(o for o in building.walls.openings if o.side == host)


def _called(opening: WallOpening) -> str:
    return f"the {opening.call} {opening.usual.words}"


def _loc(index: int) -> tuple[str, str, int]:
    return ("walls", "partitions", index)
