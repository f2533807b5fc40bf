"""Ways to lay one band of a face, a course of a slope or a tier of a wall, and which ways go over each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.sheathing.cells import Cell, Reach, joints_on, spans

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

LEAST_STAGGER_IN = 24.0
"""End joints of neighbouring courses of a slope are at least so far apart [in]. Common practice, no source."""

LEAST_STEP_IN = 8.0
"""Joints that can only move by one support are at least so far apart [in], so that no four corners meet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to lay a band."""

    cells: tuple[Cell, ...]
    ends: tuple[float, ...]
    """Where sheets of one grade meet side by side [in] along u."""
    fixed: tuple[float, ...] = ()
    """Where the grades meet [in]: on one of a few supports near the rake."""


Band = tuple[Way, ...]
"""The ways of one band."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Division:
    """The bands of a face from the lowest up, each with its ways, and which ways of neighbours are in line."""

    bands: tuple[Band, ...]
    clashes: tuple[NDArray[np.bool_], ...]
    """For each band but the first: rows for the ways of the band below, columns for its own."""

    def faults(self, ways: Sequence[int]) -> int:
        """How often neighbours are in line where each band is laid in one of its ways."""
        return sum(bool(clash[pair]) for clash, pair in zip(self.clashes, pairwise(ways), strict=True))


def division(bands: Sequence[Band], stagger: float) -> Division:
    """Bands with their clashes.

    Args:
        bands: from the lowest up.
        stagger: how far end joints of neighbours should be apart [in].
    """
    marks = [tuple((way.ends, way.fixed) for way in band) for band in bands]
    return Division(
        bands=tuple(bands), clashes=tuple(_clashes(below, above, stagger) for below, above in pairwise(marks))
    )


_Joints = tuple[tuple[float, ...], tuple[float, ...]]


@lru_cache(maxsize=256)
def _clashes(below: tuple[_Joints, ...], above: tuple[_Joints, ...], stagger: float) -> NDArray[np.bool_]:
    # The courses of a rectangle have the same joints, in every set of courses: it is worth remembering them.
    import numpy as np

    return np.array([[_in_line(one, other, stagger) for other in above] for one in below])


def _in_line(below: _Joints, above: _Joints, stagger: float) -> bool:
    """Whether joints of neighbouring bands stand too nearly in line: ends by the stagger, all by a step."""
    (ends, fixed), (over, over_fixed) = below, above
    if any(abs(a - b) < stagger - TOLERANCE.length for a in ends for b in over):
        return True
    return any(abs(a - b) < LEAST_STEP_IN for a in (*ends, *fixed) for b in (*over, *over_fixed))


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A way for each band of a face."""

    ways: tuple[int, ...]
    """Numbers of the ways."""
    cost: int
    """Of the ways, faults left out."""
    faults: int
    """How often neighbours are in line."""


def cheapest(divided: Division, costs: Sequence[Sequence[int]], fault: int) -> Laid:
    """The ways that cost least together; of equal ones the first.

    Args:
        divided: bands and their ways.
        costs: of each way of each band, whole numbers.
        fault: what it costs where neighbours are in line.

    Source:
        Dynamic programming from band to band (Viterbi 1967).
    """
    import numpy as np

    best = np.array(costs[0], dtype=np.int64)
    before: list[NDArray[np.int64]] = []
    for clashes, of_band in zip(divided.clashes, costs[1:], strict=True):
        sums = best[:, None] + fault * clashes.astype(np.int64)
        before.append(sums.argmin(axis=0))
        best = sums.min(axis=0) + np.array(of_band, dtype=np.int64)
    ways = [int(best.argmin())]
    for step in reversed(before):
        ways.append(int(step[ways[-1]]))
    ways.reverse()
    faults = divided.faults(ways)
    return Laid(ways=tuple(ways), cost=int(best.min()) - fault * faults, faults=faults)


def plainest(divided: Division) -> tuple[Cell, ...]:
    """Cells of the ways with the fewest sheets, where nobody counts the cost."""
    return tuple(cell for band, k in zip(divided.bands, plain_ways(divided), strict=True) for cell in band[k].cells)


def plain_ways(divided: Division) -> tuple[int, ...]:
    """The ways with the fewest sheets; of as many the first."""
    if not divided.bands:
        return ()
    return cheapest(divided, [[len(way.cells) for way in band] for band in divided.bands], fault=1_000).ways


def runs(
    start: float, end: float, supports: Sequence[float], reach: Reach, *, from_right: bool
) -> tuple[tuple[float, ...], ...]:
    """Joints of every run of sheets between ``start`` and ``end`` that begins on another support.

    The first is the plain one: whole sheets from the end that the layout starts at. Runs that leave a piece on a
    single support, or shorter than the least, are left out where others don't.

    Args:
        start: u of the left end [in].
        end: u of the right end [in].
        supports: centre lines [in].
        reach: longest and shortest sheet.
        from_right: the layout starts at the right end.
    """
    mirrored = tuple(-s for s in reversed(supports))

    def leftward(first: float | None) -> tuple[float, ...]:
        return tuple(-j for j in reversed(joints_on(-end, -start, mirrored, reach, first=first)))

    def rightward(first: float | None) -> tuple[float, ...]:
        return joints_on(start, end, supports, reach, first=first)

    found = [leftward(None)] if from_right else [rightward(None)]
    found += [rightward(s - start) for s in supports if reach.least <= s - start <= reach.most]
    found += [leftward(end - s) for s in supports if reach.least <= end - s <= reach.most]
    by_faults = {joints: _faults(start, end, joints, supports, reach) for joints in dict.fromkeys(found)}
    least = min(by_faults.values())
    return tuple(joints for joints, faults in by_faults.items() if faults == least)


def _faults(
    start: float, end: float, joints: Sequence[float], supports: Sequence[float], reach: Reach
) -> tuple[int, int]:
    """Pieces on fewer than two supports, and pieces that are too short."""
    pieces = spans(start, end, joints)
    near = TOLERANCE.length
    single = sum(sum(u0 - near <= s <= u1 + near for s in supports) < 2 for u0, u1 in pieces)
    return single, sum(u1 - u0 < reach.least - near for u0, u1 in pieces)
