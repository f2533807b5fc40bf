"""Plates along a rake, or along a stepped or raked top: straight pieces that end plumb where the line bends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.rules import rule
from takeoff.framing.splices import spliced
from takeoff.framing.wall import PLATES
from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from takeoff.framing.wall import Wall
    from takeoff.geometry.rake_line import RakeLine
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
    line, count = (wall.top, PLATES) if wall.top else (wall.rake, wall.rake_plates)
    if line is None or not count:
        return
    offset = rule("plate.joint-offset").value
    for a, b in _parts(wall, line):
        slope = (b[1] - a[1]) / (b[0] - a[0])
        long, joints = hypot(1.0, slope), tuple[float, ...]()
        for layer in range(count):
            down = (count - layer - 0.5) * wall.plate * long
            reach = longest / long - 2 * wall.plate * abs(slope)
            whole = (a[0], b[0]) if layer < count - 1 else _lapping(wall, (a[0], b[0]))
            pieces = spliced(whole, reach, centres, away_from=joints, offset=offset)
            joints = tuple(piece[1] for piece in pieces[:-1])
            level = abs(slope) < TOLERANCE.length and count == len(LEVEL_ROLES)
            for piece in pieces:
                ends = [(u, a[1] + slope * (u - a[0]) - down) for u in piece]
                yield wall.bench.flat_up_a_slope(
                    LEVEL_ROLES[layer] if level else "rake-plate", wall.studs, wall.plates_grade, ends[0], ends[1]
                )


def _lapping(wall: Wall, run: tuple[float, float]) -> tuple[float, float]:
    """A cap plate at the end of a stepped top runs on over the wall that is met, where both are of one height."""
    if wall.top is None:
        return run
    (left, right), caps = wall.extent, wall.cap_ends
    return (
        max(caps[0]) if run[0] - left < TOLERANCE.length else run[0],
        min(caps[1]) if right - run[1] < TOLERANCE.length else run[1],
    )


def _parts(wall: Wall, line: RakeLine) -> Iterator[tuple[Point, Point]]:
    """Straight parts of a line over the wall's framing, less what beams take."""
    beams = sorted(ridge.u for ridge in wall.ridges if not wall.top)
    for a, b in line.runs(wall.extent):
        slope, start = (b[1] - a[1]) / (b[0] - a[0]), a[0]
        for low, high in (*beams, (b[0], b[0])):
            stop = min(low, b[0])
            if stop - start > wall.plate:
                yield (start, a[1] + slope * (start - a[0])), (stop, a[1] + slope * (stop - a[0]))
            start = max(start, high)
