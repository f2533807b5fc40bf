"""Which pieces of a face's sheathing are ripped narrower than the sheet, and where their factory edge belongs.

Across the strength axis a course is as wide as the sheet, or ripped: then one edge is the factory's and one is sawn.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from takeoff.catalog.sheets import sheet_product
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.sheets.crew.alike import by_number, short_ids

if TYPE_CHECKING:
    from takeoff.model.face import Face
    from takeoff.model.panel import Panel
    from takeoff.sheets.crew.figures import Figures

_LEAST_IN = 1.0
"""A course lower than this is the tip of a slope, not a course [in]."""


def ripped_words(face: Face, panels: Sequence[Panel], figures: Figures) -> str:
    """What a carpenter rips for a face and which way the pieces go on; empty where all sheets are whole in width."""
    level = [panel for panel in panels if panel.strength_axis == "u"]
    upright = [panel for panel in panels if panel.strength_axis == "v"]
    said = (*_courses(face, level, figures), *_columns(upright, figures))
    return f"{'. '.join(said)}." if said else ""


def _courses(face: Face, panels: Sequence[Panel], figures: Figures) -> Iterator[str]:
    """``0" to 2'-0": rip 2'-0" off, factory edge up``, course by course."""
    heights = _whole_courses(panels)
    low, up = ("near", "far") if face.kind == "floor" else ("down", "up")
    for index, (v0, v1) in enumerate(heights):
        off = _sheet_width(panels) - (v1 - v0)
        if off < TOLERANCE.mark:
            continue
        first = index == 0 and len(heights) > 1
        span = f"{figures.length(v0 - heights[0][0])} to {figures.length(v1 - heights[0][0])}"
        edge = f"factory edge {up if first else low}, sawn edge {_outer(face, first=first)}"
        more = "" if index in (0, len(heights) - 1) else " in the joint"
        told = f"factory edge {low}, sawn edge{more}" if more else edge
        yield f"Course {span}: {figures.length(v1 - v0)} wide, rip {figures.length(off)} off, {told}"


def _outer(face: Face, *, first: bool) -> str:
    if face.kind == "slope":
        return "at the eave" if first else "at the top"
    return "at the rim" if face.kind == "floor" else "at the plate"


def _whole_courses(panels: Sequence[Panel]) -> list[tuple[float, float]]:
    """Lower and upper edge of each course, from below: of the pieces that start at one height, most of them."""
    areas: dict[float, dict[float, float]] = {}
    for panel in panels:
        _, v0, _, v1 = panel.polygon.bounds
        tops = areas.setdefault(round(v0, 3), {})
        tops[round(v1, 3)] = tops.get(round(v1, 3), 0.0) + float(panel.polygon.area)
    courses: list[tuple[float, float]] = []
    for v0 in sorted(areas):
        v1 = max(areas[v0], key=lambda top: areas[v0][top])
        if v1 - v0 >= _LEAST_IN and (not courses or v0 >= courses[-1][1] - TOLERANCE.mark):
            courses.append((v0, v1))
    return courses


def _columns(panels: Sequence[Panel], figures: Figures) -> Iterator[str]:
    """Upright sheets ripped to width, by mark."""
    width = _sheet_width(panels)
    ripped: dict[str, set[str]] = {}
    for panel in panels:
        if width - panel.width_in >= TOLERANCE.mark:
            ripped.setdefault(figures.length(width - panel.width_in), set()).add(panel.mark)
    parts = [f"{short_ids(by_number(marks))} {off} off" for off, marks in ripped.items()]
    if parts:
        yield f"Rip {', '.join(parts)}: factory edge at the next sheet, sawn edge at the corner or the opening"


def _sheet_width(panels: Iterable[Panel]) -> float:
    """Width of the sheets that a face is laid with [in]; 0 where there are none."""
    return max((width for panel in panels for width, _ in sheet_product(panel.product).sizes), default=0.0)
