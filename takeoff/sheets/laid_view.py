"""What of a dormer or porch lies on another roof, square to that slope: soles, sleepers and valley plates, measured."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist
from typing import TYPE_CHECKING

from takeoff.measure import format_length
from takeoff.sheets.clipping import clipped
from takeoff.sheets.drawing import EAVES, EDGE, MM_PER_IN, OUTLINE, SMALL, WALLS, Arc, Item, Line, Point, Polyline
from takeoff.sheets.extent import lines_of
from takeoff.sheets.free_space import FreeSpace
from takeoff.sheets.mark_labels import LabelRow, labels
from takeoff.sheets.placing import stand
from takeoff.sheets.running import Station, running_below, running_left
from takeoff.sheets.silhouette import silhouette

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

    from takeoff.model.building import FramedBuilding
    from takeoff.model.face import Face
    from takeoff.model.member import Member

_NAMES = {"bottom-plate": "sole", "sleeper": "sleeper", "valley-plate": "plate"}
_NEAR_IN = 6.0  # middles of laid plates lie no further off the plane of the tops of the rafters
_AROUND_IN = 10.0
_FIGURES_MM = 2.0
_SPOT_MM = 0.8


@dataclass(frozen=True, slots=True)
class _Plate:
    member: Member
    shape: Polygon


class LaidView:
    """Records the view in the axes of the slope, its eave below."""

    def __init__(self, building: FramedBuilding, slope: Face, members: Sequence[Member], denominator: int) -> None:
        self.slope, self.denominator = slope, denominator
        onto = slope.placement
        laid = [member for member in members if member.role.name in _NAMES]
        self.plates = [_Plate(member, silhouette(member, onto)) for member in laid]
        boxes = [plate.shape.bounds for plate in self.plates]
        self.low = slope.outline.bounds[1]
        u0, v1, u1 = min(b[0] for b in boxes), max(b[3] for b in boxes), max(b[2] for b in boxes)
        self.window = (u0 - _AROUND_IN, self.low, u1 + _AROUND_IN, v1 + _AROUND_IN)
        under = [member for member in building.members if member.face == slope.name]
        self.rafters = [(member.mark, silhouette(member, onto)) for member in under]

    def items(self, one_to: float) -> tuple[Item, ...]:
        """The rafters under the sheathing, the plates on it, figures, then marks where there is room."""
        k = one_to / MM_PER_IN
        drawn = tuple(self._drawn(k))
        standing = tuple(self._running(k))
        space = FreeSpace(lines_of(drawn, one_to))
        stand(space, standing, one_to)
        return (*drawn, *standing, *labels(tuple(self._rows()), space, one_to))

    def _drawn(self, k: float) -> Iterator[Item]:
        for mark, shape in self.rafters:
            yield from clipped(shape.exterior, self.window, SMALL, mark)
        for hole in self.slope.outline.holes:
            yield from clipped(_loop([edge.a for edge in hole]), self.window, EAVES)
        left, low, right, _ = self.window
        yield Line((left, low), (right, low), EAVES)
        yield Line((left, 0.0), (right, 0.0), WALLS)
        for plate in self.plates:
            yield Polyline(_ring(plate.shape), OUTLINE, closed=True, mark=plate.member.mark)
        for spot, _ in self._starts():
            yield Arc(spot, _SPOT_MM * k, 0.0, 360.0, EDGE)

    def _starts(self) -> list[tuple[Point, str]]:
        """Ends of the valley lines: where the outer edges of the valley plates begin and end."""
        ends: list[Point] = []
        for plate in self.plates:
            if _is_slanted(plate.shape):
                ends += _outer_edge(plate.shape, self._middle())
        # A plate of two lengths begins and ends where the whole of it does.
        spots = [spot for spot in ends if sum(dist(spot, other) < 1.0 for other in ends) == 1 or _is_peak(spot, ends)]
        low = min((v for _, v in spots), default=0.0)
        high = max((v for _, v in spots), default=0.0)
        named = ((spot, "valley foot" if spot[1] - low < high - spot[1] else "valley head") for spot in spots)
        return list(named)

    def _middle(self) -> Point:
        from shapely import union_all

        middle = union_all([plate.shape for plate in self.plates]).envelope.centroid
        return (float(middle.x), float(middle.y))

    def _running(self, k: float) -> Iterator[Item]:
        left, low, _, _ = self.window
        yield from running_below(self._across(), low - k, k, _FIGURES_MM)
        yield from running_left(self._up(), left - k, k, _FIGURES_MM)

    def _across(self) -> list[Station]:
        """From the left end of the wall framing."""
        places = [(spot[0], what) for spot, what in self._starts()]
        for what, shapes in self._flat():
            boxes = [shape.bounds for shape in shapes]
            places += [(min(b[0] for b in boxes), f"{what} outside"), (max(b[2] for b in boxes), f"{what} outside")]
        return self._stations(places, 0.0)

    def _up(self) -> list[Station]:
        """From the lower edge of the sheathing."""
        places = [(self.low, "edge of sheathing"), (0.0, "wall"), *((spot[1], what) for spot, what in self._starts())]
        for what, shapes in self._flat():
            boxes = [shape.bounds for shape in shapes]
            places += [(min(b[1] for b in boxes), f"{what} outside"), (max(b[3] for b in boxes), f"{what} end")]
        return self._stations(places, self.low)

    def _flat(self) -> Iterator[tuple[str, list[Polygon]]]:
        """Outlines of soles, and of sleepers, where there are any."""
        for role, what in _NAMES.items():
            plates = [plate for plate in self.plates if not _is_slanted(plate.shape)]
            shapes = [plate.shape for plate in plates if plate.member.role.name == role]
            if shapes:
                yield what, shapes

    def _stations(self, places: Iterable[tuple[float, str]], start: float) -> list[Station]:
        """Each place once, as the tape reads it from where it is hooked."""
        found: dict[tuple[str, str], float] = {}
        for at, what in places:
            found.setdefault((format_length(at - start, denominator=self.denominator), what), at)
        return [Station(at, f"{figure} {what}") for (figure, what), at in found.items()]

    def _rows(self) -> Iterator[LabelRow]:
        from shapely import box

        for plate in self.plates:
            yield LabelRow(words=plate.member.mark, lines=(_along(plate.shape),), off_mm=(2.4, 3.2, 4.2))
        shown: dict[str, list[tuple[Point, Point]]] = {}
        for mark, shape in self.rafters:
            inside = shape.intersection(box(*self.window))
            if inside.area > 1.0:
                shown.setdefault(mark, []).append(_along(inside.minimum_rotated_rectangle))
        for mark, lines in shown.items():
            yield LabelRow(words=mark, lines=tuple(lines))


def host_slope(building: FramedBuilding, members: Sequence[Member]) -> Face | None:
    """The slope that the plates of a minor roof lie on; None where it has none."""
    middles = [_centre(member) for member in members if member.role.name in _NAMES]
    if not middles:
        return None

    def off(face: Face) -> float:
        return max(abs(face.placement.from_world(middle)[2]) for middle in middles)

    slopes = [face for face in building.faces if face.kind == "slope" and not face.part]
    nearest = min(slopes, key=lambda face: (round(off(face), 3), face.name), default=None)
    return nearest if nearest is not None and off(nearest) < _NEAR_IN else None


def _centre(member: Member) -> tuple[float, float, float]:
    a, b = member.centre_line
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2)


def _outer_edge(shape: Polygon, middle: Point) -> tuple[Point, Point]:
    """Of the two long edges of a plate the one farther from the middle of what it belongs to."""
    from shapely import LineString
    from shapely import Point as Spot

    ring = [(float(x), float(y)) for x, y in shape.exterior.coords]
    longest = sorted(pairwise(ring), key=lambda edge: (-round(dist(*edge), 3), edge))[:2]
    return max(longest, key=lambda edge: (round(LineString(edge).distance(Spot(middle)), 3), edge))


def _is_slanted(shape: Polygon) -> bool:
    """Whether a plate runs along a valley line, neither along the eave nor up the slope."""
    (ax, ay), (bx, by) = _along(shape)
    return min(abs(bx - ax), abs(by - ay)) > 1.0


def _is_peak(spot: Point, ends: Sequence[Point]) -> bool:
    """Whether two valley lines meet at a spot, the highest of all."""
    return spot[1] > max(v for _, v in ends) - 1.0


def _along(shape: BaseGeometry) -> tuple[Point, Point]:
    """Along the middle of an outline's least rectangle."""
    from shapely import Polygon

    box = shape.minimum_rotated_rectangle
    assert isinstance(box, Polygon)
    a, b, c, d = ((float(x), float(y)) for x, y in list(box.exterior.coords)[:4])
    if dist(a, b) < dist(b, c):
        a, b, c, d = b, c, d, a
    return ((a[0] + d[0]) / 2, (a[1] + d[1]) / 2), ((b[0] + c[0]) / 2, (b[1] + c[1]) / 2)


def _loop(points: Sequence[Point]) -> BaseGeometry:
    from shapely import LinearRing

    return LinearRing(points)


def _ring(shape: Polygon) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in list(shape.exterior.coords)[:-1])
