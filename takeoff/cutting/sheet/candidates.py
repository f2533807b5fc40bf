"""What a face may be laid with: a few divisions of it, each way of each band as the pieces it needs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from takeoff.cutting.sheet.course_sets import Courses
from takeoff.cutting.sheet.shape import Shape, shape_of
from takeoff.geometry.polygon import corners
from takeoff.model.face import Face
from takeoff.sheathing.cells import Cell
from takeoff.sheathing.sheathe import AXES, Clipper, flips, product_of
from takeoff.sheathing.slopes import slope_division
from takeoff.sheathing.walls import wall_division
from takeoff.sheathing.ways import Division, Way

Needs = tuple[tuple[int, int], ...]
"""Items and how many of each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One division of a face, with what its ways need."""

    courses: Courses
    """Of a slope; a wall has none."""
    divided: Division
    needs: tuple[tuple[Needs, ...], ...]
    """For each band, for each of its ways."""


@dataclass(slots=True)
class Items:
    """Numbers for what is to be cut, given out as it is met."""

    numbers: dict[tuple[str, Shape], int] = field(default_factory=dict)

    def number(self, product: str, shape: Shape) -> int:
        """Of a shape of a product."""
        return self.numbers.setdefault((product, shape), len(self.numbers))


def candidates(face: Face, items: Items, sets: Sequence[Courses]) -> tuple[Candidate, ...]:
    """The divisions of a covered face by sets of courses; their items are added to ``items``."""
    pieces = _Pieces(face, items)
    if face.kind == "wall":
        return (_candidate((), wall_division(face), pieces),)
    return tuple(_candidate(courses, slope_division(face, courses), pieces) for courses in sets)


def _candidate(courses: Courses, divided: Division, pieces: _Pieces) -> Candidate:
    return Candidate(
        courses=courses,
        divided=divided,
        needs=tuple(tuple(pieces.needs(way) for way in band) for band in divided.bands),
    )


class _Pieces:
    """What the cells of a face are as items; a cell met before costs nothing."""

    def __init__(self, face: Face, items: Items) -> None:
        self._face, self._items, self._clipped = face, items, Clipper(face)
        self._upright = AXES[face.kind] == "v"
        self._known: dict[Cell, tuple[int, ...]] = {}
        self._made_of = {
            zone: (product_of(face, cell), flips(face, cell))
            for zone in ("field", "exposed")
            for cell in (Cell((0.0, 0.0), (0.0, 0.0), zone),)
        }

    def needs(self, way: Way) -> Needs:
        """Items of a way, and how many of each."""
        counts: dict[int, int] = {}
        for cell in way.cells:
            if cell not in self._known:
                self._known[cell] = tuple(self._items_of(cell))
            for item in self._known[cell]:
                counts[item] = counts.get(item, 0) + 1
        return tuple(sorted(counts.items()))

    def _items_of(self, cell: Cell) -> Iterator[int]:
        product, may_flip = self._made_of[cell.zone]
        for polygon in self._clipped.polygons(cell):
            points = corners(polygon)
            shape, _ = shape_of([(y, -x) for x, y in points] if self._upright else points, flips=may_flip)
            yield self._items.number(product, shape)
