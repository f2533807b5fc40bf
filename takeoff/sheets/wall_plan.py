"""The walls in plan, cut at the height of a table: plates with the uprights on them, openings, lengths, north up."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, degrees
from typing import TYPE_CHECKING

from takeoff.geometry.placement import Placement
from takeoff.measure import format_length
from takeoff.sheets.blocks import WIDTH_MM, Part, alone
from takeoff.sheets.drawing import EDGE, GUIDE, MM_PER_IN, SMALL, Dimension, Drawing, Item, Line, Point, Polyline, Text
from takeoff.sheets.mark_labels import readable
from takeoff.sheets.north import north_arrow
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
        """Plates under uprights under openings and figures."""
        yield from (Polyline(_ring(shape), SMALL, closed=True) for shape in self.plates)
        yield from (Polyline(_ring(shape), EDGE, closed=True, mark=mark) for mark, shape in self.cut)
        for face in self.faces:
            yield from self._wall(face)
        beside = self.x1 + _DIMENSION_MM * self.k  # clear of the lengths outside the walls
        yield from north_arrow((beside, self.y1), self.k)

    def _wall(self, face: Face) -> Iterator[Item]:
        """Its name inside, its openings, its length outside."""
        u0, _, u1, _ = face.outline.bounds
        a, b = _at(face, u0, 0.0), _at(face, u1, 0.0)
        yield Dimension(a=a, b=b, offset_mm=-_DIMENSION_MM, denominator=self.denominator)
        depth = self.depths[face.name]
        yield self._text(face, (u0 + u1) / 2, -depth - _NAME_MM * self.k, face.name)
        for number, hole in enumerate(face.outline.holes, start=1):
            yield from self._opening(face, number, hole, depth)

    def _opening(self, face: Face, number: int, hole: tuple[Edge, ...], depth: float) -> Iterator[Item]:
        us, vs = [edge.a[0] for edge in hole], [edge.a[1] for edge in hole]
        left, right = min(us), max(us)
        yield Line(_at(face, left, 0.0), _at(face, right, -depth), GUIDE)
        yield Line(_at(face, right, 0.0), _at(face, left, -depth), GUIDE)
        size = " × ".join(format_length(max(s) - min(s), denominator=self.denominator) for s in (us, vs))
        yield self._text(face, (left + right) / 2, _SIZE_MM * self.k, f"{number}: {size}")

    def _text(self, face: Face, u: float, out: float, words: str) -> Text:
        x, y, _ = face.placement.x
        turn = readable(degrees(atan2(y, x)))
        at = _at(face, u, out)
        return Text(at=at, words=words, height_mm=_WORDS_MM, anchor="middle", level="middle", turned_deg=turn)


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


def _at(face: Face, u: float, out: float) -> Point:
    x, y, _ = face.placement.to_world((u, 0.0, out))
    return (x, y)


def _ring(shape: Polygon) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in list(shape.exterior.coords)[:-1])
