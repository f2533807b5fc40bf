"""What a face may be laid with: a few divisions of it, each way of each band as the pieces it needs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from takeoff.catalog.sheets import sheet_product
from takeoff.cutting.best_fit import best_fit
from takeoff.cutting.sheet.shape import Shape, shape_of
from takeoff.cutting.steps import steps_up
from takeoff.geometry.polygon import corners
from takeoff.model.courses import Course, smallest_sheet
from takeoff.model.face import Face
from takeoff.sheathing.cells import Cell
from takeoff.sheathing.sheathe import AXES, Clipper, flips, product_of
from takeoff.sheathing.slopes import slope_courses_of, slope_division
from takeoff.sheathing.walls import wall_division
from takeoff.sheathing.ways import Division, Way

MOST_SETS = 12
"""Of the sets of courses of all slopes so many are reckoned through: the plain ones, and those that rip best."""

LEAST_SETS = 5
"""Of each slope at least so many."""

_SAMPLE = 12
"""The waste of ripping is estimated on so many strips of a full course."""

Needs = tuple[tuple[int, int], ...]
"""Items and how many of each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One division of a face, with what its ways need."""

    courses: tuple[Course, ...]
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


def course_sets(face: Face, rates: Mapping[str, float], most: int) -> tuple[tuple[Course, ...], ...]:
    """Sets of courses worth reckoning through, the plain one first.

    Args:
        face: a slope.
        rates: what a sheet of each product costs [cents].
        most: how many.
    """
    sets = slope_courses_of(face)
    strips: dict[tuple[float, float], tuple[Course, ...]] = {}
    lengths = _Lengths(face)
    ranked = sorted(sets, key=lambda courses: _ripped(face, courses, rates, lengths))
    for courses in ranked:
        strips.setdefault(_exposed_heights(courses), courses)
    # The best of every strip, so that its price can be told, then whatever rips best.
    return tuple(dict.fromkeys((*sets[:1], *ranked[:1], *strips.values(), *ranked)))[:most]


def _exposed_heights(courses: Sequence[Course]) -> tuple[float, float]:
    exposed = [c.v[1] - c.v[0] for c in courses if c.zone == "exposed"]
    return (exposed[0] if exposed else 0.0, exposed[-1] if len(exposed) > 1 else 0.0)


def _ripped(face: Face, courses: Sequence[Course], rates: Mapping[str, float], lengths: _Lengths) -> tuple[int, int]:
    """What the courses cost, ripped from sheets as well as best fit can; of equal ones the fewest courses."""
    if face.cover is None:
        return (0, 0)
    cost = 0.0
    for zone, product in (("field", face.cover.field), ("exposed", face.cover.exposed)):
        width = steps_up(smallest_sheet(sheet_product(product))[0])
        of_zone = [(steps_up(c.v[1] - c.v[0]), lengths.share(c.v)) for c in courses if c.zone == zone]
        widths = [height for height, share in sorted(of_zone, reverse=True) for _ in range(share)]
        cost += rates[product] * len(best_fit(widths, lambda _, w=width: w))  # type: ignore[misc]
    return (round(cost), len(courses))


class _Lengths:
    """How long the courses of a slope are, on the average, in parts of the longest course there may be."""

    def __init__(self, face: Face) -> None:
        self._outline = face.outline.polygon
        left, _, right, _ = self._outline.bounds
        self._ends = left, right
        self._known: dict[tuple[float, float], int] = {}

    def share(self, v: tuple[float, float]) -> int:
        from shapely import box

        if v not in self._known:
            left, right = self._ends
            part = self._outline.intersection(box(left, v[0], right, v[1])).area
            self._known[v] = max(1, round(_SAMPLE * part / (right - left) / (v[1] - v[0])))
        return self._known[v]


def candidates(face: Face, items: Items, rates: Mapping[str, float], most: int) -> tuple[Candidate, ...]:
    """The divisions of a covered face; their items are added to ``items``."""
    pieces = _Pieces(face, items)
    if face.kind == "wall":
        return (_candidate((), wall_division(face), pieces),)
    return tuple(
        _candidate(courses, slope_division(face, courses), pieces) for courses in course_sets(face, rates, most)
    )


def _candidate(courses: tuple[Course, ...], divided: Division, pieces: _Pieces) -> Candidate:
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
