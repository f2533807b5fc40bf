"""Which sticks belong on the elevation of a face, and which of them lie one behind the other."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from math import dist
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.sheets.drawing import Point
from takeoff.sheets.silhouette import reach_through, silhouette

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.model.building import FramedBuilding
    from takeoff.model.face import Face
    from takeoff.model.member import Member


@dataclass(frozen=True, slots=True)
class FaceStick:
    """Sticks that show as one on a face, since they lie one behind the other: plies of a header and its spacer."""

    marks: tuple[str, ...]
    outline: Polygon
    """On the face [in]."""

    @property
    def words(self) -> str:
        """Its marks, each once, with how many there are of it where there are more: ``2 H1, HS1``."""
        return ", ".join(
            mark if (number := self.marks.count(mark)) == 1 else f"{number} {mark}"
            for mark in dict.fromkeys(self.marks)
        )

    @property
    def line(self) -> tuple[Point, Point]:
        """Along its middle, from end to end of its longer sides."""
        a, b, c, d = self._box
        if dist(a, b) >= dist(b, c):
            return _middle(a, d), _middle(b, c)
        return _middle(a, b), _middle(c, d)

    @property
    def width(self) -> float:
        """Across that line [in]."""
        a, b, c, _ = self._box
        return min(dist(a, b), dist(b, c))

    @property
    def _box(self) -> tuple[Point, Point, Point, Point]:
        """Corners of the least rectangle around it."""
        from shapely import Polygon

        box = self.outline.minimum_rotated_rectangle
        if not isinstance(box, Polygon):
            raise ValueError(f"{self.words} has no extent on the face")
        a, b, c, d = ((float(x), float(y)) for x, y in list(box.exterior.coords)[:4])
        return a, b, c, d


def _middle(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)


def face_sticks(building: FramedBuilding, face: Face) -> tuple[FaceStick, ...]:
    """The sticks of a face; on a wall that ends in rakes, also those of the roof that stand in its thickness.

    In the order of the building's members.
    """
    seen = [(member, silhouette(member, face.placement)) for member in _members(building, face)]
    keyed = sorted(((_key(outline), k) for k, (_, outline) in enumerate(seen)))
    groups = [[k for _, k in group] for _, group in groupby(keyed, key=lambda one: one[0])]
    return tuple(
        FaceStick(tuple(seen[k][0].mark for k in group), seen[group[0]][1]) for group in sorted(groups, key=min)
    )


def _members(building: FramedBuilding, face: Face) -> list[Member]:
    walls = {each.name for each in building.faces if each.kind != "slope"}
    own = [member for member in building.members if member.face == face.name]
    if face.kind != "wall" or not face.outline.edges_with("rake"):
        return own
    return own + [
        member
        for member in building.members
        if member.face not in walls and part_of(building, member) == face.part and _stands_in(member, face)
    ]


def part_of(building: FramedBuilding, member: Member) -> str:
    """The minor roof that a stick belongs to; empty for one of the main building."""
    parts = {face.part for face in building.faces if face.part and face.part in member.face}
    return max(parts, key=lambda part: (len(part), part), default="")


def _stands_in(member: Member, face: Face) -> bool:
    """Whether a stick reaches from within a wall to its outside, or through it."""
    near, far = reach_through(member, face.placement)
    return near < -TOLERANCE.mark and far > -TOLERANCE.mark


def _key(outline: Polygon) -> tuple[int, ...]:
    return tuple(round(16 * value) for value in (*outline.bounds, outline.area))
