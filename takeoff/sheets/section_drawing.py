"""Sections through eave and ridge in the plane of a common rafter: how its ends meet what carries and closes them.

Level distances h run inward from the outside face of the wall framing, heights z from the top of the plate, as in
the rafter's own geometry.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import dist
from typing import TYPE_CHECKING

from takeoff.catalog.sheets import sheet_product
from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP, dot, unit
from takeoff.sheets.blocks import GAP_MM, MARGIN_MM, WIDTH_MM, Block, Part, fitted
from takeoff.sheets.clipping import clipped
from takeoff.sheets.drawing import (
    EDGE,
    HIDDEN,
    MM_PER_IN,
    OUTLINE,
    WASTE,
    Dimension,
    Drawing,
    Hatch,
    Item,
    Lettering,
    Line,
    Pen,
    Point,
)
from takeoff.sheets.face_sticks import part_of
from takeoff.sheets.free_space import FreeSpace
from takeoff.sheets.mark_labels import BESIDE_MM, LabelRow, labels
from takeoff.sheets.placing import first_free
from takeoff.sheets.rafter_tops import base_of
from takeoff.sheets.silhouette import reach_through, silhouette

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

    from takeoff.geometry.rafter import RafterGeometry
    from takeoff.model.building import FramedBuilding
    from takeoff.model.face import Face
    from takeoff.model.member import Member

_COMMON = "common-rafter"
_CARRIERS = ("ridge-beam", "ridge-board", "purlin-beam", "ledger")
_PLIES_IN = 3.0  # to the sides of the ridge's centre line
_OF_OPENINGS = ("header", "cripple", "king-stud", "jack-stud")
_ASKEW = 0.05  # cosine: less runs in the plane, and one less so much runs square to it
_EAVE_IN, _RIDGE_IN = 16.0, 16.0  # how far a section reaches into the building, and to the sides of the ridge
_AROUND_IN = 6.0
_HEIGHT_MM = 110.0
_LARGEST = 8.0  # inches of the thing to an inch of paper
_OFFSET_MM = 7.0
_ABOVE_PLATE_MM = (_OFFSET_MM, 10.0, 13.0, 17.0, 22.0)  # far enough off a steep roof for its words
_FAR_IN = 1e5


@dataclass(frozen=True, slots=True)
class _Part:
    """Something that the section shows: its outline, clipped or not, and how it is drawn."""

    words: str
    outline: BaseGeometry
    pen: Pen
    hatched: bool = False
    carries: bool = False
    """The rafter's upper end bears or hangs on it."""


