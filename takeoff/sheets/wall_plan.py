"""The walls in plan, cut at the height of a table: plates with the uprights on them, openings, lengths, north up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from math import atan2, degrees
from typing import TYPE_CHECKING

from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.sheets.blocks import WIDTH_MM, Part, alone
from takeoff.sheets.drawing import (
    EDGE,
    GUIDE,
    MM_PER_IN,
    SMALL,
    Dimension,
    Drawing,
    Item,
    Lettering,
    Line,
    Point,
    Polyline,
    Text,
)
from takeoff.sheets.extent import lines_of
from takeoff.sheets.free_space import FreeSpace
from takeoff.sheets.mark_labels import readable
from takeoff.sheets.north import north_arrow
from takeoff.sheets.placing import first_free, free_one, stand
from takeoff.sheets.plan_scale import scale_for, scale_words
from takeoff.sheets.silhouette import reach_through, silhouette

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.geometry.outline import Edge
    from takeoff.model.building import FramedBuilding
    from takeoff.model.face import Face

CUT_IN = 40.0
"""Height of the cut over the deck [in]: through windows and doors."""

_PLAN = Placement((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
_BOTTOM_PLATE = "bottom-plate"
_HEIGHT_MM = 190.0
_BESIDE_MM = 18.0
_DIMENSION_MM, _SIZE_MM, _NAME_MM = 11.0, 4.0, 5.0  # off the outside of a wall; its name, inside
_OUTSIDE_MM = (_DIMENSION_MM, 15.0, 7.5, 19.0, 5.0, -9.0, -13.0, -17.0)  # lengths of walls, off their outsides
_PARTITION_MM = (5.0, -9.0, 8.0, -12.0, 12.0, 16.0, -16.0, 20.0, -20.0, 25.0, -25.0)  # off their right-hand sides
_ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.14, 0.86, 0.45, 0.55, 0.35, 0.65, 0.25, 0.75, 0.08, 0.92)
_WORDS_MM = 2.0


class WallPlan:
    """Records the plan for the scale that it goes on the paper at."""

    def __init__(self, building: FramedBuilding, denominator: int) -> None:
        self.denominator = denominator
        # Walls of a dormer stand on the roof, not in the plan.
        self.faces = tuple(face for face in building.faces if face.kind == "wall" and not face.part)
        names = {face.name for face in self.faces}
        members = [member for member in building.members if member.face in names]
        lying = [member for member in members if member.role.name == _BOTTOM_PLATE]
        self.plates = [silhouette(member, _PLAN) for member in lying]
        self.depths = {
            face.name: max((-reach_through(m, face.placement)[0] for m in lying if m.face == face.name), default=0.0)
            for face in self.faces
        }
        reaches = ((member, reach_through(member, _PLAN)) for member in members)
        self.cut = [(m.mark, silhouette(m, _PLAN)) for m, (low, high) in reaches if low < CUT_IN < high]
        boxes = [shape.bounds for shape in (*self.plates, *(shape for _, shape in self.cut))]
        self.x0, self.y0 = min(b[0] for b in boxes), min(b[1] for b in boxes)
        self.x1, self.y1 = max(b[2] for b in boxes), max(b[3] for b in boxes)
        wide, tall = self.x1 - self.x0, self.y1 - self.y0
        self.one_to = scale_for(wide, tall, WIDTH_MM - 2 * _BESIDE_MM, _HEIGHT_MM - 2 * _BESIDE_MM)
        self.k = self.one_to / MM_PER_IN

    def items(self) -> Iterator[Item]:
        """Plates under uprights under openings, then dimensions and words where there is room for them."""
        drawn: list[Item] = [Polyline(_ring(shape), SMALL, closed=True) for shape in self.plates]
        drawn += [Polyline(_ring(shape), EDGE, closed=True, mark=mark) for mark, shape in self.cut]
        drawn += [line for face in self.faces for line in self._crosses(face)]
        yield from drawn
        space = FreeSpace(lines_of(drawn, self.one_to))
        beside = self.x1 + _DIMENSION_MM * self.k  # clear of the lengths outside the walls
        arrow = tuple(north_arrow((beside, self.y1), self.k))
        stand(space, arrow, self.one_to)
        yield from arrow
        outside = [face for face in self.faces if not is_partition(face)]
        # In an inner corner two lengths would cross each other's figures.
        tries = ([self._length(face, off) for off in _OUTSIDE_MM] for face in outside)
        yield from [first_free(space, each, self.one_to) for each in tries]
        partitions = [face for face in self.faces if is_partition(face)]
        needed = [*filter(None, (tuple(self._from_wall(face)) for face in partitions)), *self._sizes_and_names()]
        yield from [first_free(space, tries, self.one_to) for tries in needed]
        # Lengths of partitions stand on their own sheets too.
        lengths = ([self._length(face, off) for off in _PARTITION_MM] for face in partitions)
        yield from filter(None, (free_one(space, tries, self.one_to) for tries in lengths))

    def _sizes_and_names(self) -> Iterator[Sequence[Item]]:
        """What may stand in one place or another of openings and walls."""
        for face in self.faces:
            for number, hole in enumerate(face.outline.holes, start=1):
                yield self._sizes(face, number, hole)
        yield from (self._names(face) for face in self.faces)

    def _length(self, face: Face, off_mm: float) -> Dimension:
        """Over all of a wall, outside it."""
        u0, _, u1, _ = face.outline.bounds
        a, b = _at(face, u0, 0.0), _at(face, u1, 0.0)
        return Dimension(a=a, b=b, offset_mm=-off_mm, denominator=self.denominator)

    def _from_wall(self, face: Face) -> Iterator[Dimension]:
        """From the outside of the nearest wall along a partition to the partition's centre line."""
        u0, _, u1, _ = face.outline.bounds
        centre = -self.depths[face.name] / 2
        walls = [wall for wall in self.faces if not is_partition(wall) and _is_parallel(wall, face)]
        away = {wall.name: abs(_beyond(wall, _at(face, u0, centre))) for wall in walls}
        nearest = sorted(walls, key=lambda each: (round(away[each.name], 3), each.name))[:1]
        letterings: tuple[Lettering, ...] = ("along", "after")
        for wall, lettering in product(nearest, letterings):
            for share in _ALONG:
                x, y = _at(face, u0 + (u1 - u0) * share, centre)
                u, _, out = wall.placement.from_world((x, y, 0.0))
                if abs(out) > TOLERANCE.mark:
                    yield Dimension(
                        a=_at(wall, u, 0.0), b=(x, y), offset_mm=0.0, lettering=lettering, denominator=self.denominator
                    )

    def _crosses(self, face: Face) -> Iterator[Line]:
        """Diagonals across each opening of a wall."""
        depth = self.depths[face.name]
        for hole in face.outline.holes:
            us = [edge.a[0] for edge in hole]
            yield Line(_at(face, min(us), 0.0), _at(face, max(us), -depth), GUIDE)
            yield Line(_at(face, max(us), 0.0), _at(face, min(us), -depth), GUIDE)

    def _sizes(self, face: Face, number: int, hole: tuple[Edge, ...]) -> list[Text]:
        """Number and rough size of an opening, outside it, else inside."""
        us, vs = [edge.a[0] for edge in hole], [edge.a[1] for edge in hole]
        size = " × ".join(format_length(max(s) - min(s), denominator=self.denominator) for s in (us, vs))
        middle = (min(us) + max(us)) / 2
        outs = (_SIZE_MM * self.k, -self.depths[face.name] - _SIZE_MM * self.k)
        offs = [mm * self.k for mm in (0.0, -6.0, 6.0, -12.0, 12.0)]
        words = (f"{number}: {size}", str(number))
        return [self._text(face, middle + off, out, each) for each in words for off in offs for out in outs]

    def _names(self, face: Face) -> list[Text]:
        """The name of a wall along its inside, near its middle."""
        u0, _, u1, _ = face.outline.bounds
        out = -self.depths[face.name] - _NAME_MM * self.k
        further = out - _NAME_MM * self.k
        sides = (out, _NAME_MM * self.k, further) if is_partition(face) else (out, further, 2 * further - out)
        return [self._text(face, u0 + (u1 - u0) * share, side, face.name) for share in _ALONG for side in sides]

    def _text(self, face: Face, u: float, out: float, words: str) -> Text:
        x, y, _ = face.placement.x
        turn = readable(degrees(atan2(y, x)))
        at = _at(face, u, out)
        return Text(at=at, words=words, height_mm=_WORDS_MM, anchor="middle", level="middle", turned_deg=turn)


