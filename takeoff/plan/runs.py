"""Where partitions run: each cut back to the faces of the walls it ends in, and parted where it crosses another.

::

        ===============  a wall, its inner face below
              |#|        the partition's framing starts at that face (a tee)
              |#|
        ------+#+------  an earlier partition runs through, a later one is parted by it
              |#|

A run is measured from the point ``from`` of its centre line; its right-hand side, seen from above, is its outside.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import dist
from typing import Literal

from takeoff.catalog.profiles import profile
from takeoff.geometry.strip import Strip
from takeoff.plan.footprint import footprint
from takeoff.plan.partitions import Partition
from takeoff.plan.schema import Building

Point = tuple[float, float]

REACH_IN = 0.5
"""An end this near a wall's face ends in that wall [in]; plans are written to the inch."""

LEAST_SKEW = 0.5
"""Sine of the sharpest angle at which two walls are framed together: 30 degrees. Our own limit, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A wall that others may end in."""

    name: str
    strip: Strip
    outside: bool
    """Of the building's outline: only its left-hand face is met."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RunEnd:
    """How a piece of a run ends."""

    at: tuple[float, float]
    """Along the run [in], on its right-hand face and on its left-hand one; alike where it meets a wall squarely."""
    kind: Literal["tee", "corner", "free"]
    """A corner runs on to the far side of the partition it meets, whose end butts behind it."""
    host: str = ""
    """The wall it meets."""
    depth: float = 0.0
    """Of that wall [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RunPiece:
    """A part of a partition between the walls it meets."""

    name: str
    partition: int
    strip: Strip
    """Along the whole run, as written."""
    ends: tuple[RunEnd, RunEnd]

    @property
    def inner(self) -> tuple[float, float]:
        """Along the run: where whole studs have room [in]."""
        return max(self.ends[0].at), min(self.ends[1].at)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tee:
    """A partition that ends at, or crosses, a wall which runs through."""

    host: str
    partition: int
    u: tuple[float, float]
    """Along the host's strip [in]: its sides."""
    faces: tuple[Literal["left", "right"], ...]
    """Of the host, seen along its strip: where the partition stands."""
    square: bool


def standing_walls(building: Building) -> tuple[Standing, ...]:
    """The walls of the outline, then the partitions as they are written."""
    sides = tuple(
        Standing(name=s.name, strip=Strip(start=s.start, end=s.end, depth=_depth(building, s.name)), outside=True)
        for s in footprint(building).sides
    )
    return (*sides, *(Standing(name=p.name, strip=strip_of(p), outside=False) for p in building.walls.partitions))


def strip_of(partition: Partition) -> Strip:
    """A partition in plan, ends as written."""
    depth = profile(partition.studs).depth_in
    line = Strip(start=partition.start, end=partition.end, depth=depth)
    if not line.length:
        return line
    return Strip(start=line.at(0.0, -depth / 2), end=line.at(line.length, -depth / 2), depth=depth)


def run_pieces(building: Building) -> tuple[RunPiece, ...]:
    """All pieces of all partitions, in the order of the plan."""
    walls = standing_walls(building)
    return tuple(piece for k in range(len(building.walls.partitions)) for piece in _pieces(building, walls, k))


def tees(building: Building) -> tuple[Tee, ...]:
    """Where partitions end at walls or cross partitions that run through."""
    walls = standing_walls(building)
    by_name = {wall.name: wall for wall in walls}
    found: dict[tuple[str, int, int], Tee] = {}
    for piece in run_pieces(building):
        for end, toward in zip(piece.ends, (-1.0, 1.0), strict=True):
            if end.kind != "tee" or (not by_name[end.host].outside and _is_corner(walls, piece.partition, end.host)):
                continue
            tee = _tee(piece, by_name[end.host], toward)
            key = (tee.host, tee.partition, round(sum(tee.u)))
            both = found.get(key)
            if both:
                tee = Tee(host=tee.host, partition=tee.partition, u=tee.u, faces=("left", "right"), square=tee.square)
            found[key] = tee
    return tuple(found.values())


def _tee(piece: RunPiece, host: Standing, toward: float) -> Tee:
    strip, other = piece.strip, host.strip
    from_left = strip.skew(other) * toward > 0  # travelling to the host, its left-hand side is met first
    far = other.depth if from_left else 0.0
    sides = sorted(other.measured(strip.at(strip.meets(other, y, far=far), y))[0] for y in (0.0, strip.depth))
    square = abs(abs(strip.skew(other)) - 1.0) < 1e-6
    return Tee(
        host=host.name,
        partition=piece.partition,
        u=(sides[0], sides[1]),
        faces=("left",) if from_left else ("right",),
        square=square,
    )


def _depth(building: Building, side: str) -> float:
    return profile(building.walls.for_side(side).studs).depth_in


def _pieces(building: Building, walls: Sequence[Standing], k: int) -> Iterator[RunPiece]:
    partition = building.walls.partitions[k]
    me = next(wall for wall in walls if not wall.outside and wall.name == partition.name)
    cuts = sorted(_crossed(building, walls, k), key=lambda pair: pair[0].at)
    ends = (_end(building, walls, k, at_start=True), _end(building, walls, k, at_start=False))
    lasts = [last for last, _ in cuts]
    firsts = [first for _, first in cuts]
    for number, pair in enumerate(zip((ends[0], *firsts), (*lasts, ends[1]), strict=True), start=1):
        name = partition.name if not cuts else f"{partition.name} {number}"
        yield RunPiece(name=name, partition=k, strip=me.strip, ends=pair)


def _crossed(building: Building, walls: Sequence[Standing], k: int) -> Iterator[tuple[RunEnd, RunEnd]]:
    """Where an earlier partition parts this one: how the piece before ends there, and how the one after begins."""
    mine = strip_of(building.walls.partitions[k])
    for other in building.walls.partitions[:k]:
        theirs = strip_of(other)
        if abs(mine.skew(theirs)) < LEAST_SKEW:
            continue
        here = mine.meets(theirs, mine.depth / 2, far=theirs.depth / 2)
        there = theirs.measured(mine.at(here, mine.depth / 2))[0]
        if not _inside(here, mine.length, theirs.depth) or not _inside(there, theirs.length, mine.depth):
            continue
        low, high = sorted(
            (tuple(mine.meets(theirs, y, far=far) for y in (0.0, mine.depth)) for far in (0.0, theirs.depth)), key=sum
        )
        yield (
            RunEnd(at=(low[0], low[1]), kind="tee", host=other.name, depth=theirs.depth),
            RunEnd(at=(high[0], high[1]), kind="tee", host=other.name, depth=theirs.depth),
        )


def _inside(at: float, length: float, depth: float) -> bool:
    """Whether a crossing lies past the ends of a run, not at one of them."""
    return depth / 2 + REACH_IN < at < length - depth / 2 - REACH_IN


def _end(building: Building, walls: Sequence[Standing], k: int, *, at_start: bool) -> RunEnd:
    mine = strip_of(building.walls.partitions[k])
    written = 0.0 if at_start else mine.length
    host = ends_in(walls, building.walls.partitions[k].name, mine.at(written, mine.depth / 2))
    if host is None or abs(mine.skew(host.strip)) < LEAST_SKEW:
        return RunEnd(at=(written, written), kind="free")
    faces = (host.strip.depth,) if host.outside else (0.0, host.strip.depth)
    lines = sorted((tuple(mine.meets(host.strip, y, far=f) for y in (0.0, mine.depth)) for f in faces), key=sum)
    names = [p.name for p in building.walls.partitions]
    through = not host.outside and names.index(host.name) > k and _is_corner(walls, k, host.name)
    near, far = (lines[-1], lines[0]) if at_start else (lines[0], lines[-1])
    at = far if through else near
    return RunEnd(at=(at[0], at[1]), kind="corner" if through else "tee", host=host.name, depth=host.strip.depth)


def ends_in(walls: Sequence[Standing], name: str, spot: Point) -> Standing | None:
    """The wall that a spot of a partition's centre line lies in; None where it stands free."""
    for wall in walls:
        along, across = wall.strip.measured(spot)
        reach = REACH_IN if wall.outside else wall.strip.depth + REACH_IN
        beside = -REACH_IN <= across <= wall.strip.depth + REACH_IN
        if wall.name != name and beside and -reach <= along <= wall.strip.length + reach:
            return wall
    return None


def _is_corner(walls: Sequence[Standing], k: int, host: str) -> bool:
    """Whether a partition and another one have an end in common."""
    inner = [wall for wall in walls if not wall.outside]
    mine, theirs = inner[k].strip, next(wall.strip for wall in inner if wall.name == host)
    reach = max(mine.depth, theirs.depth) / 2 + REACH_IN
    ends = [[s.at(u, s.depth / 2) for u in (0.0, s.length)] for s in (mine, theirs)]
    return any(dist(a, b) <= reach for a in ends[0] for b in ends[1])