class _Section:
    """One rafter and all that stands in its plane or touches its sides."""

    def __init__(self, building: FramedBuilding, rafter: Member, denominator: int) -> None:
        assert rafter.rafter is not None
        self.building, self.rafter, self.denominator = building, rafter, denominator
        self.geometry: RafterGeometry = rafter.rafter
        self.plane = _plane(rafter, self.geometry)
        self.parts = (*self._sticks(), *self._sheets())

    def _sticks(self) -> Iterator[_Part]:
        half = self.rafter.profile.thickness_in / 2
        for member in self.building.members:
            if self._is_elsewhere(member):
                continue
            near, far = reach_through(member, self.plane)
            if near > half + TOLERANCE.mark or far < -half - TOLERANCE.mark:
                continue
            outline = silhouette(member, self.plane)
            if near < -TOLERANCE.mark and far > TOLERANCE.mark:
                beside = member is self.rafter or (abs(member.placement.z[2]) < 0.5 and member.rafter is not None)
                carries = member.role.name in _CARRIERS
                yield _Part(member.mark, outline, OUTLINE if beside else EDGE, hatched=not beside, carries=carries)
            else:
                yield _Part(member.mark, outline, HIDDEN)

    def _is_elsewhere(self, member: Member) -> bool:
        """Whether a stick is of another minor roof, or of the main one and runs askew through the plane."""
        own, other = part_of(self.building, self.rafter), part_of(self.building, member)
        if own == other:
            return False
        return bool(other) or _ASKEW < abs(dot(member.placement.x, self.plane.z)) < 1 - _ASKEW

    def _sheets(self) -> Iterator[_Part]:
        """Sheathing that the plane cuts, panel by panel."""
        faces = {face.name: face for face in self.building.faces}
        for panel in self.building.panels:
            cut = _cut_of(panel.polygon, faces[panel.face], self.plane, sheet_product(panel.product).thickness_in)
            if cut is not None:
                yield _Part("", cut, EDGE)

    def eave(self, one_to: float) -> tuple[Item, ...]:
        """From past the tail to inside the wall."""
        g = self.geometry
        drop = g.plumb_depth + 2 * _AROUND_IN
        window = (-g.overhang - _AROUND_IN, g.top_at(-g.overhang) - drop, _EAVE_IN, g.top_at(_EAVE_IN) + _AROUND_IN)
        return tuple(self._shown(window, self._eave_dimensions(window), one_to))

    def ridge(self, one_to: float) -> tuple[Item, ...]:
        """To both sides of the ridge."""
        g = self.geometry
        top = g.top_at(g.run)
        low = min([top - g.plumb_depth, *self._ridge_feet()]) - _AROUND_IN
        window = (g.run - _RIDGE_IN, low, g.run + _RIDGE_IN, top + _AROUND_IN)
        return tuple(self._shown(window, self._ridge_dimensions(window, one_to), one_to))

    def _ridge_feet(self) -> list[float]:
        box = self._carrier()
        return [box[1]] if box else []

    def _carrier(self) -> tuple[float, float, float, float] | None:
        """What the plane cuts at the ridge's centre line: the beam or board with all its plies; None without one."""
        from shapely import LineString, union_all

        run = self.geometry.run
        line = LineString([(run, 0.0), (run, self.geometry.top_at(run) + 12.0)]).buffer(_PLIES_IN)
        plies = [part.outline for part in self.parts if part.carries and part.outline.intersects(line)]
        return union_all(plies).bounds if plies else None

    def _shown(
        self, window: tuple[float, float, float, float], dimensions: Iterable[Sequence[Dimension]], one_to: float
    ) -> Iterator[Item]:
        """What is in a window, its dimensions each in the first place that is free, and its marks."""
        from shapely import box

        frame = box(*window)
        lines: list[tuple[Point, Point]] = []
        rows: dict[tuple[str, int], LabelRow] = {}
        for part in self.parts:
            inside = part.outline.intersection(frame)
            if inside.is_empty or inside.area < TOLERANCE.mark:
                continue
            if part.hatched:
                yield from (Hatch(ring, WASTE, 1.2) for ring in _rings(inside))
            for run in clipped(part.outline.boundary, window, part.pen, part.words):
                lines += pairwise(run.points)
                yield run
            if part.words:  # of what stands at both sides of the rafter one label is enough
                rows.setdefault((part.words, 0 if part.pen is HIDDEN else len(rows)), _row(part.words, inside))
        plumb = self._heel_plumb(window)
        lines += ((line.a, line.b) for line in plumb)
        space = FreeSpace(lines)
        yield from plumb
        yield from [first_free(space, tries, one_to) for tries in dimensions]
        yield from labels(tuple(rows.values()), space, one_to)

    def _heel_plumb(self, window: tuple[float, float, float, float]) -> tuple[Line, ...]:
        """The plumb line over the outside of the wall, where the window shows it."""
        if not window[0] < 0.0 < window[2]:
            return ()
        return (Line((0.0, window[1]), (0.0, self.geometry.height_above_plate), HIDDEN),)

    def _eave_dimensions(self, window: tuple[float, float, float, float]) -> Iterator[tuple[Dimension, ...]]:
        g = self.geometry
        low = window[1]
        if g.overhang > TOLERANCE.length:
            yield (replace(self._dimension((-g.overhang, low), (0.0, low), -_OFFSET_MM, ""), outside_at_a=True),)
        if g.seat:
            yield (self._dimension((0.0, low), (g.seat, low), -_OFFSET_MM, "seat"),)
        heel = (0.0, 0.0), (0.0, g.height_above_plate)
        words = f"above {base_of(self.rafter, (self.building,))}"
        yield tuple(self._dimension(*heel, offset, words) for offset in _ABOVE_PLATE_MM)

    def _ridge_dimensions(
        self, window: tuple[float, float, float, float], one_to: float
    ) -> Iterator[tuple[Dimension, ...]]:
        left, _, right, _ = window
        carrier = self._carrier()
        if carrier is not None:
            x0, y0, x1, y1 = carrier
            level = (x0, y0), (x1, y0)
            yield tuple(
                replace(self._dimension(*level, -offset, ""), lettering="beside") for offset in (_OFFSET_MM, 10.0, 14.0)
            )
            beside = (right - x1) * MM_PER_IN / one_to + _OFFSET_MM
            yield (self._dimension((x1, y0), (x1, y1), -beside, ""),)
            gap = self.geometry.top_at(x0) - y1
            if gap > TOLERANCE.mark:
                # A purlin stands behind the head of a lower rafter, a ridge is centred on it.
                what = "above the purlin" if x0 > self.geometry.run - TOLERANCE.mark else "proud of the ridge"
                beside = (x0 - left) * MM_PER_IN / one_to + _OFFSET_MM
                yield (self._dimension((x0, y1), (x0, y1 + gap), beside, what),)

    def _dimension(self, a: Point, b: Point, offset_mm: float, label: str) -> Dimension:
        lettering: Lettering = "after" if label else "along"
        return Dimension(a=a, b=b, offset_mm=offset_mm, label=label, lettering=lettering, denominator=self.denominator)


def section_drawings(building: FramedBuilding, *, name: str, denominator: int = 16) -> tuple[Drawing, ...]:
    """Both ends of a building's rafters, one drawing for each kind of common rafter.

    Args:
        building: framed, sheathed and marked.
        name: of the drawings, fit for a file; each has the rafter's mark behind it.
        denominator: figures are shown to one over this of an inch.
    """
    return tuple(_drawing(building, rafter, f"{name}-{rafter.mark}", denominator) for rafter in _rafters(building))


