"""Room on a drawing that is still free: lettering is put where it covers neither lines nor other lettering."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from shapely import STRtree
    from shapely.geometry.base import BaseGeometry

T = TypeVar("T")
Point = tuple[float, float]

_AT_A_TIME = 24


class FreeSpace:
    """Lines that stand, and boxes taken one after the other."""

    def __init__(self, lines: Iterable[tuple[Point, Point]]) -> None:
        from shapely import LineString, STRtree

        self._lines: STRtree = STRtree([LineString(line) for line in lines if line[0] != line[1]])
        self._taken: list[BaseGeometry] = []
        self._drawn: list[BaseGeometry] = []

    def is_free(self, box: Sequence[Point], *, inside: BaseGeometry | None = None) -> bool:
        """Whether a box touches no line and no box taken, and lies in ``inside`` if that is given."""
        from shapely import Polygon

        shape = Polygon(box)
        if inside is not None and not inside.contains(shape):
            return False
        if len(self._lines.query(shape, predicate="intersects")):
            return False
        return not any(shape.intersects(other) for other in (*self._taken, *self._drawn))

    def free(self, tries: Iterable[T], box: Callable[[T], Sequence[Point]]) -> Iterator[T]:
        """Those of many tries whose boxes touch no line and no box taken, in their order; looked up some at a time."""
        import numpy as np
        from shapely import intersects, polygons

        tries = iter(tries)
        while some := list(islice(tries, _AT_A_TIME)):
            shapes = polygons([box(one) for one in some])
            stands_free = np.ones(len(some), dtype=bool)
            stands_free[self._lines.query(shapes, predicate="intersects")[0]] = False
            if kept := [*self._taken, *self._drawn]:
                stands_free &= ~intersects(shapes[:, None], np.array(kept)).any(axis=1)
            yield from (one for one, is_free in zip(some, stands_free.tolist(), strict=True) if is_free)

    def is_lettered(self, line: tuple[Point, Point]) -> bool:
        """Whether a line runs over a box taken."""
        from shapely import LineString

        return any(LineString(line).intersects(other) for other in self._taken)

    def take(self, box: Sequence[Point]) -> None:
        """Keep a box for what is drawn in it."""
        from shapely import Polygon

        self._taken.append(Polygon(box))

    def draw(self, line: tuple[Point, Point]) -> None:
        """Keep lettering off a line drawn since; other lines may cross it."""
        from shapely import LineString

        self._drawn.append(LineString(line))
