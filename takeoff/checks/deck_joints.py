"""End joints of a deck's sheets: whether a joist is under all of them, and the scabs where none is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeoff.findings import Finding, Severity
from takeoff.framing.floors import GLUED
from takeoff.framing.point_loads import PlanBox, plan_box
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.model.building import FramedBuilding
    from takeoff.model.face import Face
    from takeoff.model.panel import Panel
    from takeoff.plan.schema import Building

NAILED_IN = 0.5
"""Each of two sheets that end on a joist has so much of it to be nailed to [in]. Common practice, no source."""

LEAST_IN = 6.0
"""A shorter part of an end joint holds by the tongue of the next course and by what is beside it [in]. Common practice,
no source."""

MOST_TOLD = 6
"""Joints told one by one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bare:
    """A stretch of an end joint that no joist is under."""

    marks: tuple[str, str]
    u: float
    v: tuple[float, float]

    @property
    def length(self) -> float:
        """Of the scab that it wants [in]."""
        return self.v[1] - self.v[0]


def deck_joints(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """End joints of each deck that miss the joists: which sheets, where, and how long the scabs are."""
    for face in building.faces:
        if face.kind != "floor":
            continue
        panels = [panel for panel in building.panels if panel.face == face.name]
        sticks = [m for m in building.members if m.face == face.name and m.role.name in GLUED]
        under = [plan_box(stick, face.placement)[0] for stick in sticks]
        bare = sorted(_bare(panels, under), key=lambda one: (one.u, one.v))
        if bare:
            yield _told(building, plan, face, bare)


def _bare(panels: Sequence[Panel], under: Sequence[PlanBox]) -> Iterator[_Bare]:
    for one in panels:
        _, _, end, _ = one.polygon.bounds
        for other in panels:
            start = other.polygon.bounds[0]
            if one is other or abs(start - end) > TOLERANCE.mark:
                continue
            shared = one.polygon.intersection(other.polygon)
            if shared.length <= TOLERANCE.mark:
                continue
            _, low, _, high = shared.bounds
            on = sorted(box.v for box in under if box.u[0] + NAILED_IN <= end <= box.u[1] - NAILED_IN)
            for v in _left(low, high, on):
                yield _Bare(marks=(one.mark, other.mark), u=end, v=v)


def _left(low: float, high: float, on: Sequence[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """What of a joint's length is on none of the joists."""
    start = low
    for a, b in [*on, (high, high)]:
        if min(a, high) - start > LEAST_IN:
            yield start, min(a, high)
        start = max(start, b)


def _told(building: FramedBuilding, plan: Building, face: Face, bare: Sequence[_Bare]) -> Finding:
    spots = [
        f"{one.marks[0]} and {one.marks[1]} at {format_length(one.u)} from {format_length(one.v[0])} to"
        f" {format_length(one.v[1])}"
        for one in bare[:MOST_TOLD]
    ]
    more = f"; and {len(bare) - MOST_TOLD} more" if len(bare) > MOST_TOLD else ""
    feet = format_length(sum(one.length for one in bare))
    floors = {loft.name: loft for loft in plan.floors.lofts}
    floor = floors.get(face.name, plan.floors.main)
    size = floor.joists.size if floor else ""
    instead = ", or butt the joists over the girder (`splice: butt`)" if floor and floor.splice == "lap" else ""
    message = (
        f"no joist is under the end joint of {'; '.join(spots)}{more} (across and along the joists from the floor's"
        f" first corner): nail a scab of {size} to the joist beside each, {feet} in all, not in the order{instead}"
    )
    return Finding(
        rule="sheathing.deck-joint",
        severity=Severity.WARNING,
        message=message,
        place=face.written,
        building=building.name,
        where=face.name,
    )
