"""Whether the stepped or raked plates of an outside wall have room under the roof over it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.framing.wall import Wall


def refuse_top_over_rake(wall: Wall, written: Callable[[str], Place]) -> None:
    """Refuse plates of a gable wall that rise over the rake somewhere between its ends.

    Raises:
        PlanError: they do; says where, and by how much.
    """
    if wall.top is None or wall.rake is None:
        return
    top, rake, (left, right) = wall.top, wall.rake, wall.extent
    bends = {left, right, *(u for line in (top, rake) for u, _ in line.points if left < u < right)}
    beside = [u + s for u in bends for s in (-TOLERANCE.length * 10, TOLERANCE.length * 10)]
    over, at = max(
        (max(top.at(u), top.past(u)) - min(rake.at(u), rake.past(u)), -u) for u in beside if left <= u <= right
    )
    if over > TOLERANCE.mark:
        side, u = wall.side.name, -at
        message = (
            f"the top of the {side} wall, {format_length(top.at(u))} high {format_length(u)} along it, rises"
            f" {format_length(over)} over the underside of the end rafters there; lower that part of its top"
        )
        place = written(f"walls.by_side.{side}.top")
        raise PlanError([Finding(rule="frame.top", severity=Severity.ERROR, message=message, place=place)])
