"""Courses of sheets up a slope: where their level edges are, for the sheets themselves and for what lies under them."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor
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

    They are the first of `course_choices`: what is laid where nobody counts the cost.

    Args:
        low: v of the lower edge [in].
        high: v of the upper edge [in].
        cover: the sheets.
        shown: where the underside shows; None where it does nowhere.
    """
    return course_choices(low, high, cover, shown)[0]


def course_choices(low: float, high: float, cover: Cover, shown: Shown | None) -> tuple[tuple[Course, ...], ...]:
    """All sets of courses worth the reckoning, the plain one first.

    They differ in the height of the exposed strip (the least that reaches the wall, all that the wall hides, a half
    or a third of a sheet, a whole sheet) and in that of the first course of the field (a whole sheet, a half, a third,
    a quarter, what makes the last course one of these, or any whole inch).
    Arguments as of `slope_courses`.
    """
    split = shown if cover.exposed != cover.field else None
    width, field = (smallest_sheet(sheet_product(name))[0] for name in (cover.exposed, cover.field))
    height = high - low
    strips: tuple[float, ...] = (0.0,)
    tops: tuple[float, ...] = (0.0,)
    if split and split.everywhere:
        return tuple(tuple(Course(v, "exposed") for v in lines) for lines in _line_choices(low, high, width))
    if split:
        strips = _strips(split.eave - low, split.eave_hidden_to - low, width, height)
        if split.high is not None:
            tops = _strips(high - split.high, high - split.high_hidden_from, width, height - max(strips))
    return tuple(
        dict.fromkeys(
            (
                *((Course((low, low + strip), "exposed"),) if strip else ()),
                *(Course(v, "field") for v in lines),
                *((Course((high - top, high), "exposed"),) if top else ()),
            )
            for strip in strips
            for top in tops
            for lines in _line_choices(low + strip, high - top, field)
        )
    )


def smallest_sheet(product: SheetProduct) -> tuple[float, float]:
    """Width and length of the product's smallest sheet [in]."""
    return min(product.sizes, key=lambda size: size[1])


def _strips(least: float, most: float, width: float, room: float) -> tuple[float, ...]:
    """Heights that the exposed grade may have along an edge of the slope [in], the plain one first.

    It must reach the outside of the wall and end over it. A strip that goes evenly into a sheet's width is plain, the
    more strips a sheet the better; where none ends over the wall, a whole sheet hides the joint inside the wall.

    Args:
        least: from the edge to the outside of the wall [in].
        most: from the edge to where the wall no longer hides a joint [in].
        width: of a sheet [in].
        room: height of the slope that is left [in].
    """
    if least < TOLERANCE.length:
        return (0.0,)
    rips = floor(width / least + TOLERANCE.length)
    even = width / rips if rips else most
    plain = even if rips == 1 or even <= most + TOLERANCE.length else most
    others = (ceil(least), most, width, *range(ceil(least) + 1, ceil(most)))
    wanted = (plain, *(strip for strip in others if least <= strip <= width and (strip <= most or strip == width)))
    return tuple(dict.fromkeys(min(strip, room) for strip in wanted))


def _line_choices(low: float, high: float, width: float) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Courses from ``low`` up, by the height of the first; the plain way, a whole sheet first, before all others."""
    plain = _course_lines(low, high, width)
    height = high - low
    rest = height % width
    if height <= width:
        return (plain,)
    firsts = [width / k for k in (2, 3, 4)]
    firsts += [(rest - width / k) % width for k in (2, 3, 4)] + [rest / 2, (rest + width) / 2]
    firsts += [float(whole) for whole in range(ceil(LEAST_COURSE_IN), floor(width))]
    found = [plain]
    for first in firsts:
        last = (height - first) % width
        if LEAST_COURSE_IN <= first <= width and not TOLERANCE.length < last < LEAST_COURSE_IN:
            found.append(_from_first(low, high, first, width))
    return tuple(dict.fromkeys(found))


def _course_lines(low: float, high: float, width: float) -> tuple[tuple[float, float], ...]:
    """Courses from ``low`` up; where the last would be too narrow the first gives it what it lacks."""
    height = high - low
    if height <= TOLERANCE.length:
        return ()
    rest = height % width
    lacking = LEAST_COURSE_IN - rest if TOLERANCE.length < rest < LEAST_COURSE_IN and height > width else 0.0
    return _from_first(low, high, min(width - lacking, height), width)


def _from_first(low: float, high: float, first: float, width: float) -> tuple[tuple[float, float], ...]:
    """Courses of a sheet's width over a first one of a given height; the last is what is left."""
    lines = [low]
    if high - low > first + TOLERANCE.length:
        lines.append(low + first)
    while high - lines[-1] > width + TOLERANCE.length:
        lines.append(lines[-1] + width)
    return tuple(pairwise((*lines, high)))
