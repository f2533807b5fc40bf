"""The framing plan of a roof: every stick as a line in plan over the outline of the walls, to scale, north up."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from copy import copy
from typing import TYPE_CHECKING

from takeoff.sheets.blocks import WIDTH_MM, Part, alone
from takeoff.sheets.drawing import (
    EAVES,
    MM_PER_IN,
    WALLS,
    Dimension,
    Drawing,
    Item,
    Line,
    Point,
    Polyline,
    Text,
)
from takeoff.sheets.extent import lines_of
from takeoff.sheets.face_sticks import part_of
from takeoff.sheets.free_space import FreeSpace
from takeoff.sheets.mark_labels import LabelRow, labels
from takeoff.sheets.north import north_arrow
from takeoff.sheets.placing import first_free, stand
from takeoff.sheets.plan_scale import scale_for, scale_words
from takeoff.sheets.roof_sticks import RoofStick, roof_sticks, stick_groups
from takeoff.sheets.slope_arrows import in_plan, slope_arrows

if TYPE_CHECKING:
    from takeoff.geometry.outline import Edge
    from takeoff.model.building import FramedBuilding
    from takeoff.model.face import Face

_HEIGHT_MM = 208.0
_BESIDE_MM = 16.0  # left and below, for dimensions; right, for the north arrow
_NUMBER_MM = 2.2
_BETWEEN = ((0.5, 0.2), (0.5, 0.8), (0.3, 0.5), (0.7, 0.5), (0.4, 0.2), (0.6, 0.2), (0.4, 0.8), (0.6, 0.8))
_NUMBER_SPOTS = (*_BETWEEN, (-0.35, 0.5), (1.35, 0.5), (-0.9, 0.5), (1.9, 0.5))
"""Where the number of an opening may stand, as shares of its extent: between its diagonals, beside a small one."""

_DIMENSION_MM = 6.0  # outside the eaves


class RoofDrawing:
    """Records the plan for the scale that it goes on the paper at."""

    def __init__(self, building: FramedBuilding, denominator: int) -> None:
        self.building = building
        self.denominator = denominator
        self.slopes = tuple(face for face in building.faces if face.kind == "slope")
        self.sticks = roof_sticks(building)
        self.lettered = tuple(stick for stick in self.sticks if not self._enlarged(stick))
        self.walls = tuple(_wall_line(face) for face in building.faces if face.kind == "wall")
        self.eaves = tuple(line for face in self.slopes for line in _outer_lines(face))
        points = [point for line in (*self.walls, *self.eaves) for point in line]
        points += [point for stick in self.sticks for point in (stick.a, stick.b)]
        self.x0, self.y0 = min(x for x, _ in points), min(y for _, y in points)
        self.x1, self.y1 = max(x for x, _ in points), max(y for _, y in points)
        wide, tall = self.x1 - self.x0, self.y1 - self.y0
        self.one_to = scale_for(wide, tall, WIDTH_MM - 2 * _BESIDE_MM, _HEIGHT_MM - _BESIDE_MM)

    @property
    def k(self) -> float:
        """Inches of the roof to a millimetre of paper."""
        return self.one_to / MM_PER_IN

    def at(self, one_to: float) -> RoofDrawing:
        """The same at another scale."""
        other = copy(self)
        other.one_to = one_to
        return other

    def items(self) -> Iterator[Item]:
        """Lines and figures first, then arrows and marks where there is room between them."""
        yield from (Line(a, b, EAVES) for a, b in self.eaves)
        yield from (Line(a, b, WALLS) for a, b in self.walls)
        yield from (Polyline((s.a, s.b), s.pen, mark=s.member.mark) for s in self.sticks)
        yield from self.openings()
        space = FreeSpace([*self.eaves, *self.walls, *((s.a, s.b) for s in self.sticks)])
        for line in lines_of(self.openings(), self.one_to):
            space.draw(line)
        standing = (*self.dimensions(), *north_arrow((self.x1, self.y1), self.k))
        stand(space, standing, self.one_to)
        yield from standing
        yield from [first_free(space, tries, self.one_to) for tries in self.opening_numbers()]
        yield from slope_arrows(self.slopes, space, self.one_to)
        yield from labels((*map(_row, stick_groups(self.lettered)), *self._part_rows()), space, self.one_to)

    def _part_rows(self) -> Iterator[LabelRow]:
        """Names of minor roofs, whose sticks are lettered on plans of their own."""
        parts: dict[str, list[RoofStick]] = {}
        for stick in self.sticks:
            if part := self._enlarged(stick):
                parts.setdefault(part, []).append(stick)
        for part, sticks in parts.items():
            longest = max(sticks, key=lambda stick: (round(stick.length, 3), stick.member.mark))
            yield LabelRow(words=part, lines=((longest.a, longest.b),))

    def _enlarged(self, stick: RoofStick) -> str:
        """The minor roof that a stick of a larger plan belongs to."""
        return part_of(self.building, stick.member) if any(not face.part for face in self.slopes) else ""

    def openings(self) -> Iterator[Item]:
        """Openings in the slopes, with their diagonals."""
        for face, hole in slope_holes(self.slopes):
            corners = _plan_points(face, [edge.a for edge in hole])
            yield Polyline(corners, EAVES, closed=True)
            yield Line(corners[0], corners[2], EAVES)
            yield Line(corners[1], corners[3], EAVES)

    def opening_numbers(self) -> Iterator[tuple[Text, ...]]:
        """Numbers of the openings, each wherever it may stand between its diagonals; the sheet has a table of them."""
        for number, (face, hole) in enumerate(slope_holes(self.slopes), start=1):
            us, vs = [edge.a[0] for edge in hole], [edge.a[1] for edge in hole]
            wide, tall = max(us) - min(us), max(vs) - min(vs)
            spots = [(min(us) + x * wide, min(vs) + y * tall) for x, y in _NUMBER_SPOTS]
            yield tuple(
                Text(at=at, words=str(number), height_mm=_NUMBER_MM, anchor="middle", level="middle")
                for at in _plan_points(face, spots)
            )

    def dimensions(self) -> Iterator[Item]:
        """Over all of the walls, below and to the left."""
        points = [point for line in self.walls for point in line]
        if not points:
            return
        left, right = min(x for x, _ in points), max(x for x, _ in points)
        low, high = min(y for _, y in points), max(y for _, y in points)
        below = (low - self.y0) / self.k + _DIMENSION_MM
        beside = (left - self.x0) / self.k + _DIMENSION_MM
        for a, b, offset in (((left, low), (right, low), -below), ((left, low), (left, high), beside)):
            yield Dimension(a=a, b=b, offset_mm=offset, denominator=self.denominator)


def roof_drawing(building: FramedBuilding, *, name: str, denominator: int = 16) -> Drawing | None:
    """The framing plan of a building's roof; None where it has no slopes.

    Args:
        building: framed and marked.
        name: of the drawing, fit for a file.
        denominator: figures are shown to one over this of an inch.
    """
    if not any(face.kind == "slope" for face in building.faces):
        return None
    plan = RoofDrawing(building, denominator)
    caption = f"Roof framing plan{scale_words(plan.one_to)}"
    items = tuple(plan.items())
    return alone(
        Part("plan", caption, lambda _: items),
        plan.one_to,
        name=name,
        title=f"{building.name}: roof framing plan",
        description=_description(plan.sticks),
    )


def not_lettered(building: FramedBuilding, drawings: Sequence[Drawing]) -> tuple[str, ...]:
    """Marks of the roof that its plans had no room for."""
    views = [view for drawing in drawings for view in drawing.views]
    words = {item.words.split(" ")[0] for view in views for item in view.items if isinstance(item, Text)}
    return tuple(dict.fromkeys(s.member.mark for s in roof_sticks(building) if s.member.mark not in words))


def _description(sticks: tuple[RoofStick, ...]) -> str:
    counts: dict[str, int] = {}
    for stick in sticks:
        words = stick.member.role.words.split(",")[0]
        counts[words] = counts.get(words, 0) + 1
    return "Seen from above, north up. " + ", ".join(f"{words}: {number}" for words, number in counts.items()) + "."


def _row(group: tuple[RoofStick, ...]) -> LabelRow:
    mark = group[0].member.mark
    counted = f"{mark} ({len(group)})" if len(group) > 1 else ""
    return LabelRow(words=mark, counted=counted, lines=tuple((stick.a, stick.b) for stick in group))


def _wall_line(face: Face) -> tuple[Point, Point]:
    """The outside of a wall in plan."""
    u0, _, u1, _ = face.outline.bounds
    (ax, ay, _), (bx, by, _) = (face.placement.to_world((u, 0.0, 0.0)) for u in (u0, u1))
    return (ax, ay), (bx, by)


def slope_holes(slopes: Iterable[Face]) -> Iterator[tuple[Face, tuple[Edge, ...]]]:
    """Openings of slopes, in the order that the plan and its table number them in."""
    return ((face, hole) for face in slopes for hole in face.outline.holes)


def _plan_points(face: Face, points: Iterable[Point]) -> tuple[Point, ...]:
    worlds = (face.placement.to_world((u, v, 0.0)) for u, v in points)
    return tuple((x, y) for x, y, _ in worlds)


def _outer_lines(face: Face) -> Iterator[tuple[Point, Point]]:
    """Eaves and rakes of a slope in plan."""
    corners = [(float(x), float(y)) for x, y in in_plan(face).exterior.coords]
    for edge, a, b in zip(face.outline.edges, corners, corners[1:], strict=False):
        if edge.role in ("eave", "rake"):
            yield a, b
