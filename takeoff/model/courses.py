"""Courses of sheets up a slope: where their level edges are, for the sheets themselves and for what lies under them."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import floor
from typing import Literal

from takeoff.catalog.sheets import SheetProduct, sheet_product
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.face import Cover, Shown

LEAST_COURSE_IN = 12.0
"""Narrowest course down a slope [in]. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Course:
    """One course, between two level lines of the slope."""

    v: tuple[float, float]
    zone: Literal["field", "exposed"]


def slope_courses(low: float, high: float, cover: Cover, shown: Shown | None) -> tuple[Course, ...]:
    """Courses of a slope from its lower edge to its upper, with a strip of the exposed grade where an eave shows.

    Args:
        low: v of the lower edge [in].
        high: v of the upper edge [in].
        cover: the sheets.
        shown: where the underside shows; None where it does nowhere.
    """
    split = shown if cover.exposed != cover.field else None
    width = smallest_sheet(sheet_product(cover.exposed))[0]
    if split and split.everywhere:
        return tuple(Course(v, "exposed") for v in _course_lines(low, high, width))
    strip = _strip(split.eave - low, split.eave_hidden_to - low, width, high - low) if split else 0.0
    top = 0.0
    if split and split.high is not None:
        top = _strip(high - split.high, high - split.high_hidden_from, width, high - low - strip)
    courses = [Course((low, low + strip), "exposed")] if strip else []
    field = smallest_sheet(sheet_product(cover.field))[0]
    courses += [Course(v, "field") for v in _course_lines(low + strip, high - top, field)]
    courses += [Course((high - top, high), "exposed")] if top else []
    return tuple(courses)


def smallest_sheet(product: SheetProduct) -> tuple[float, float]:
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
    return tuple(pairwise((*lines, high)))
