"""Sets of courses worth reckoning through: those whose strips rip well out of whole sheets, for slopes alike together.

Where two slopes are alike, one's last course may go beside the other's first: 30 in. and 18 in. make a sheet, though
neither goes evenly into one. So slopes alike are ranked in pairs.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, floor

from takeoff.catalog.sheets import sheet_product
from takeoff.cutting.stand_ins import stands_in
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.courses import Course, smallest_sheet
from takeoff.model.face import Face
from takeoff.sheathing.slopes import slope_courses_of

Courses = tuple[Course, ...]

MOST_STRIPS = 4
"""Strips of the exposed grade that pairs are tried with: those that rip best alone."""

MOST_PAIRED = 24
"""Sets with such a strip that are paired: those that rip best alone."""

_PLACES = 6

_SPARE_ROW = 1e-3
"""Of a row: so little more isn't another one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CourseSets:
    """What the slopes of a building may be laid with."""

    of_faces: tuple[tuple[Courses, ...], ...]
    """For each face, the plain set first; of a wall there is one without courses."""
    together: tuple[tuple[int, ...], ...]
    """Numbers of sets that rip well together, one for each face; the best first."""


def course_sets(faces: Sequence[Face], rates: Mapping[str, float], most: int) -> CourseSets:
    """Sets of courses worth reckoning through.

    Args:
        faces: covered.
        rates: what a sheet of each product costs [cents].
        most: how many for each face.
    """
    of_faces: list[tuple[Courses, ...]] = [((),)] * len(faces)
    pairs: dict[int, list[int]] = {}
    for alike in _alike(faces):
        ranking = _Ranking([faces[k] for k in alike], rates)
        kept = ranking.kept(most)
        for turn, k in enumerate(alike):
            of_faces[k] = kept
            pairs[k] = [kept.index(pair[turn % 2]) for pair in ranking.pairs if set(pair) <= set(kept)]
    longest = max((len(numbers) for numbers in pairs.values()), default=0)
    together = tuple(
        tuple(pairs[k][min(n, len(pairs[k]) - 1)] if pairs.get(k) else 0 for k in range(len(faces)))
        for n in range(longest)
    )
    return CourseSets(of_faces=tuple(of_faces), together=tuple(dict.fromkeys(together)))


def _alike(faces: Sequence[Face]) -> Iterator[tuple[int, ...]]:
    """Numbers of the slopes that have the same sets of courses."""
    groups: dict[tuple[object, ...], list[int]] = {}
    for k, face in enumerate(faces):
        if face.kind != "wall":
            _, low, _, high = face.outline.bounds
            shown = face.shown and (
                face.shown.eave,
                face.shown.eave_hidden_to,
                face.shown.high,
                face.shown.high_hidden_from,
                face.shown.everywhere,
            )
            key = (*(round(v, _PLACES) for v in (low, high)), face.cover, shown)
            groups.setdefault(key, []).append(k)
    yield from (tuple(group) for group in groups.values())


