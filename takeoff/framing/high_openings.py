"""Openings high in a gable: their headers have room under the rake, with the king studs beside them."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.openings import rough_opening
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.framing.wall import Wall
    from takeoff.plan.schema import Building


def refuse_over_the_rake(building: Building, wall: Wall, written: Callable[[str], Place]) -> None:
    """Refuse the openings of a balloon-framed gable whose headers or kings would stand in the roof.

    Raises:
        PlanError: one does; all of them are in it.
    """
    line = wall.studs_to
    if not wall.balloon or line is None:
        return
    found: list[Finding] = []
    for index, opening in enumerate(building.walls.openings):
        if opening.side != wall.side.name:
            continue
        framed = rough_opening(opening)
        (left, right), (_, high) = framed.framed(wall.studs.thickness_in, wall.plate)
        king = wall.studs.thickness_in
        room = min(line.at(u) for u in (left - king, right + king)) - high
        if room < -TOLERANCE.length:
            lower = format_length(-room)
            message = (
                f"the {opening.call} {opening.usual.words} and its {opening.header_size} header rise {lower} above the"
                f" rake of the {wall.side.name} gable over its king studs; set its head {lower} lower, or move it"
                " toward the peak"
            )
            place = written(f"walls.openings[{index}]")
            found.append(Finding(rule="frame.opening", severity=Severity.ERROR, message=message, place=place))
    if found:
        raise PlanError(found)
