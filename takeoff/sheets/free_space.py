"""Room on a drawing that is still free: lettering is put where it covers neither lines nor other lettering."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from shapely import STRtree
    from shapely.geometry.base import BaseGeometry

Point = tuple[float, float]


class FreeSpace:
    """Lines that stand, and boxes taken one after the other."""

    def __init__(self, lines: Iterable[tuple[Point, Point]]) -> None:
        from shapely import LineString, STRtree

        self._lines: STRtree = STRtree([LineString(line) for line in lines if line[0] != line[1]])
        self._taken: list[BaseGeometry] = []

    def is_free(self, box: Sequence[Point], *, inside: BaseGeometry | None = None) -> bool:
        """Whether a box touches no line and no box taken, and lies in ``inside`` if that is given."""
        from shapely import Polygon

        shape = Polygon(box)
        if inside is not None and not inside.contains(shape):
            return False
        if len(self._lines.query(shape, predicate="intersects")):
            return False
        return not any(shape.intersects(other) for other in self._taken)

    def is_lettered(self, line: tuple[Point, Point]) -> bool:
        """Whether a line runs over a box taken."""
        from shapely import LineString

        return any(LineString(line).intersects(other) for other in self._taken)

    def take(self, box: Sequence[Point]) -> None:
        """Keep a box for what is drawn in it."""
        from shapely import Polygon

        self._taken.append(Polygon(box))
