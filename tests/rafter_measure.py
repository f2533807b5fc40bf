"""What tests measure on placed sticks, with tape and square: off their outlines in the world, not by their formulas."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import acos, degrees, hypot

from shop import with_role

from takeoff.geometry.polygon import corners
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member

Point = tuple[float, float]

SNAP = 1e-6
"""Corners this near are level with, or plumb over, each other [in]."""


@dataclass(frozen=True, slots=True)
class Cut:
    """A straight cut of the outline, low end first where it is plumb, outer end first where it is level."""

    a: Point
    b: Point

    @property
    def length(self) -> float:
        """Along the cut [in]."""
        return hypot(self.b[0] - self.a[0], self.b[1] - self.a[1])


@dataclass(frozen=True, slots=True)
class Section:
    """A rafter's outline in the vertical plane it stands in.

    Points are (level from the outside face of the wall, inward; height above the plate), both [in].
    """

    ring: tuple[Point, ...]

    @property
    def plumb_cuts(self) -> tuple[Cut, ...]:
        """Upright edges, from the tail to the ridge."""
        upright = [edge for edge in self._edges() if _same(edge[0][0], edge[1][0])]
        return tuple(Cut(*sorted(edge, key=lambda point: point[1])) for edge in sorted(upright, key=min))

    @property
    def seat(self) -> Cut:
        """The one level edge."""
        (level,) = (Cut(*sorted(edge)) for edge in self._edges() if _same(edge[0][1], edge[1][1]))
        return level

    @property
    def tail_cut(self) -> Cut:
        """Plumb cut at the tail."""
        return self.plumb_cuts[0]

    @property
    def heel(self) -> Cut:
        """Plumb cut of the bird's mouth, that of a rafter with an overhang."""
        _, heel, _ = self.plumb_cuts
        return heel

    @property
    def ridge_cut(self) -> Cut:
        """Plumb cut at the ridge."""
        return self.plumb_cuts[-1]

    @property
    def slope(self) -> float:
        """Rise of the top edge for one of run."""
        (h0, z0), (h1, z1) = self.tail_cut.b, self.ridge_cut.b
        return (z1 - z0) / (h1 - h0)

    def top_at(self, h: float) -> Point:
        """Where the plumb line at ``h`` meets the top edge, or the straightedge held along it."""
        h0, z0 = self.tail_cut.b
        return (h, z0 + (h - h0) * self.slope)

    def along(self, h0: float, h1: float) -> float:
        """Tape along the top edge between two plumb lines [in]."""
        return Cut(self.top_at(h0), self.top_at(h1)).length

    def off_square(self, cut: Cut) -> float:
        """Angle between a cut and the square held on the top edge [deg]."""
        top = Cut(self.tail_cut.b, self.ridge_cut.b)
        along = sum((t1 - t0) * (c1 - c0) for t0, t1, c0, c1 in zip(top.a, top.b, cut.a, cut.b, strict=True))
        return 90 - degrees(acos(abs(along) / (top.length * cut.length)))

    def below_top(self, point: Point) -> float:
        """Square off the top edge to a point [in]."""
        h, z = point
        return (self.top_at(h)[1] - z) / hypot(1, self.slope)

    def underside_at(self, h: float) -> float:
        """Height at ``h`` of the edge that runs down from the foot of the ridge cut, or of its line drawn on."""
        (h1, z1) = foot = self.ridge_cut.a
        ((h0, z0),) = (b if a == foot else a for a, b in self._edges() if foot in (a, b) and not _same(a[0], b[0]))
        return z0 + (h - h0) * (z1 - z0) / (h1 - h0)

    def _edges(self) -> tuple[tuple[Point, Point], ...]:
        return tuple(zip(self.ring, (*self.ring[1:], self.ring[0]), strict=True))


def _same(a: float, b: float) -> bool:
    return abs(a - b) < SNAP


def section(framed: FramedBuilding, role: str = "common-rafter") -> Section:
    """The first rafter of that role over the south wall, which stands with its outside face on y = 0."""
    member = south(framed, role)[0]
    plate = plate_top(framed)
    placed = (member.placement.to_world((x, y, 0.0)) for x, y in corners(member.side))
    return Section(tuple((y, z - plate) for _, y, z in placed))


def south(framed: FramedBuilding, role: str) -> tuple[Member, ...]:
    """Members of that role on the south slope or its rakes, west to east."""
    found = [m for m in with_role(framed.members, role) if m.face.startswith("south slope")]
    return tuple(sorted(found, key=lambda member: member.placement.origin[0]))


def plate_top(framed: FramedBuilding) -> float:
    """Top of the south wall's cap plates, which lie flat [in]."""
    tops = {
        m.placement.origin[2] + m.profile.thickness_in / 2
        for m in with_role(framed.members, "cap-plate")
        if m.face == "south"
    }
    (top,) = tops
    return top


def ridge_centre(framed: FramedBuilding) -> float:
    """Level from the outside face of the south wall to the middle of the ridge's thickness [in]."""
    middles = {m.placement.origin[1] for m in with_role(framed.members, "ridge-beam", "ridge-board")}
    (middle,) = middles
    return middle


def gable_stud_tops(framed: FramedBuilding, face: str) -> tuple[Point, ...]:
    """Of the studs that reach a gable's rake, south to north: (y of the centre, height of the long point) [in]."""
    studs = (m for m in with_role(framed.members, "gable-stud") if m.face == face)
    return tuple(sorted((m.placement.origin[1], m.placement.to_world((m.length_in, 0.0, 0.0))[2]) for m in studs))


def steps_of(studs: Sequence[Point], spacing: float, peak: float) -> tuple[float, ...]:
    """Difference of each two neighbouring gable studs ``spacing`` apart that stand south of the peak [in].

    Studs are (y of the centre, a height or length), south to north; one that the corner needs is off the layout.
    """
    pairs = pairwise(studs)
    return tuple(b[1] - a[1] for a, b in pairs if _same(b[0] - a[0], spacing) and b[0] < peak - SNAP)
