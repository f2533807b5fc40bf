"""Lay-up of a roof slope: courses along the eave, strength axis across the rafters, joints staggered.

ridge slot
+--+----------+----------+--+    field courses, their joints set off from course to course
|XX|    :     |    :     |XX|    X: the exposed grade wherever the underside shows; at the rake its joint
+--+----------+----------+--+    to the field is over a rafter, at the eave over the wall
|XXXXXXXXX|XXXXXXXXXX|XXXXXX|
+---------------------------+    eave
"""

from __future__ import annotations

from takeoff.catalog.sheets import sheet_product
from takeoff.model.courses import slope_courses, smallest_sheet
from takeoff.model.face import Face, Shown
from takeoff.sheathing.cells import Cell, Reach, Zone, joints_on, spans

LEAST_LENGTH_IN = 24.0
"""Shortest piece along a course, where supports allow [in]. Common practice, no source."""


def slope_cells(face: Face) -> tuple[Cell, ...]:
    """Cells of a slope, course by course from the eave."""
    if face.cover is None:
        return ()
    split = face.shown if face.cover.exposed != face.cover.field else None
    _, low, _, high = face.outline.bounds
    return tuple(
        cell
        for number, course in enumerate(slope_courses(low, high, face.cover, face.shown))
        for cell in _course(face, course.v, number, split if course.zone == "field" else None, course.zone)
    )


def _course(face: Face, v: tuple[float, float], number: int, split: Shown | None, zone: Zone) -> tuple[Cell, ...]:
    """Cells of one course; with ``split``, its ends are of the exposed grade."""
    left, _, right, _ = face.outline.bounds
    u0, u1 = _rake_joints(face, split) if split else (left, right)
    cells = [Cell(span, v, zone) for span in _staggered(face, u0, u1, number)]
    # The ends are longer than a sheet only where no rafter stands near the rake.
    cells = [*(Cell(span, v, "exposed") for span in _staggered(face, left, u0, 0) if u0 > left), *cells]
    cells += [Cell(span, v, "exposed") for span in _staggered(face, u1, right, 0) if u1 < right]
    return tuple(cells)


def _rake_joints(face: Face, shown: Shown) -> tuple[float, float]:
    """U of the joints between grades: over the first rafters far enough inside for a piece worth laying."""
    left, _, right, _ = face.outline.bounds
    inside = [c for c in face.supports.centres if shown.left < c < shown.right]
    u0 = min((c for c in inside if c - left >= LEAST_LENGTH_IN), default=left) if shown.left > left else left
    u1 = max((c for c in inside if right - c >= LEAST_LENGTH_IN), default=right) if shown.right < right else right
    return (u0, u1) if u0 < u1 else (left, right)


def _staggered(face: Face, u0: float, u1: float, number: int) -> tuple[tuple[float, float], ...]:
    """Spans of one course; every other course starts with half a sheet, so that no four corners meet."""
    if face.cover is None:
        return ()
    length = smallest_sheet(sheet_product(face.cover.field))[1]
    half = length / 2 if number % 2 else None
    supports, start, end = face.supports.centres, u0, u1
    reach = Reach(most=length, least=LEAST_LENGTH_IN)
    if face.supports.from_right:
        mirrored = joints_on(-end, -start, tuple(-s for s in supports), reach, first=half)
        return spans(start, end, tuple(-j for j in reversed(mirrored)))
    return spans(start, end, joints_on(start, end, supports, reach, first=half))
