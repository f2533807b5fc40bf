"""Lay-up of a roof slope: courses along the eave, strength axis across the rafters, joints staggered.

ridge slot
+--+----------+----------+--+    field courses, their joints set off from course to course
|XX|    :     |    :    |XXX|    X: the exposed grade wherever the underside shows; at the rake its joint
+--+----------+----------+--+    to the field is over a rafter, at the eave over the wall
|XXXXXXXXX|XXXXXXXXXX|XXXXXX|
+---------------------------+    eave
"""

from __future__ import annotations

from functools import lru_cache

from takeoff.catalog.sheets import sheet_product
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.courses import Course, course_choices, smallest_sheet
from takeoff.model.face import Face, Shown
from takeoff.sheathing.cells import Cell, Reach, extent_of, spans
from takeoff.sheathing.ways import LEAST_STAGGER_IN, Band, Division, Way, division, plainest, runs

LEAST_LENGTH_IN = 24.0
"""Shortest piece along a course, where supports allow [in]. Common practice, no source."""

RAKE_RAFTERS = 2
"""The joint between grades at a rake may lie on the first or the second rafter that is far enough inside."""


def slope_courses_of(face: Face) -> tuple[tuple[Course, ...], ...]:
    """Sets of courses that a slope may have, the plain one first."""
    if face.cover is None:
        return ()
    _, low, _, high = face.outline.bounds
    return course_choices(low, high, face.cover, face.shown)


def slope_cells(face: Face) -> tuple[Cell, ...]:
    """Cells of a slope laid in the plain way, course by course from the eave."""
    sets = slope_courses_of(face)
    return plainest(slope_division(face, sets[0])) if sets else ()


def slope_division(face: Face, courses: tuple[Course, ...]) -> Division:
    """Every way to lay each course of a slope."""
    cover = face.cover
    if cover is None:
        return division((), LEAST_STAGGER_IN)
    split = face.shown if cover.exposed != cover.field else None
    outline = face.outline.polygon
    bands = (
        _band(face, course, extent, split if course.zone == "field" else None)
        for course in courses
        if (extent := extent_of(outline, course.v)) is not None
    )
    return division(tuple(bands), LEAST_STAGGER_IN)


def _band(face: Face, course: Course, extent: tuple[float, float], split: Shown | None) -> Band:
    """Ways of one course; with ``split``, its ends are of the exposed grade."""
    ways = []
    for u0 in _left_joints(face, extent, split):
        for u1 in _right_joints(face, extent, split):
            if u0 < u1:
                ways += [_way(face, course, extent, (u0, u1), joints) for joints in _runs(face, u0, u1)]
    return tuple(ways) or tuple(_way(face, course, extent, extent, joints) for joints in _runs(face, *extent))


def _way(
    face: Face, course: Course, extent: tuple[float, float], field: tuple[float, float], joints: tuple[float, ...]
) -> Way:
    left, right = extent
    cells = [Cell(span, course.v, course.zone) for span in spans(*field, joints)]
    ends, fixed = list(joints), [u for u in field if left < u < right]
    for u0, u1 in ((left, field[0]), (field[1], right)):
        if u1 > u0:
            # Longer than a sheet only where no rafter stands near the rake.
            (first, *_) = _runs(face, u0, u1)
            ends += first
            cells += [Cell(span, course.v, "exposed") for span in spans(u0, u1, first)]
    return Way(cells=tuple(_shown(face, cell) for cell in cells), ends=tuple(sorted(ends)), fixed=tuple(fixed))


def _shown(face: Face, cell: Cell) -> Cell:
    """The cell, of the exposed grade if it reaches over something open, of the field's if it only lies inside."""
    if cell.zone == "exposed" and any(a <= cell.u[0] and cell.u[1] <= b for a, b in face.inside):
        return Cell(cell.u, cell.v, "field")
    if not face.open_below or cell.zone == "exposed":
        return cell
    from shapely import Polygon, box

    whole = box(cell.u[0], cell.v[0], cell.u[1], cell.v[1])
    over = any(Polygon(outline).intersection(whole).area > TOLERANCE.area for outline in face.open_below)
    return Cell(cell.u, cell.v, "exposed") if over else cell


def _left_joints(face: Face, extent: tuple[float, float], split: Shown | None) -> tuple[float, ...]:
    """U where the grades may meet at the left: on rafters far enough inside for a piece worth laying."""
    left, right = extent
    if split is None or split.left <= left:
        return (left,)
    inside = (c for c in face.supports.centres if split.left < c < right and c - left >= LEAST_LENGTH_IN)
    return tuple(inside)[:RAKE_RAFTERS] or (left,)


def _right_joints(face: Face, extent: tuple[float, float], split: Shown | None) -> tuple[float, ...]:
    left, right = extent
    if split is None or split.right >= right:
        return (right,)
    inside = (c for c in face.supports.centres if left < c < split.right and right - c >= LEAST_LENGTH_IN)
    return tuple(inside)[::-1][:RAKE_RAFTERS] or (right,)


def _runs(face: Face, u0: float, u1: float) -> tuple[tuple[float, ...], ...]:
    if face.cover is None:
        return ((),)
    length = smallest_sheet(sheet_product(face.cover.field))[1]
    return _runs_between(u0, u1, face.supports.centres, length, face.supports.from_right)


@lru_cache(maxsize=1024)
def _runs_between(
    u0: float, u1: float, supports: tuple[float, ...], length: float, from_right: bool
) -> tuple[tuple[float, ...], ...]:
    # The same for all courses of a rectangle, and asked for with every set of courses.
    return runs(u0, u1, supports, Reach(most=length, least=LEAST_LENGTH_IN), from_right=from_right)