def is_partition(face: Face) -> bool:
    """Whether a wall stands inside."""
    return face.seen_from != "outside"


def wall_plan(building: FramedBuilding, *, name: str, denominator: int = 16) -> Drawing | None:
    """The walls of a building in plan; None where no bottom plate lies.

    Args:
        building: framed and marked.
        name: of the drawing, fit for a file.
        denominator: figures are shown to one over this of an inch.
    """
    if not any(member.role.name == _BOTTOM_PLATE for member in building.members):
        return None
    plan = WallPlan(building, denominator)
    items = tuple(plan.items())
    part = Part("walls", f"Wall layout plan{scale_words(plan.one_to)}", lambda _: items)
    return alone(
        part,
        plan.one_to,
        name=name,
        title=f"{building.name}: wall layout plan",
        description=f"Seen from above, north up. {len(plan.cut)} uprights, {len(plan.plates)} bottom plates.",
    )


def _is_parallel(wall: Face, other: Face) -> bool:
    (ax, ay, _), (bx, by, _) = wall.placement.x, other.placement.x
    return abs(ax * by - ay * bx) < TOLERANCE.length


def _beyond(wall: Face, point: Point) -> float:
    """How far a point lies off the outside of a wall [in]."""
    return wall.placement.from_world((*point, 0.0))[2]


def _at(face: Face, u: float, out: float) -> Point:
    x, y, _ = face.placement.to_world((u, 0.0, out))
    return (x, y)


def _ring(shape: Polygon) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in list(shape.exterior.coords)[:-1])
