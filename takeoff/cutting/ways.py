"""The ways in which a run may be joined: as few pieces as can be, each joint where one may fall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice, pairwise

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.run import Run

Way = tuple[float, ...]
"""Where the pieces are joined, from the run's start [in]."""

LEAST_PIECE_IN = 48.0
"""No shorter piece, where that can be: a plate of short ends holds no wall straight (common practice)."""
MOST_WAYS = 60
"""Of these many ways of a run there is one that suits the others."""
_MOST_LISTED = 2_000


def ways_of(run: Run, longest_in: float, most: int = MOST_WAYS) -> tuple[Way, ...]:
    """The ways to join a run with the fewest pieces; none where its places are too far apart.

    Args:
        run: with the places for joints.
        longest_in: what the longest board on sale is good for [in].
        most: where there are more ways they are thinned out evenly, so that the rest still spread over the whole run.
    """
    places = list(run.places_in)
    for least in (LEAST_PIECE_IN, 0.0):
        fewest = _fewest(run.length_in, places, longest_in, least)
        if fewest is not None:
            return _thinned(tuple(_listed(run.length_in, places, longest_in, least, fewest)), most)
    return ()


def lengths_of(run: Run, way: Way) -> tuple[float, ...]:
    """Lengths of the pieces [in]."""
    return tuple(b - a for a, b in pairwise((0.0, *way, run.length_in)))


def clash(upper: Run, way: Way, lower_way: Way) -> bool:
    """Whether joints of a run lie too near to those of the run under it."""
    nearest = upper.offset_in - TOLERANCE.length
    return any(abs(a + upper.starts_in - b) < nearest for a in way for b in lower_way)


def _fewest(length: float, places: Sequence[float], longest: float, least: float) -> int | None:
    """Number of joints of the ways with the fewest; None where there is no way."""
    reached, joints = {0.0}, 0
    while reached:
        if any(_fits(length - at, longest, least) for at in reached):
            return joints
        reached = {place for place in places if any(_fits(place - at, longest, least) for at in reached)}
        joints += 1
        if joints > len(places):
            return None
    return None


def _fits(piece: float, longest: float, least: float) -> bool:
    return max(least, TOLERANCE.length) <= piece + TOLERANCE.length and piece <= longest + TOLERANCE.length


def _thinned(ways: tuple[Way, ...], most: int) -> tuple[Way, ...]:
    step = -(-(len(ways) - 1) // max(1, most - 1))
    return ways if len(ways) <= most else (*ways[:-1:step], ways[-1])


def _listed(length: float, places: Sequence[float], longest: float, least: float, joints: int) -> Iterator[Way]:
    """Ways with so many joints; of a run so long that there are very many, only with every other place or fewer."""
    while _count(length, places, longest, least, joints) > _MOST_LISTED:
        halves = [half for half in (places[::2], places[1::2]) if _fewest(length, half, longest, least) == joints]
        if not halves:
            break
        places = halves[0]
    return islice(_ways(length, places, longest, least, joints), _MOST_LISTED)


def _count(length: float, places: Sequence[float], longest: float, least: float, joints: int) -> int:
    """Number of the ways with so many joints."""
    reached = {0.0: 1}
    for _ in range(joints):
        reached = {place: sum(n for at, n in reached.items() if _fits(place - at, longest, least)) for place in places}
    return sum(n for at, n in reached.items() if _fits(length - at, longest, least))


def _ways(length: float, places: Sequence[float], longest: float, least: float, joints: int) -> Iterator[Way]:
    def after(start: float, left: int) -> Iterator[Way]:
        if not left:
            if _fits(length - start, longest, least):
                yield ()
            return
        for place in places:
            if _fits(place - start, longest, least) and length - place <= left * longest + TOLERANCE.length:
                yield from ((place, *rest) for rest in after(place, left - 1))

    yield from after(0.0, joints)
