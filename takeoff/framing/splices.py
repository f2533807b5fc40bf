"""Runs longer than any board: where plates, ridge boards and fascia are joined."""

from __future__ import annotations

from collections.abc import Iterable

from takeoff.geometry.tolerance import TOLERANCE


def spliced(
    run: tuple[float, float],
    longest: float,
    joints_at: Iterable[float],
    *,
    away_from: Iterable[float] = (),
    offset: float = 0.0,
) -> tuple[tuple[float, float], ...]:
    """The pieces of a run, each as long as stock and the places for joints allow.

    Args:
        run: start and end [in].
        longest: longest board on sale [in].
        joints_at: where a joint may fall (centres of studs or rafters) [in].
        away_from: joints of a neighbouring run (the plate under a cap plate) [in].
        offset: least distance from those [in].

    Returns:
        Start and end of each piece. Where no allowed place is in reach the piece is cut at the full length of stock.
    """
    start, end = run
    others = tuple(away_from)
    allowed = [j for j in sorted(joints_at) if all(abs(j - other) >= offset - TOLERANCE.length for other in others)]
    pieces: list[tuple[float, float]] = []
    while end - start > longest + TOLERANCE.length:
        reach = [j for j in allowed if start + TOLERANCE.length < j <= start + longest + TOLERANCE.length]
        joint = reach[-1] if reach else start + longest
        pieces.append((start, joint))
        start = joint
    return (*pieces, (start, end))
