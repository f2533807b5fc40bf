"""The map of a sheathed face, seen from outside: every piece with its mark and size, grades told apart by hatch."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import hypot
from typing import TYPE_CHECKING

from takeoff.measure import format_length
from takeoff.sheets.blocks import WIDTH_MM, Part, alone
from takeoff.sheets.drawing import (
    DIMENSIONS,
    EDGE,
    HIDDEN,
    MM_PER_IN,
    OUTLINE,
    WASTE,
    Dimension,
    Drawing,
    Hatch,
    Item,
    Line,
    Point,
    Polyline,
    Text,
)
from takeoff.sheets.extent import lines_of
from takeoff.sheets.free_space import FreeSpace
from takeoff.sheets.lettering import text_box
from takeoff.sheets.mark_labels import LabelRow, labels
from takeoff.sheets.north import north_of
from takeoff.sheets.piece_words import PieceLetters, piece_words
from takeoff.sheets.placing import stand
from takeoff.sheets.plan_scale import scale_for, scale_words
from takeoff.sheets.running import Station, running_left

if TYPE_CHECKING:
    from shapely import LinearRing, Polygon

    from takeoff.model.building import FramedBuilding
    from takeoff.model.face import Face
    from takeoff.model.panel import Panel

_HEIGHT_MM = 100.0
_BESIDE_MM = 13.0
_LETTERS = PieceLetters(marks_mm=(2.4, 1.8), sizes_mm=(1.9, 1.4), clear_mm=0.5)
_LEVEL_MM = 1.9  # figures of the levels
_SUPPORT_MM = (1.0, 4.0)  # ticks of supports: from the outline, and to
_DIMENSION_MM = 10.0
_HATCH_MM = 1.6
_LEVEL_IN = 1 / 16


class PanelMap:
    """Records the map for the scale that it goes on the paper at."""

    def __init__(self, face: Face, panels: Sequence[Panel], denominator: int) -> None:
        self.face, self.panels, self.denominator = face, panels, denominator
        self.u0, self.v0, self.u1, self.v1 = face.outline.bounds
        wide, tall = self.u1 - self.u0, self.v1 - self.v0
        self.one_to = scale_for(wide, tall, WIDTH_MM - 2 * _BESIDE_MM, _HEIGHT_MM)
        self.k = self.one_to / MM_PER_IN

    def items(self) -> Iterator[Item]:
        """Hatches under edges under words."""
        written = {id(panel): tuple(self.words(panel)) for panel in self.panels}
        for panel in self.panels:
            if panel.zone == "exposed":
                clear = tuple(text_box(text, self.one_to) for text in written[id(panel)])
                yield Hatch(_ring(panel.polygon), WASTE, _HATCH_MM, clear)
        for panel in self.panels:
            yield Polyline(_ring(panel.polygon), EDGE, closed=True, mark=panel.mark)
            yield from (Polyline(_points(ring), HIDDEN, closed=True) for ring in panel.polygon.interiors)
        yield from self.outline()
        yield from self.supports()
        yield from (text for texts in written.values() for text in texts)
        yield from self.dimensions()
        yield from self.slivers([panel for panel in self.panels if not written[id(panel)]], written.values())
        if self.face.kind == "floor":
            yield from north_of(self.face, (self.u1, self.v1), self.k)

    def outline(self) -> Iterator[Item]:
        """The face itself, and its holes."""
        yield Polyline(tuple(edge.a for edge in self.face.outline.edges), OUTLINE, closed=True)
        for hole in self.face.outline.holes:
            yield Polyline(tuple(edge.a for edge in hole), HIDDEN, closed=True)

    def supports(self) -> Iterator[Item]:
        """Ticks at the centre lines of what the sheets are nailed to, under the face."""
        near, far = (self.v0 - mm * self.k for mm in _SUPPORT_MM)
        for u in self.face.supports.centres:
            if self.u0 <= u <= self.u1:
                yield Line((u, near), (u, far), DIMENSIONS)

    def words(self, panel: Panel) -> Iterator[Text]:
        """Mark and size in the piece."""
        x0, y0, x1, y1 = panel.polygon.bounds
        across, up = (format_length(side, denominator=self.denominator) for side in (x1 - x0, y1 - y0))
        yield from piece_words(panel.polygon, panel.mark, (across, up), _LETTERS, self.one_to)

    def slivers(self, panels: Sequence[Panel], written: Iterable[tuple[Text, ...]]) -> Iterator[Item]:
        """Marks of pieces too narrow for them, at the ends of leaders."""
        if not panels:
            return
        drawn = [Polyline(_ring(panel.polygon), EDGE, closed=True) for panel in self.panels]
        space = FreeSpace(lines_of(drawn, self.one_to))
        stand(space, (text for texts in written for text in texts), self.one_to)
        spots = [(panel.mark, panel.polygon.representative_point()) for panel in panels]
        rows = [LabelRow(words=mark, lines=(((at.x, at.y), (at.x, at.y)),)) for mark, at in spots]
        yield from labels(rows, space, self.one_to)

    def dimensions(self) -> Iterator[Item]:
        """The whole length below; at the left the courses as one tape reads them from below."""
        yield Dimension(
            a=(self.u0, self.v0),
            b=(self.u1, self.v0),
            offset_mm=-_DIMENSION_MM,
            denominator=self.denominator,
        )
        levels = [Station(v, format_length(v - self.v0, denominator=self.denominator)) for v in self._levels()]
        yield from running_left(levels, self.u0 - self.k, self.k, _LEVEL_MM)

    def _levels(self) -> list[float]:
        """Heights of the level joints, of edges of openings and of the top."""
        found = {_rounded(v) for panel in self.panels for v in _level_edges(panel.polygon)} | {_rounded(self.v1)}
        return sorted(v for v in found if v - self.v0 > _LEVEL_IN)


def panel_map(building: FramedBuilding, face: Face, *, name: str, denominator: int = 16) -> Drawing | None:
    """The map of one face; None where it isn't sheathed.

    Args:
        building: framed, sheathed and marked.
        face: one of its faces.
        name: of the drawing, fit for a file.
        denominator: figures are shown to one over this of an inch.
    """
    panels = [panel for panel in building.panels if panel.face == face.name]
    if not panels:
        return None
    drawn = PanelMap(face, panels, denominator)
    items = tuple(drawn.items())
    where = f"{face.name} wall" if face.kind == "wall" else face.name
    seen = "above" if face.kind == "floor" else "outside"
    return alone(
        Part("map", f"{where}, from {seen}{scale_words(drawn.one_to)}", lambda _: items),
        drawn.one_to,
        name=name,
        title=f"{building.name}: sheathing of the {where}",
        description=f"Seen square from {seen}. {_grades(panels)}.",
    )


def _grades(panels: Sequence[Panel]) -> str:
    """How many pieces of which product there are, the hatched said to be so."""
    counts: dict[tuple[str, bool], int] = {}
    for panel in panels:
        key = (panel.product, panel.zone == "exposed")
        counts[key] = counts.get(key, 0) + 1
    parts = (f"{number} of {product}{', hatched' if hatched else ''}" for (product, hatched), number in counts.items())
    return "; ".join(parts)


def _level_edges(polygon: Polygon) -> Iterator[float]:
    for (ax, ay), (bx, by) in pairwise(polygon.exterior.coords):
        if abs(by - ay) < _LEVEL_IN and hypot(bx - ax, by - ay) > 1.0:
            yield float(ay)


def _rounded(v: float) -> float:
    return round(v / _LEVEL_IN) * _LEVEL_IN


def _ring(polygon: Polygon) -> tuple[Point, ...]:
    return _points(polygon.exterior)


def _points(ring: LinearRing) -> tuple[Point, ...]:
    return tuple((float(u), float(v)) for u, v in list(ring.coords)[:-1])
