"""What a tape pulls at a wing's mouth: main rafters over the beam, where the valley plates lie, jacks along them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.roles import role
from takeoff.framing.plate_lines import ON_EDGE_IN
from takeoff.framing.valley_plates import laid_edges
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.layout import LayoutLine, LayoutMark

if TYPE_CHECKING:
    from takeoff.framing.mouths import Crossing
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.plan.footprint import Footprint


def mouth_lines(roof: RoofFrame, ground: Footprint, crossing: Crossing) -> Iterator[LayoutLine]:
    """Main rafters over the beam, and the corners and the peak of the valleys along it and up the main slope.

    Args:
        roof: designed.
        ground: footprint of the building.
        crossing: the line across the mouth.
    """
    first = _corner(ground, crossing)
    yield _beam_line(roof, crossing, first)
    yield from _snapped(roof, crossing, first)


def _snapped(roof: RoofFrame, crossing: Crossing, first: str) -> Iterator[LayoutLine]:
    """Where a chalk line for the valley plates' edges beside the valley is snapped on the main sheathing."""
    spots = {
        (round(u, 6), round(v, 6))
        for mouth in crossing.mouths
        for wing in mouth.wings
        for run in laid_edges(roof.rows[wing].slope, mouth.plane)
        for u, v in run
    }
    up = max(roof.rows[mouth.main].slope.outline.bounds[3] for mouth in crossing.mouths)
    low = min(v for _, v in spots)

    def words(v: float) -> str:
        return "foot of a valley plate's outer edge" if v - low < ON_EDGE_IN else "peak of a valley plate's outer edge"

    left, right = crossing.walls
    yield LayoutLine(
        name=f"{crossing.label}, valley plates on the main sheathing, along its edge at the mouth",
        start=f"outside of the {first} wall",
        length_in=right - left,
        marks=tuple(LayoutMark(u - left, "V", words(v)) for u, v in sorted(spots)),
    )
    yield LayoutLine(
        name=f"{crossing.label}, valley plates on the main sheathing, up the slope",
        start="edge of the sheathing at the mouth",
        length_in=up,
        marks=tuple(LayoutMark(v, "V", words(v)) for v in sorted({v for _, v in spots})),
    )


def _corner(ground: Footprint, crossing: Crossing) -> str:
    """The wall whose outside the beam's line starts at: at its left, seen from outside the main wall."""
    beside = (ground.left_of(crossing.mouths[0].end), ground.right_of(crossing.mouths[0].end))
    side = ground.side(crossing.side)

    def along(spot: tuple[float, float]) -> float:
        return (spot[0] - side.start[0]) * side.direction[0] + (spot[1] - side.start[1]) * side.direction[1]

    return min(beside, key=lambda wall: along(wall.start)).name


def _beam_line(roof: RoofFrame, crossing: Crossing, first: str) -> LayoutLine:
    left, right = crossing.walls
    marks = {
        (round(one.u - left, 6), known.layout_symbol, known.words.split(",")[0])
        for mouth in crossing.mouths
        for one in roof.rows[mouth.main].placed
        for known in (role(one.role),)
        if one.seated and left - TOLERANCE.length < one.u < right + TOLERANCE.length
    }
    return LayoutLine(
        name=f"{crossing.label} mouth, top of beam and corners",
        start=f"outside of the {first} wall",
        length_in=right - left,
        marks=tuple(LayoutMark(*mark) for mark in sorted(marks)),
    )