def _drawing(building: FramedBuilding, rafter: Member, name: str, denominator: int) -> Drawing:
    blocks = tuple(_blocks(_Section(building, rafter, denominator)))
    height = max(block.tall for block in blocks) + 2 * MARGIN_MM
    half = (WIDTH_MM - 2 * MARGIN_MM) / 2
    return Drawing(
        name=name,
        title=f"{building.name}: sections at both ends of {rafter.mark}",
        description="Hatched is cut through; dashed stands beside the rafter.",
        width_mm=WIDTH_MM,
        height_mm=height,
        views=tuple(block.placed(MARGIN_MM + k * half, height - MARGIN_MM) for k, block in enumerate(blocks)),
    )


def _blocks(section: _Section) -> Iterator[Block]:
    room = (WIDTH_MM - 2 * MARGIN_MM - GAP_MM) / 2
    mark = section.rafter.mark
    yield fitted(Part(f"lower-{mark}", f"Lower end of {mark}", section.eave), room, _HEIGHT_MM, least=_LARGEST)
    yield fitted(Part(f"upper-{mark}", f"Upper end of {mark}", section.ridge), room, _HEIGHT_MM, least=_LARGEST)


def _rafters(building: FramedBuilding) -> list[Member]:
    """One common rafter of each mark, from the middle of its row, over no opening if there is such a one."""
    marks: dict[str, list[Member]] = {}
    for member in building.members:
        if member.role.name == _COMMON and member.rafter is not None:
            marks.setdefault(member.mark, []).append(member)
    framing = [member for member in building.members if member.role.name in _OF_OPENINGS]
    return [_clear_one(row, framing) for row in marks.values()]


def _clear_one(row: list[Member], framing: list[Member]) -> Member:
    middle = len(row) // 4
    for rafter in sorted(row, key=lambda one: abs(row.index(one) - middle)):
        assert rafter.rafter is not None
        plane = _plane(rafter, rafter.rafter)
        reaches = (reach_through(member, plane) for member in framing)
        if not any(near < TOLERANCE.mark and far > -TOLERANCE.mark for near, far in reaches):
            return rafter
    return row[middle]


def _plane(rafter: Member, geometry: RafterGeometry) -> Placement:
    """Axes of the section: its origin on the plate at the outside of the wall framing, in the middle of the rafter."""
    heel = rafter.placement.to_world((*geometry.to_stick(0.0, 0.0), 0.0))
    along = rafter.placement.x
    return Placement(heel, unit((along[0], along[1], 0.0)), UP)


def _cut_of(polygon: Polygon, face: Face, plane: Placement, thickness: float) -> BaseGeometry | None:
    """The part of a sheet that a plane cuts, as a thin quadrilateral in it; None where it doesn't."""
    from shapely import LineString, Polygon, get_parts

    # How far a point of the face is before the plane: s + su * u + sv * v.
    s, su, sv = (
        plane.from_world(face.placement.origin)[2],
        dot(face.placement.x, plane.z),
        dot(face.placement.y, plane.z),
    )
    steep = su * su + sv * sv
    if steep < 0.5:
        return None
    u, v = -s * su / steep, -s * sv / steep
    line = LineString([(u - sv * _FAR_IN, v + su * _FAR_IN), (u + sv * _FAR_IN, v - su * _FAR_IN)])
    inside = polygon.intersection(line)
    if inside.is_empty or inside.length < TOLERANCE.mark:
        return None
    ends = sorted(point for part in get_parts(inside) for point in part.coords)
    corners = [(*ends[0], 0.0), (*ends[-1], 0.0), (*ends[-1], thickness), (*ends[0], thickness)]
    points = (plane.from_world(face.placement.to_world(corner)) for corner in corners)
    return Polygon([(h, z) for h, z, _ in points])


def _row(words: str, inside: BaseGeometry) -> LabelRow:
    """A label along the middle of what is seen of a stick, or on it where it is wide enough."""
    from shapely import Polygon

    box = inside.minimum_rotated_rectangle
    if not isinstance(box, Polygon):
        x0, y0, x1, y1 = inside.bounds
        return LabelRow(words=words, lines=(((x0, y0), (x1, y1)),))
    a, b, c, d = list(box.exterior.coords)[:4]
    if dist(a, b) < dist(b, c):
        a, b, c, d = b, c, d, a
    line = (((a[0] + d[0]) / 2, (a[1] + d[1]) / 2), ((b[0] + c[0]) / 2, (b[1] + c[1]) / 2))
    return LabelRow(words=words, lines=(line,), off_mm=(0.0, *BESIDE_MM))


def _rings(shape: BaseGeometry) -> Iterator[tuple[Point, ...]]:
    from shapely import Polygon, get_parts

    for part in get_parts(shape):
        if isinstance(part, Polygon):
            yield tuple((float(x), float(y)) for x, y in part.exterior.coords)
