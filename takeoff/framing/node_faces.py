r"""Hips that meet over a slope: where their faces meet is beside where their centre lines do.

Between two hips of a slope that are mitred the faces meet on the mitre, half a thickness inside the node. Seen from
the eave that corner may lie to one side of the node, in the way of a jack whose slices all end on one of the hips:

              /  centre lines
             o
            /:\            the jack's slices end left of the node ``o``,
           / : \           its wood reaches past the corner ``x`` of the faces
          /  x
            |J|
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from takeoff.geometry.outline import Edge


def hips_at_the_corner(
    ring: Sequence[Edge], uppers: Sequence[Edge], *, u: float, thickness: float, half: float, level: float
) -> Iterator[Edge]:
    """Hips whose face comes round a corner into the wood of a jack, none of whose slices ends on them.

    Args:
        ring: edges of the slope's outline, counter-clockwise.
        uppers: those that the jack's slices end on above.
        u: centre line of the jack [in].
        thickness: of the jack [in].
        half: half the thickness of the hips [in].
        level: level run for one inch along the slope.

    Yields:
        Neighbours of ``uppers``, each once.
    """
    for k, one in enumerate(ring):
        after = ring[(k + 1) % len(ring)]
        if {one.role, after.role} != {"hip"} or (one in uppers) == (after in uppers) or not _outer(one, after):
            continue
        if abs(_corner(one, after, half, level) - u) < thickness / 2 - TOLERANCE.length:
            yield after if one in uppers else one


def _outer(one: Edge, after: Edge) -> bool:
    """Whether a ring turns to the left from one edge to the next."""
    ax, ay = one.b[0] - one.a[0], one.b[1] - one.a[1]
    bx, by = after.b[0] - after.a[0], after.b[1] - after.a[1]
    return ax * by - ay * bx > TOLERANCE.length


def _corner(one: Edge, after: Edge, half: float, level: float) -> float:
    """Where along u the faces below two edges meet [in]."""
    skews = one.slope * level, after.slope * level
    # Level, across the slope: the face along each edge is lower than the edge by this much.
    lower = [half * hypot(1, skew) for skew in skews]
    turn = skews[0] - skews[1]
    return one.b[0] + (lower[0] - lower[1]) / turn if turn else one.b[0]
