"""What carries a porch, from above: posts and beams where they stand, measured from two walls, north up."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from takeoff.geometry.placement import Placement
from takeoff.geometry.vec import scale
from takeoff.measure import format_length
from takeoff.sheets.drawing import EDGE, GUIDE, MM_PER_IN, OUTLINE, WALLS, Dimension, Item, Line, Point, Polyline
from takeoff.sheets.extent import extent, lines_of
from takeoff.sheets.free_space import FreeSpace
from takeoff.sheets.mark_labels import LabelRow, labels
from takeoff.sheets.north import north_arrow
from takeoff.sheets.placing import stand
from takeoff.sheets.running import Station, running_below, running_left
from takeoff.sheets.silhouette import silhouette
from takeoff.sheets.turned import LevelAxes, Turnable

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.model.building import FramedBuilding
    from takeoff.model.face import Face
    from takeoff.model.member import Member

_POST, _BEAM = "porch-post", "porch-beam"
_SHOWN = (_POST, _BEAM, "ledger")
_PAST_IN = 12.0  # of the wall past the porch
_JOINED_IN = 1 / 16
_FIGURES_MM = 2.0
_OFFSET_MM, _INWARD_MM = 6.0, 8.0


class PorchView:
    """Records the view. Along is u, from the left end of the wall; the way out from it is negative."""

    def __init__(self, building: FramedBuilding, members: Sequence[Member], denominator: int) -> None:
        self.denominator = denominator
        self.wall = _host(building, members)
        x, _, out = (self.wall.placement.x, self.wall.placement.y, self.wall.placement.z)
        u0, _, u1, _ = self.wall.outline.bounds
        self.axes = LevelAxes(Placement(self.wall.placement.to_world((u0, 0.0, 0.0)), x, scale(out, -1.0)))
        shown = [member for member in members if member.role.name in _SHOWN]
        self.sticks = [(member, silhouette(member, self.axes.placement)) for member in shown]
        boxes = [shape.bounds for _, shape in self.sticks]
        self.u0, self.v0 = min(b[0] for b in boxes), min(b[1] for b in boxes)
        self.u1 = max(b[2] for b in boxes)
        self.wall_ends = max(0.0, self.u0 - _PAST_IN), min(u1 - u0, self.u1 + _PAST_IN)

    def items(self, one_to: float) -> tuple[Item, ...]:
        """Sticks, figures, then marks where there is room."""
        k = one_to / MM_PER_IN
        drawn = tuple(self.axes.turned(self._drawn()))
        measured = (*self.axes.turned(self._running(k)), *self._dimensions(k))
        _, _, x1, y1 = extent((*drawn, *measured), one_to)
        standing = (*measured, *north_arrow((x1 - 4.0 * k, y1), k))
        space = FreeSpace(lines_of(drawn, one_to))
        stand(space, standing, one_to)
        return (*drawn, *standing, *labels(tuple(self._rows()), space, one_to))

    def _drawn(self) -> Iterator[Turnable]:
        yield Line((self.wall_ends[0], 0.0), (self.wall_ends[1], 0.0), WALLS)
        for member, shape in self.sticks:
            ring = _ring(shape)
            post = member.role.name == _POST
            yield Polyline(ring, OUTLINE if post else EDGE, closed=True, mark=member.mark)
            if post:
                x0, y0, x1, y1 = shape.bounds
                yield Line((x0, y0), (x1, y1), GUIDE)
                yield Line((x0, y1), (x1, y0), GUIDE)

    def _running(self, k: float) -> Iterator[Turnable]:
        """Along the wall to ends of beams and middles of posts; out from it to middles of posts and faces of beams."""
        yield from running_below(self._along(), self.v0 - k, k, _FIGURES_MM)
        yield from running_left(self._out(), min(self.u0, self.wall_ends[0]) - k, k, _FIGURES_MM)

    def _along(self) -> list[Station]:
        places = [(_middle(shape)[0], "post") for shape in self._of(_POST)]
        for box in (shape.bounds for shape in self._of(_BEAM)):
            if box[2] - box[0] > box[3] - box[1]:
                places += [(box[0], "beam end"), (box[2], "beam end")]
        return self._stations(places)

    def _out(self) -> list[Station]:
        from shapely import get_parts, union_all

        places = [(0.0, "outside of wall"), *((_middle(shape)[1], "post") for shape in self._of(_POST))]
        # Plies side by side are one beam.
        beams = get_parts(union_all([shape.buffer(_JOINED_IN) for shape in self._of(_BEAM)]))
        places += [(float(beam.bounds[1]) + _JOINED_IN, "beam") for beam in beams]
        return self._stations(places)

    def _stations(self, places: Iterable[tuple[float, str]]) -> list[Station]:
        """Each place once."""
        found: dict[tuple[str, str], float] = {}
        for at, what in places:
            found.setdefault((format_length(abs(at), denominator=self.denominator), what), at)
        return [Station(at, f"{figure} {what}") for (figure, what), at in found.items()]

    def _dimensions(self, k: float) -> Iterator[Dimension]:
        """Between the middles of posts that stand next to each other, and from the wall out to the farthest."""
        posts = sorted({(round(x, 3), round(y, 3)) for x, y in map(_middle, self._of(_POST))})
        front = min(y for _, y in posts)
        row = [x for x, y in posts if y - front < 1.0]
        for a, b in pairwise(row):
            yield self._dimension((a, front), (b, front), _INWARD_MM)
        beside = (max(self.u1, self.wall_ends[1]) - row[-1]) / k + _OFFSET_MM
        yield self._dimension((row[-1], front), (row[-1], 0.0), -beside)

    def _dimension(self, a: Point, b: Point, offset_mm: float) -> Dimension:
        return Dimension(a=self.axes.spot(a), b=self.axes.spot(b), offset_mm=offset_mm, denominator=self.denominator)

    def _of(self, role: str) -> list[Polygon]:
        return [shape for member, shape in self.sticks if member.role.name == role]

    def _rows(self) -> Iterator[LabelRow]:
        seen: set[tuple[str, tuple[int, ...]]] = set()
        for member, shape in self.sticks:
            x0, y0, x1, y1 = shape.bounds
            key = (member.mark, tuple(round(value) for value in _middle(shape)) if member.role.name == _POST else ())
            if key in seen:
                continue
            seen.add(key)
            level = x1 - x0 >= y1 - y0
            x, y = _middle(shape)
            line = ((x0, y), (x1, y)) if level else ((x, y0), (x, y1))
            off = 1.6 + min(x1 - x0, y1 - y0) / 2
            yield LabelRow(
                words=member.mark, lines=((self.axes.spot(line[0]), self.axes.spot(line[1])),), off_mm=(2.6, 3.6, off)
            )


def has_posts(members: Iterable[Member]) -> bool:
    """Whether sticks of a minor roof stand on posts of their own."""
    return any(member.role.name == _POST for member in members)


def _host(building: FramedBuilding, members: Sequence[Member]) -> Face:
    """The outside wall that the posts stand before."""
    posts = [member.centre_line[0] for member in members if member.role.name == _POST]
    walls = [face for face in building.faces if face.kind == "wall" and not face.part and face.seen_from == "outside"]

    def away(face: Face) -> tuple[float, str]:
        u0, _, u1, _ = face.outline.bounds
        spots = [face.placement.from_world(post) for post in posts]
        if min(out for _, _, out in spots) < 0.0:
            return (float("inf"), face.name)
        beside = max(max(u0 - u, u - u1, 0.0) for u, _, _ in spots)
        return (beside + max(out for _, _, out in spots), face.name)

    return min(walls, key=away)


def _middle(shape: Polygon) -> Point:
    x0, y0, x1, y1 = shape.bounds
    return ((x0 + x1) / 2, (y0 + y1) / 2)


def _ring(shape: Polygon) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in list(shape.exterior.coords)[:-1])
