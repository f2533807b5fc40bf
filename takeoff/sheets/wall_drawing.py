"""The elevation of a wall's frame, seen from outside: every stick with its mark, openings and heights, to scale."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from takeoff.measure import format_length
from takeoff.sheets.blocks import WIDTH_MM, Part, alone
from takeoff.sheets.drawing import (
    DIMENSIONS,
    EDGE,
    FIGURE_MM,
    GUIDE,
    MM_PER_IN,
    Dimension,
    Drawing,
    Item,
    Line,
    Point,
    Polyline,
    Text,
)
from takeoff.sheets.face_sticks import FaceStick, face_sticks
from takeoff.sheets.free_space import FreeSpace
from takeoff.sheets.lettering import text_box
from takeoff.sheets.mark_labels import BESIDE_MM, LabelRow, labels
from takeoff.sheets.north import north_of
from takeoff.sheets.placing import stand
from takeoff.sheets.plan_scale import scale_for, scale_words
from takeoff.sheets.running import Station, reach_mm, running_below

if TYPE_CHECKING:
    from takeoff.geometry.outline import Edge
    from takeoff.model.building import FramedBuilding
    from takeoff.model.face import Face

_HEIGHT_MM = 150.0
_BESIDE_MM = 13.0
_DIMENSION_MM = 8.0  # dimension lines outside the frame, marks of plates between
_WORDS_MM, _SMALL_MM = 2.2, 1.5
_NUMBER_SHARES = (0.22, 0.15, 0.1, 0.06)  # of an opening's height, up to its number
_WRITTEN_ON_MM = 3.2  # a stick at least so wide on paper carries its mark itself


class WallDrawing:
    """Records the elevation for the scale that it goes on the paper at."""

    def __init__(self, building: FramedBuilding, face: Face, denominator: int) -> None:
        self.face = face
        self.denominator = denominator
        self.sticks = face_sticks(building, face)
        boxes = [stick.outline.bounds for stick in self.sticks]
        self.u0, self.v0 = min(b[0] for b in boxes), min(b[1] for b in boxes)
        self.u1, self.v1 = max(b[2] for b in boxes), max(b[3] for b in boxes)
        _, low, _, high = face.outline.bounds
        self.foot = self.v0 if low < self.v0 < high else low  # sheets may lap what is under the frame
        wide, tall = self.u1 - self.u0, self.v1 - self.v0
        self.one_to = scale_for(wide, tall, WIDTH_MM - 2 * _BESIDE_MM, _HEIGHT_MM)
        self.k = self.one_to / MM_PER_IN

    def items(self) -> Iterator[Item]:
        """Sticks first, then what is written where there is room between them."""
        for stick in self.sticks:
            yield Polyline(_ring(stick), EDGE, closed=True, mark=", ".join(dict.fromkeys(stick.marks)))
        written = (*self.openings(), *self.running(), *self.dimensions(), *self.north())
        sides = [side for stick in self.sticks for side in pairwise((*_ring(stick), _ring(stick)[0]))]
        space = FreeSpace(sides)
        stand(space, written, self.one_to)
        yield from written
        yield from labels(tuple(map(self._row, self.sticks)), space, self.one_to)

    def _row(self, stick: FaceStick) -> LabelRow:
        wide = stick.width / self.k >= _WRITTEN_ON_MM
        return LabelRow(words=stick.words, lines=(stick.line,), off_mm=(0.0, *BESIDE_MM) if wide else BESIDE_MM)

    def openings(self) -> Iterator[Item]:
        """Diagonals across each, with its number and its rough size."""
        for number, hole in enumerate(self.face.outline.holes, start=1):
            u0, v0, u1, v1 = _box(hole)
            size = " × ".join(format_length(side, denominator=self.denominator) for side in (u1 - u0, v1 - v0))
            text = self._between((u0, v0, u1, v1), (f"{number}: {size}", str(number)))
            if text is None:  # too small for both
                yield _level_text(((u0 + u1) / 2, (v0 + v1) / 2), str(number), _SMALL_MM)
                continue
            yield Line((u0, v0), (u1, v1), GUIDE)
            yield Line((u0, v1), (u1, v0), GUIDE)
            yield text

    def _between(self, hole: tuple[float, float, float, float], tries: tuple[str, str]) -> Text | None:
        """Number and size of an opening low between its diagonals; the number alone where they leave no more room."""
        u0, v0, u1, v1 = hole
        for words in tries:
            for share in _NUMBER_SHARES:
                at = ((u0 + u1) / 2, v0 + (v1 - v0) * share)
                text = _level_text(at, words)
                (left, low), _, (_, high), _ = text_box(text, self.one_to)
                if low > v0 and u0 + (u1 - u0) * (high - v0) / (v1 - v0) < left:
                    return text
        return None

    def running(self) -> Iterator[Item]:
        """Edges of the openings as one tape reads them from the left end."""
        stations = self._stations()
        for station in stations:
            yield Line((station.at, self.foot), (station.at, self.v0 - self.k), DIMENSIONS)
        yield from running_below(stations, self.v0 - self.k, self.k, _WORDS_MM)

    def _stations(self) -> list[Station]:
        left = self.face.outline.bounds[0]
        edges = sorted({u for hole in self.face.outline.holes for u in _box(hole)[::2]})
        return [Station(u, format_length(u - left, denominator=self.denominator)) for u in edges]

    def dimensions(self) -> Iterator[Item]:
        """The whole length below, the height at the left."""
        u0, _, u1, v1 = self.face.outline.bounds
        v0, stations = self.foot, self._stations()
        below = 1.0 + reach_mm(stations, _WORDS_MM) + FIGURE_MM + 2.0 if stations else _DIMENSION_MM
        yield self._dimension((u0, v0), (u1, v0), (self.v0 - v0) / self.k - below)
        yield self._dimension((u0, v0), (u0, v1), (u0 - self.u0) / self.k + _DIMENSION_MM)

    def north(self) -> Iterator[Item]:
        """The arrow on a floor seen from above."""
        if self.face.kind == "floor":
            yield from north_of(self.face, (self.u1, self.v1), self.k)

    def _dimension(self, a: Point, b: Point, offset_mm: float) -> Dimension:
        return Dimension(a=a, b=b, offset_mm=offset_mm, denominator=self.denominator)


def face_words(face: Face) -> str:
    """What a builder calls a face: ``south wall``; a slope or a floor by its name."""
    return f"{face.name} wall" if face.kind == "wall" else face.name


def wall_drawing(building: FramedBuilding, face: Face, *, name: str, denominator: int = 16) -> Drawing | None:
    """The elevation of one wall, or a floor from above; None where no stick stands in it.

    Args:
        building: framed and marked.
        face: of the wall or floor.
        name: of the drawing, fit for a file.
        denominator: figures are shown to one over this of an inch.
    """
    if not any(member.face == face.name for member in building.members):
        return None
    seen = "from above" if face.kind == "floor" else f"from {face.seen_from}"
    wall = WallDrawing(building, face, denominator)
    items = tuple(wall.items())
    return alone(
        Part("wall", f"{face_words(face)}, {seen}{scale_words(wall.one_to)}", lambda _: items),
        wall.one_to,
        name=name,
        title=f"{building.name}: frame of the {face_words(face)}",
        description=f"Seen {seen}. {len(wall.sticks)} sticks, {len(face.outline.holes)} openings.",
    )


def _level_text(at: Point, words: str, height_mm: float = _WORDS_MM) -> Text:
    return Text(at=at, words=words, height_mm=height_mm, anchor="middle", level="middle")


def _ring(stick: FaceStick) -> tuple[Point, ...]:
    return tuple((float(u), float(v)) for u, v in list(stick.outline.exterior.coords)[:-1])


def _box(hole: Sequence[Edge]) -> tuple[float, float, float, float]:
    us, vs = [edge.a[0] for edge in hole], [edge.a[1] for edge in hole]
    return min(us), min(vs), max(us), max(vs)