class _Ranking:
    """The sets of slopes that are alike, by what they cost ripped from sheets, with nothing lost at their ends."""

    def __init__(self, faces: Sequence[Face], rates: Mapping[str, float]) -> None:
        self._sets = slope_courses_of(faces[0])
        self._halves = (faces[::2], faces[1::2])
        cover = faces[0].cover
        assert cover is not None  # only covered faces come here
        self._rates = rates[cover.exposed], rates[cover.field]
        self._widths = tuple(smallest_sheet(sheet_product(name))[0] for name in (cover.exposed, cover.field))
        self._shares = stands_in(cover)
        self._row = smallest_sheet(sheet_product(cover.field))[1]
        self._lengths: dict[tuple[int, tuple[float, float]], float] = {}
        both = len(faces) > 1
        alone = {courses: self._cost((courses, courses) if both else (courses,)) for courses in self._sets}
        costed = [(cost, len(courses), courses) for courses, cost in alone.items()]
        # What a lone slope begins no other one goes on with: there both ways of counting are worth a try.
        self._ranked = [one for *_, one in sorted(costed, key=lambda one: one[:2])] if both else _by_turns(costed)
        self.pairs = self._paired() if both else [(courses, courses) for courses in self._ranked]

    def kept(self, most: int) -> tuple[Courses, ...]:
        """The plain set, the best of all and of every strip (so that its price can be told), then the best pairs'."""
        strips: dict[tuple[float, float], Courses] = {}
        for courses in self._ranked:
            strips.setdefault(exposed_heights(courses), courses)
        told = [courses for strip, courses in strips.items() if strip in self._told()]
        best = [courses for pair in self.pairs[:most] for courses in pair]
        return tuple(dict.fromkeys((*self._sets[:1], *best[:2], *self._ranked[:1], *told, *best)))[:most]

    def _told(self) -> set[tuple[float, float]]:
        """The strips of whole sheets, and the best three others."""
        strips = dict.fromkeys(exposed_heights(courses) for courses in self._ranked)
        whole = [strip for strip in strips if strip[0] >= self._widths[0] - TOLERANCE.length]
        return {*whole[:1], *list(strips)[:3]}

    def _paired(self) -> list[tuple[Courses, Courses]]:
        by_strip: dict[tuple[float, float], list[Courses]] = {}
        for courses in self._ranked:
            by_strip.setdefault(exposed_heights(courses), []).append(courses)
        found = [
            (self._cost((one, other)), len(one) + len(other), (one, other))
            for sets in list(by_strip.values())[:MOST_STRIPS]
            for k, one in enumerate(sets[:MOST_PAIRED])
            for other in sets[k:MOST_PAIRED]
        ]
        return [pair for *_, pair in sorted(found, key=lambda one: one[:2])]

    def _cost(self, pair: tuple[Courses, ...]) -> _Costs:
        """What the strips of a pair cost, ripped greedily: exposed ones first, whose rests may serve the field.

        First in whole rows, since a row begun is a row gone; of as dear ones fewer heights are better, because pieces
        of one height make up each other's rows. Last what it would be in longer rows.
        """
        exposed: dict[float, float] = {}
        field: dict[float, float] = {}
        for half, courses in enumerate(pair):
            for course in courses:
                into = exposed if course.zone == "exposed" else field
                height = round(course.v[1] - course.v[0], 3)
                into[height] = into.get(height, 0.0) + self._length(half, course.v) / self._row
        whole = self._ripped(exposed, field, up=True)
        exact = self._ripped(exposed, field, up=False)
        return whole, len(exposed) + len(field), exact

    def _ripped(self, exposed: Mapping[float, float], field: Mapping[float, float], *, up: bool) -> float:
        first, left = (
            [
                [height, float(ceil(rows - _SPARE_ROW)) if up else rows]
                for height, rows in sorted(of.items(), reverse=True)
            ]
            for of in (exposed, field)
        )
        cost = self._rates[0] * _sheets(first, self._widths[0], left if self._shares else [], whole=up)
        return round(cost + self._rates[1] * _sheets(left, self._widths[1], [], whole=up), 3)

    def _length(self, half: int, v: tuple[float, float]) -> float:
        """How long a course is on the average, over the slopes of a half [in]."""
        key = half, v
        if key not in self._lengths:
            self._lengths[key] = sum(_area(face, v) for face in self._halves[half]) / (v[1] - v[0])
        return self._lengths[key]


_Costs = tuple[float, int, float]
"""In whole rows, number of heights, exact."""


def _by_turns(known: Sequence[tuple[_Costs, int, Courses]]) -> list[Courses]:
    """By what they cost in whole rows and by what they cost exactly, by turns; of as dear ones the fewest courses."""
    rows = sorted(known, key=lambda one: one[:2])
    exact = sorted(known, key=lambda one: (one[0][2], one[0][1], one[1]))
    return list(dict.fromkeys(what for pair in zip(rows, exact, strict=True) for *_, what in pair))


def exposed_heights(courses: Sequence[Course]) -> tuple[float, float]:
    """Heights of the first and the last exposed course [in]; 0 where there is none."""
    exposed = [c.v[1] - c.v[0] for c in courses if c.zone == "exposed"]
    return (exposed[0] if exposed else 0.0, exposed[-1] if len(exposed) > 1 else 0.0)


def _area(face: Face, v: tuple[float, float]) -> float:
    from shapely import box

    left, _, right, _ = face.outline.bounds
    return float(face.outline.polygon.intersection(box(left, v[0], right, v[1])).area)


def _sheets(strips: list[list[float]], width: float, others: list[list[float]], *, whole: bool) -> float:
    """Sheets that strips are ripped from, highest first; what is left of each serves the others.

    Args:
        strips: height and number of rows of each, highest first; used up.
        width: of a sheet [in].
        others: the same of strips that may lie on what is left; what does is taken off.
        whole: no sheet is shared by rows of several patterns.
    """
    taken = 0.0
    for k in range(len(strips)):
        while strips[k][1] > TOLERANCE.length:
            room, filling = width, []
            for strip in (*strips[k:], *others):
                count = int((room + 1e-3) // strip[0]) if strip[1] > TOLERANCE.length else 0
                if count:
                    filling.append((strip, count))
                    room -= count * strip[0]
            if not filling:  # higher than a sheet: it takes one whole
                filling = [(strips[k], 1)]
            run = min(strip[1] / count for strip, count in filling)
            run = max(1.0, float(floor(run + _SPARE_ROW))) if whole else run
            for strip, count in filling:
                strip[1] = max(0.0, strip[1] - run * count)
            taken += run
    return taken
