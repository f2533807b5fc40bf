"""Ends of rafters cut on plumb planes: square across, or with a cheek where they meet a hip, a valley or a ridge askew.

A line in plan, seen by a rafter: it crosses the rafter's centre line at a level distance ``at``, and runs ``skew``
further up the run for each inch to the rafter's right (its z axis).

            at + skew * z
              /|
        _____/ |____
       |    /  |    |  z >
       |   /   |    |
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot

from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import EndCut


@dataclass(frozen=True, slots=True)
class PlanLine:
    """A plumb plane across a rafter."""

    at: float
    skew: float
    lean: float = 0.0
    """How far it runs on, level, for one inch down from the top edge: 0 plumb, over 0 a tail cut that leans."""

    def over(self, z: float) -> float:
        """Level distance at ``z`` to the right of the centre line [in]."""
        return self.at + self.skew * z


@dataclass(frozen=True, slots=True)
class PlumbEnds:
    """Cut planes at both ends of a rafter, the main one of each first."""

    lower: tuple[EndCut, ...]
    upper: tuple[EndCut, ...]


@dataclass(frozen=True, slots=True)
class Reach:
    """How far a rafter reaches at an end that several planes cut: on the centre line, and at its long point [in]."""

    centre: float
    tip: float
    lines: tuple[PlanLine, ...]
    """Those that cut it, the one that the centre line meets first."""


def upper_reach(lines: Sequence[PlanLine], thickness: float) -> Reach:
    """The upper end between the planes that bound it from above."""
    stations = _stations(lines, thickness)
    heights = {z: min(line.over(z) for line in lines) for z in stations}
    cutting = [line for line in lines if any(line.over(z) < h + TOLERANCE.length for z, h in _inner(heights))]
    # Of the two cheeks of a double cut, which meet the centre line in one point, rounding doesn't choose the first.
    cutting.sort(key=lambda line: (round(line.at / TOLERANCE.length), line.skew))
    return Reach(min(line.at for line in lines), max(heights.values()), tuple(cutting))


def lower_reach(lines: Sequence[PlanLine], thickness: float) -> Reach:
    """The lower end between the planes that bound it from below."""
    mirrored = upper_reach([_mirrored(line) for line in lines], thickness)
    return Reach(-mirrored.centre, -mirrored.tip, tuple(_mirrored(line) for line in mirrored.lines))


def _mirrored(line: PlanLine) -> PlanLine:
    return PlanLine(-line.at, -line.skew, -line.lean)


def end_cuts(geometry: RafterGeometry, lines: Sequence[PlanLine], *, upper: bool) -> tuple[EndCut, ...]:
    """Cut planes of one end of a rafter, in the stick's axes."""
    c, s = 1 / hypot(1, geometry.slope), geometry.slope / hypot(1, geometry.slope)
    sign = 1.0 if upper else -1.0
    cuts = []
    for line in lines:
        whole = hypot(1, line.skew, line.lean)
        inward, across, up = sign / whole, -sign * line.skew / whole, sign * line.lean / whole
        x, y = geometry.to_stick(line.at, geometry.top_at(line.at))
        cuts.append(EndCut((inward * c + up * s, up * c - inward * s, across + 0.0), (x, y, 0.0)))
    return tuple(cuts)


def square_cut(geometry: RafterGeometry, *, upper: bool) -> EndCut:
    """Cut plane of an end that is square to the rafter's edges, through the top of its cut."""
    h = geometry.end if upper else geometry.start
    x, y = geometry.to_stick(h, geometry.top_at(h))
    return EndCut((1.0 if upper else -1.0, 0.0, 0.0), (x, y, 0.0))


def square_ends(geometry: RafterGeometry) -> PlumbEnds:
    """Both ends square across, and plumb unless the tail cut leans."""
    return PlumbEnds(
        end_cuts(geometry, [PlanLine(geometry.start, 0.0, geometry.tail_lean)], upper=False),
        end_cuts(geometry, [PlanLine(geometry.end, 0.0)], upper=True),
    )


def _stations(lines: Sequence[PlanLine], thickness: float) -> list[float]:
    """Both faces, and where two planes cross between them."""
    half = thickness / 2
    crossings = [
        (b.at - a.at) / (a.skew - b.skew)
        for i, a in enumerate(lines)
        for b in lines[i + 1 :]
        if abs(a.skew - b.skew) > TOLERANCE.length
    ]
    return sorted({-half, half, *(z for z in crossings if abs(z) < half)})


def _inner(heights: dict[float, float]) -> list[tuple[float, float]]:
    """Stations and, between each two, a middle: a plane that only touches at a station cuts nothing."""
    ordered = sorted(heights)
    return [((a + b) / 2, (heights[a] + heights[b]) / 2) for a, b in pairwise(ordered)]
