"""Walls on concrete: where the anchor bolts of their sill plates stand, and what lies under those; clips of corners."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import ceil
from typing import TYPE_CHECKING

from takeoff.catalog.rules import rule
from takeoff.framing.header_spacers import packing_in
from takeoff.framing.studs import fixed_uprights, layout_studs
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.fitting import Fitting
from takeoff.model.layout import LayoutLine, LayoutMark

if TYPE_CHECKING:
    from takeoff.framing.wall import Wall
    from takeoff.model.member import Member
    from takeoff.plan.walls import Sill

CLIPS_APART_IN = 16.0
"""Backing clips up a corner apart [in]. Common practice, no source."""

BESIDE_STUD_IN = 1.5
"""The washer of a bolt keeps so far from the side of a stud [in]. Common practice, no source."""


def bolts(piece: tuple[float, float], apart: float, diameter: float, studs: Iterable[float] = ()) -> tuple[float, ...]:
    """Where the anchor bolts of a plate piece stand, as far from its ends as the rules let them be, evenly between.

    Two a piece at least, within 12" of its ends but not nearer than seven diameters, never further apart than
    ``apart``; an end bolt that a stud would stand on moves beside it.

    Args:
        piece: its ends [in].
        apart: greatest spacing [in].
        diameter: of a bolt [in].
        studs: middles of what stands on the plate [in].
    """
    low, high = piece
    least, most = rule("anchor.end-diameters").value * diameter, rule("anchor.end").value
    if high - low < 3 * least:
        return ((low + high) / 2,)  # too short a piece for two
    most = min(most, (high - low - least) / 2)
    away = min(most, max(least, (high - low) / 4))
    standing = tuple(studs)
    first = _beside(low + away, standing, (low + least, low + most))
    last = _beside(high - away, standing, (high - most, high - least))
    count = max(int(rule("anchor.least").value), ceil((last - first) / apart - TOLERANCE.length) + 1)
    return tuple(first + k * (last - first) / (count - 1) for k in range(count))


def _beside(at: float, studs: Sequence[float], limit: tuple[float, float]) -> float:
    """The place itself, or the nearest within its limits that no stud stands on."""
    room = 0.75 + BESIDE_STUD_IN
    tries = [at, *(u + sign * room for u in studs for sign in (-1.0, 1.0))]
    free = [t for t in tries if limit[0] <= t <= limit[1] and all(abs(t - u) >= room - 1e-9 for u in studs)]
    return min(free, key=lambda t: (abs(t - at), t), default=at)


def sill_line(wall: Wall, start: str, members: Iterable[Member], sill: Sill) -> LayoutLine:
    """Anchor bolts and joints of a wall's sill plates, from the left end of its plates."""
    origin, end = wall.extent
    fixed = [upright.u for upright in fixed_uprights(wall)]
    studs = [u - origin for u in (*fixed, *layout_studs(wall, (*fixed, *wall.post_centres)))]
    runs = sorted(
        (u - origin, u - origin + member.length_in)
        for member in members
        if member.role.name == "bottom-plate"
        for u in (wall.bench.placement.from_world(member.placement.origin)[0],)
    )
    marks = {(round(u, 6), "AB", "anchor bolt") for run in runs for u in bolts(run, sill.bolts_apart, sill.bolt, studs)}
    marks |= {(round(u, 6), "|", "end of a sill plate") for run in runs for u in run if 0 < u < end - origin}
    return LayoutLine(
        name=f"{wall.side.name} wall, sill on concrete",
        start=start,
        length_in=end - origin,
        marks=tuple(LayoutMark(*mark) for mark in sorted(marks)),
        load=1,
    )


def fittings(
    walls: Sequence[Wall], lines: Iterable[LayoutLine], plates: Iterable[Member], sill: Sill | None
) -> Iterator[Fitting]:
    """Hardware of a building's walls.

    Args:
        walls: of its outline and its partitions.
        lines: layout lines of its sills.
        plates: bottom plates of its outside walls.
        sill: how it stands on concrete; None where it doesn't.
    """
    bolted = sum(mark.symbol == "AB" for line in lines for mark in line.marks)
    if bolted:
        yield Fitting("anchor-bolt", bolted)
    if sill and sill.gasket:
        yield Fitting("sill-gasket", ceil(sum(plate.length_in for plate in plates) / 12 - TOLERANCE.length))
    packing = sum(packing_in(wall, opening) for wall in walls for opening in wall.openings)
    if packing:
        yield Fitting("header-packing", ceil(packing / 12 - TOLERANCE.length))
    clips = sum(
        ceil(wall.height / CLIPS_APART_IN)
        for wall in walls
        if wall.details.corner_posts == "two-stud"
        for depth in wall.neighbours
        if depth
    )
    if clips:
        yield Fitting("backing-clip", clips)
