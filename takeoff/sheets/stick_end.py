"""The ends of a stick as its top edge shows them: where each face ends, from the planes that cut it.

Seen from above, the stick's lower end at the left; z runs to the right of one who looks up the stick.

        left face   ____________________
                                       /      set back: from the long point to the short one
        right face  __________________/.....
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import EndCut

if TYPE_CHECKING:
    from takeoff.model.member import Member

Point = tuple[float, float]

SQUARE_DEG = 0.05
"""A cut less out of square than this is square: no saw's scale shows it [deg]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StickEnd:
    """One end of a stick. Lengths [in]; x along the stick, z to its right."""

    cuts: tuple[EndCut, ...]
    """Each with the point it passes through, the main cut first."""
    upper: bool
    half: float
    """Half the thickness of the stick."""
    top: float
    """Height of the top edge over the bottom edge."""

    @property
    def is_cheek(self) -> bool:
        """Whether the blade is tilted for any of its cuts."""
        return any(abs(cut.bevel_deg) >= SQUARE_DEG for cut in self.cuts)

    @property
    def cheek_cuts(self) -> tuple[EndCut, ...]:
        """Those cuts that the blade is tilted for."""
        return tuple(cut for cut in self.cuts if abs(cut.bevel_deg) >= SQUARE_DEG)

    def at(self, z: float) -> float:
        """Where the top edge ends, ``z`` to the right of the centre line."""
        found = [_on_top(cut, self.top, z) for cut in self.cuts]
        return min(found) if self.upper else max(found)

    def corners(self) -> tuple[Point, ...]:
        """Corners (x, z) of the end on the top edge, from the left face to the right one."""
        stations = {-self.half, self.half}
        for index, one in enumerate(self.cuts):
            for other in self.cuts[index + 1 :]:
                apart = _skew(one) - _skew(other)
                if abs(apart) > TOLERANCE.length:
                    z = (_on_top(other, self.top, 0.0) - _on_top(one, self.top, 0.0)) / apart
                    if abs(z) < self.half - TOLERANCE.length:
                        stations.add(z)
        return tuple((self.at(z), z) for z in sorted(stations))

    @property
    def long_point(self) -> float:
        """X of its tip on the top edge."""
        reached = [x for x, _ in self.corners()]
        return max(reached) if self.upper else min(reached)

    @property
    def short_point(self) -> float:
        """X of the corner that is cut back farthest."""
        reached = [x for x, _ in self.corners()]
        return min(reached) if self.upper else max(reached)

    @property
    def set_back(self) -> float:
        """From the long point to the short point, along the top edge."""
        return abs(self.long_point - self.short_point)

    @property
    def hand(self) -> str:
        """Which face is the longer one, ``left`` or ``right``; empty where neither is."""
        left, right = self.at(-self.half), self.at(self.half)
        if abs(left - right) < TOLERANCE.mark:
            return ""
        return "right" if (right > left) == self.upper else "left"


def stick_ends(member: Member) -> tuple[StickEnd, StickEnd]:
    """Lower (left) and upper (right) end of a member."""
    lower, upper = (
        StickEnd(
            cuts=tuple(EndCut(*member.placed(cut)) for cut in (main, *more)),
            upper=index == 1,
            half=member.profile.thickness_in / 2,
            top=member.profile.depth_in,
        )
        for index, (main, more) in enumerate(zip(member.cuts, member.cheeks, strict=True))
    )
    return lower, upper


def has_cheeks(member: Member) -> bool:
    """Whether the blade is tilted at either end."""
    return any(end.is_cheek for end in stick_ends(member))


def side_cut_deg(cut: EndCut) -> float:
    """Angle of a cut across the top edge, off square [deg]; + where the right face is the shorter."""
    return degrees(atan2(cut.normal[2], abs(cut.normal[0]))) + 0.0


@dataclass(frozen=True, slots=True)
class TopLengths:
    """Lengths along the top edge from end to end [in]."""

    long_point: float
    """Of the longer face; of the middle where that is longest."""
    centre_line: float
    short_point: float


def top_lengths(member: Member) -> TopLengths:
    """Lengths of a member along its top edge."""
    lower, upper = stick_ends(member)
    stations = sorted({z for end in (lower, upper) for _, z in end.corners()} | {0.0})
    lengths = [upper.at(z) - lower.at(z) for z in stations]
    return TopLengths(max(lengths), upper.at(0.0) - lower.at(0.0), min(lengths))


def _on_top(cut: EndCut, top: float, z: float) -> float:
    assert cut.through is not None
    (nx, ny, nz), (x, y, at) = cut.normal, cut.through
    return x - (ny * (top - y) + nz * (z - at)) / nx


def _skew(cut: EndCut) -> float:
    return -cut.normal[2] / cut.normal[0]
