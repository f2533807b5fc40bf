"""Where outlookers lie along a rake: near the tail, near the ridge, and between."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor
from typing import TYPE_CHECKING

from takeoff.geometry.rafter import Pocket, RafterGeometry
from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile


def flat_pockets(
    outlooker: Profile,
    geometry: RafterGeometry,
    *,
    spacing: float | None,
    lines: Sequence[float] = (),
    rake: float | None = None,
) -> tuple[Pocket, ...]:
    """Pockets for outlookers lying flat in the top edge of an end rafter.

    The first and the last stand one outlooker's width clear of the rafter's ends, so that the wood beyond the
    pocket does not split off (common practice, no source). On a rake that ends at a hip, ``rake`` is its length
    [in], and the last stays that clear of its end.
    """
    width = outlooker.depth_in
    places = _places(_length(geometry, rake), width, 1.5 * width, spacing, lines)
    return tuple(Pocket(centre, width, outlooker.thickness_in) for centre in places)


def crossings_on_edge(
    outlooker: Profile,
    geometry: RafterGeometry,
    *,
    spacing: float | None,
    lines: Sequence[float] = (),
    rake: float | None = None,
) -> tuple[Pocket, ...]:
    """Where outlookers on edge lie over an end rafter, or blocks against it: their width and depth below its slope.

    The last is far enough from the ridge that its lower edge, which leans toward it, is clear of the ridge's face.
    """
    width, depth = outlooker.thickness_in, outlooker.depth_in
    places = _places(_length(geometry, rake) - depth * geometry.slope, width, 1.5 * width, spacing, lines)
    return tuple(Pocket(centre, width, depth) for centre in places)


def _length(geometry: RafterGeometry, rake: float | None) -> float:
    return geometry.top_edge if rake is None else min(rake, geometry.top_edge)


def _places(
    length: float, width: float, clear: float, spacing: float | None, lines: Sequence[float]
) -> tuple[float, ...]:
    """Centres along the top edge, from the tail cut [in].

    Args:
        length: of the edge [in].
        width: of an outlooker along it [in].
        clear: of the first and last centre from the ends [in].
        spacing: of the others from the first [in]; None puts one under each line.
        lines: edges of the sheets [in].
    """
    first, last = clear, length - clear
    if last <= first:
        return (length / 2,)
    # One that would touch the last is left out: the last stands for it.
    room = last - 2 * width + TOLERANCE.length
    if spacing is not None:
        between = [first + k * spacing for k in range(1, floor((room - first) / spacing) + 1)]
    else:
        between = [line for line in lines if first + 2 * width <= line <= room]
    return (first, *between, last)
