"""Rafters behind a clipped gable: none stands on so much of the wall that the clip's hips have no plates to sit on.

The plates of a clip end at the heads of the rafters over its wall. One that stands half off the inner edge of the wall
would push them back by the whole of it; it is moved in beside the wall, as a carpenter does.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.rules import rule
from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from takeoff.framing.roof_lines import RoofSideLine
    from takeoff.framing.slope import Slope
    from takeoff.plan.schema import Building


def off_clipped_walls(building: Building, slopes: Sequence[Slope], lines: Sequence[RoofSideLine]) -> tuple[Slope, ...]:
    """The slopes, their layout lines moved off the clipped walls they end at.

    Args:
        building: as the plan writes it.
        slopes: of its roof.
        lines: what each side does for the roof.
    """
    clipped = [line for line in lines if line.clip]
    return tuple(
        replace(slope, moved_on=(*slope.moved_on, *_moves(building, slope, clipped))) if any(slope.rakes) else slope
        for slope in slopes
    )


def _moves(building: Building, slope: Slope, clipped: Sequence[RoofSideLine]) -> Iterator[tuple[float, float]]:
    half = profile(building.roof.rafters.size).thickness_in / 2
    least = rule("bearing.rafter").value
    for line in clipped:
        depth = profile(building.walls.for_side(line.side.name).studs).depth_in
        at = {round(slope.bench.placement.from_world((*spot, 0.0))[0], 6) for spot in (line.side.start, line.side.end)}
        for end, inward in zip(slope.walls, (1.0, -1.0), strict=True):
            if any(abs(u - end) > TOLERANCE.mark for u in at):
                continue
            # Nearer to the outside it leaves the hips their bearing, or has no room beside the end rafter anyway.
            first = max(depth - least - half, 3 * half)
            yield end + inward * first, end + inward * (depth + half)
