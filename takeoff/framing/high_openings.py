"""Openings high in a wall: their headers have room under the rake, with the king studs beside them; or under plates."""

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


PLATES = 2
"""Top plate and cap plate."""


def refuse_over_the_rake(building: Building, wall: Wall, written: Callable[[str], Place]) -> None:
    """Refuse the openings whose headers or kings would stand in the roof, or in plates as high as the roof sets them.

    Raises:
        PlanError: one does; all of them are in it.
    """
    line = wall.studs_to if wall.balloon else None
    found: list[Finding] = []
    for index, opening in enumerate(building.walls.openings):
        if opening.side != wall.side.name:
            continue
        framed = rough_opening(opening)
        (left, right), (_, high) = framed.framed(wall.studs.thickness_in, wall.plate)
        king = wall.studs.thickness_in
        under = min(line.at(u) for u in (left - king, right + king)) if line else wall.height - PLATES * wall.plate
        if under - high < -TOLERANCE.length:
            lower = format_length(high - under)
            what = f"the rake of the {wall.side.name} gable over its king studs"
            message = (
                f"the {opening.call} {opening.usual.words} and its {opening.header_size} header rise {lower} above"
                f" {what if line else f'the underside of the plates of the {wall.side.name} wall'}; set its head"
                f" {lower} lower{', or move it toward the peak' if line else ''}"
            )
            place = written(f"walls.openings[{index}]")
            found.append(Finding(rule="frame.opening", severity=Severity.ERROR, message=message, place=place))
    if found:
        raise PlanError(found)
