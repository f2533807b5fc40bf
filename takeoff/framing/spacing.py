"""Layout: where the centre lines of studs, joists and rafters fall along a face."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from math import floor

from takeoff.geometry.tolerance import TOLERANCE


def layout_positions(length: float, spacing: float, *, from_right: bool = False) -> tuple[float, ...]:
    """Centres on multiples of ``spacing`` from the layout's end, inside ``length`` [in], left to right.

    Measured from the outer corner, so that the edges of panels land on centres (common practice, no source).
    """
    count = floor((length - TOLERANCE.length) / spacing)
    steps = [k * spacing for k in range(1, count + 1)]
    return tuple(sorted(length - step for step in steps)) if from_right else tuple(steps)


def clear_of(positions: Iterable[float], taken: Iterable[float], thickness: float) -> tuple[float, ...]:
    """Those centres at which a stick of ``thickness`` has room beside the ones ``taken`` already."""
    standing = tuple(taken)
    room = thickness - TOLERANCE.length
    return tuple(p for p in positions if all(abs(p - other) >= room for other in standing))


def gaps(centres: Iterable[float], thickness: float) -> tuple[tuple[float, float], ...]:
    """Clear spaces between neighbouring sticks of one thickness, left to right."""
    ordered = sorted(centres)
    pairs = ((a + thickness / 2, b - thickness / 2) for a, b in pairwise(ordered))
    return tuple((a, b) for a, b in pairs if b - a > TOLERANCE.length)
