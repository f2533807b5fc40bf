"""Plates along a rake, or along a stepped or raked top: straight pieces that end plumb where the line bends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.rules import rule
from takeoff.framing.splices import spliced
from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from takeoff.framing.wall import Wall
    from takeoff.model.member import Member

Point = tuple[float, float]

LEVEL_ROLES = ("top-plate", "cap-plate")


def rake_plates(wall: Wall, centres: Sequence[float], longest: float) -> Iterator[Member]:
    """The plates that a wall's studs end under, the lowest first; they stop at the beams that end in the wall.

    Joints fall on studs; those of one plate keep their distance from those of the plate under it.

    Args:
        wall: with its rake.
        centres: of its studs [in].
        longest: longest plate on sale [in].
    """
    if wall.rake is None or not wall.rake_plates:
        return
    offset = rule("plate.joint-offset").value
    for a, b in _parts(wall):
        slope = (b[1] - a[1]) / (b[0] - a[0])
        long, joints = hypot(1.0, slope), tuple[float, ...]()
        for layer in range(wall.rake_plates):
            down = (wall.rake_plates - layer - 0.5) * wall.plate * long
            reach = longest / long - 2 * wall.plate * abs(slope)
            pieces = spliced((a[0], b[0]), reach, centres, away_from=joints, offset=offset)
            joints = tuple(piece[1] for piece in pieces[:-1])
            level = abs(slope) < TOLERANCE.length and wall.rake_plates == len(LEVEL_ROLES)
            for piece in pieces:
                ends = [(u, a[1] + slope * (u - a[0]) - down) for u in piece]
                yield wall.bench.flat_up_a_slope(
                    LEVEL_ROLES[layer] if level else "rake-plate", wall.studs, wall.plates_grade, ends[0], ends[1]
                )


def _parts(wall: Wall) -> Iterator[tuple[Point, Point]]:
    """Straight parts of the rake over the wall's framing, less what beams take."""
    if wall.rake is None:
        return
    beams = sorted(ridge.u for ridge in wall.ridges)
    for a, b in wall.rake.runs(wall.extent):
        slope, start = (b[1] - a[1]) / (b[0] - a[0]), a[0]
        for low, high in (*beams, (b[0], b[0])):
            stop = min(low, b[0])
            if stop - start > wall.plate:
                yield (start, a[1] + slope * (start - a[0])), (stop, a[1] + slope * (stop - a[0]))
            start = max(start, high)
