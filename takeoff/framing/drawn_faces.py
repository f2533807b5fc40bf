"""Compares elevations of a drawing with the walls and gables as they are framed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.findings import Finding, Severity
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.model.building import FramedBuilding
    from takeoff.plan.drawing_in.drawn import DrawnElevation
    from takeoff.plan.schema import Building

UNLIKE_IN = 2.0
"""So much may an elevation differ from the framing [in]: elevations show a finish, or the rafters' tops."""


def faces_as_drawn(building: Building, framed: FramedBuilding, drawn: tuple[DrawnElevation, ...]) -> Iterator[Finding]:
    """A warning for each elevation that isn't as wide or as high as its wall, or its gable over the plates.

    Args:
        building: as the plan writes it.
        framed: the same, framed.
        drawn: its elevations.
    """
    faces = {face.name: face for face in framed.faces if face.kind == "wall"}
    for elevation in drawn:
        _, low, right, high = faces[elevation.side].outline.bounds
        plates = building.walls.for_side(elevation.side).height_in
        heights = [high - low] if elevation.whole else [high - plates, high - low]
        width, height = elevation.size
        wanted = min(heights, key=lambda framed_high: abs(framed_high - height))
        parts = [("wide", width, right), ("high", height, wanted)]
        for word, found, limit in parts:
            if abs(found - limit) > UNLIKE_IN:
                what = "wall" if elevation.whole else "gable"
                message = (
                    f"found the {elevation.side} {what} drawn {format_length(found)} {word}, expected"
                    f" {format_length(limit)}, as it is framed: off by {format_length(abs(found - limit))}"
                )
                yield Finding(
                    rule="drawing.differs",
                    severity=Severity.WARNING,
                    message=message,
                    place=elevation.trace.place,
                    building=building.name,
                    where=elevation.side,
                )
