"""Lay-up of a roof slope: courses along the eave, strength axis across the rafters, joints staggered.

ridge slot
+--+----------+----------+--+    field courses, their joints set off from course to course
|XX|    :     |    :     |XX|    X: the exposed grade wherever the underside shows; at the rake its joint
+--+----------+----------+--+    to the field is over a rafter, at the eave over the wall
|XXXXXXXXX|XXXXXXXXXX|XXXXXX|
+---------------------------+    eave
"""

from __future__ import annotations

from math import floor

from takeoff.catalog.sheets import SheetProduct, sheet_product
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.face import Face, Shown
from takeoff.sheathing.cells import Cell, Reach, Zone, joints_on, spans

LEAST_COURSE_IN = 12.0
"""Narrowest course down a slope [in]. Common practice, no source."""

LEAST_LENGTH_IN = 24.0
"""Shortest piece along a course, where supports allow [in]. Common practice, no source."""


def slope_cells(face: Face) -> tuple[Cell, ...]:
    """Cells of a slope, course by course from the eave."""
    if face.cover is None:
        return ()
    field = sheet_product(face.cover.field)
    split = face.shown if face.cover.exposed != face.cover.field else None
    _, low, _, high = face.outline.bounds
    width = _size(sheet_product(face.cover.exposed))[0]
    strip = _strip(split.eave - low, split.eave_hidden_to - low, width, high - low) if split else 0.0
    top = 0.0
    if split and split.high is not None:
        top = _strip(high - split.high, high - split.high_hidden_from, width, high - low - strip)
    courses: list[tuple[tuple[float, float], Zone]] = [((low, low + strip), "exposed")] if strip else []
    courses += [(v, "field") for v in _course_lines(low + strip, high - top, _size(field)[0])]
    courses += [((high - top, high), "exposed")] if top else []
    return tuple(
        cell
        for number, (v, zone) in enumerate(courses)
        for cell in _course(face, v, number, split if zone == "field" else None, zone)
    )


def _size(product: SheetProduct) -> tuple[float, float]:
    """Width and length of the product's smallest sheet [in]."""
    return min(product.sizes, key=lambda size: size[1])


def _strip(least: float, most: float, width: float, room: float) -> float:
    """Height of the exposed grade along an edge of the slope [in].

    It must reach the outside of the wall and end over it. A strip that goes evenly into a sheet's width wins, the
    more strips a sheet the better; where none ends over the wall, a whole sheet hides the joint inside the wall.

    Args:
        least: from the edge to the outside of the wall [in].
        most: from the edge to where the wall no longer hides a joint [in].
        width: of a sheet [in].
        room: height of the slope that is left [in].
    """
    if least < TOLERANCE.length:
        return 0.0
    rips = floor(width / least + TOLERANCE.length)
    strip = width / rips if rips else most
    return min(strip if rips == 1 or strip <= most + TOLERANCE.length else most, room)


def _course_lines(low: float, high: float, width: float) -> tuple[tuple[float, float], ...]:
    """Courses from ``low`` up; where the last would be too narrow the first gives it what it lacks."""
    height = high - low
    if height <= TOLERANCE.length:
        return ()
    rest = height % width
    lacking = LEAST_COURSE_IN - rest if TOLERANCE.length < rest < LEAST_COURSE_IN and height > width else 0.0
    lines = [low]
    if lacking:
        lines.append(low + width - lacking)
    while high - lines[-1] > width + TOLERANCE.length:
        lines.append(lines[-1] + width)
    return spans(low, high, lines[1:])


def _course(face: Face, v: tuple[float, float], number: int, split: Shown | None, zone: Zone) -> tuple[Cell, ...]:
    """Cells of one course; with ``split``, its ends are of the exposed grade."""
    left, _, right, _ = face.outline.bounds
    u0, u1 = _rake_joints(face, split) if split else (left, right)
    cells = [Cell(span, v, zone) for span in _staggered(face, u0, u1, number)]
    if u0 > left:
        cells.insert(0, Cell((left, u0), v, "exposed"))
    if u1 < right:
        cells.append(Cell((u1, right), v, "exposed"))
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
    length = _size(sheet_product(face.cover.field))[1]
    half = length / 2 if number % 2 else None
    supports, start, end = face.supports.centres, u0, u1
    reach = Reach(most=length, least=LEAST_LENGTH_IN)
    if face.supports.from_right:
        mirrored = joints_on(-end, -start, tuple(-s for s in supports), reach, first=half)
        return spans(start, end, tuple(-j for j in reversed(mirrored)))
    return spans(start, end, joints_on(start, end, supports, reach, first=half))
