"""Whether a loft has room: no post, tie or partition stands where its joists, ledgers and beam lie."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import TYPE_CHECKING

from takeoff.findings import Finding, PlanError, Severity
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from takeoff.findings import Place
    from takeoff.model.member import Member
    from takeoff.plan.schema import Building

INSIDE = ("ridge-post", "post", "rafter-tie", "collar-tie", "ceiling-joist", "purlin-beam")
"""Sticks of a roof that reach into the room below it; all are level or plumb."""

LEAST_SQIN = 0.05
"""Sticks that share less than this, seen from above, only touch: 1/32 of the thickness of a stud [sq in]."""


def refuse_meeting(
    building: Building, loft: str, sticks: Sequence[Member], standing: Sequence[Member], written: Place
) -> None:
    """Refuse a loft whose sticks stand in others.

    Args:
        building: as the plan writes it.
        loft: its name.
        sticks: of the loft.
        standing: the building's sticks without those of its floors.
        written: where the loft is written.

    Raises:
        PlanError: it meets something; each thing once, with how far.
    """
    partitions = frozenset(partition.name for partition in building.walls.partitions)
    found: dict[str, str] = {}
    for other in standing:
        inside = other.role.name in INSIDE or other.face in partitions
        what = f"partition {other.face!r}" if other.face in partitions else f"the {other.name}"
        if inside and what not in found:
            for stick in sticks:
                into = _into(stick, other)
                if into is not None:
                    found[what] = _message(loft, stick, what, into)
                    break
    if found:
        raise PlanError(list(_findings(building, loft, found, written)))


def _findings(building: Building, loft: str, found: dict[str, str], written: Place) -> Iterator[Finding]:
    for message in found.values():
        yield Finding(
            rule="frame.loft",
            severity=Severity.ERROR,
            message=message,
            place=written,
            building=building.name,
            where=loft,
        )


def _message(loft: str, stick: Member, what: str, into: tuple[float, float, float]) -> str:
    x, y, up = into
    mend = "make it lower or shorter" if what.startswith("partition") else "move one of the two"
    return (
        f"{stick.name} of {loft!r} and {what} stand {format_length(up)} of height in each other at"
        f" x {format_length(x)}, y {format_length(y)}; {mend}, or let the loft end before it"
    )


def _into(one: Member, other: Member) -> tuple[float, float, float] | None:
    """Where two sticks meet, x and y, and how much of their height they share [in]; None where they don't."""
    (a, low_a, high_a), (b, low_b, high_b) = _stands(one), _stands(other)
    up = min(high_a, high_b) - max(low_a, low_b)
    if up <= TOLERANCE.mark:
        return None
    shared = a.intersection(b)
    if shared.area <= LEAST_SQIN:
        return None
    return float(shared.centroid.x), float(shared.centroid.y), up


def _stands(member: Member) -> tuple[BaseGeometry, float, float]:
    """What a level or plumb stick covers seen from above, and its lowest and highest point [in]."""
    from shapely import MultiPoint

    x0, y0, x1, y1 = member.side.bounds
    half = member.profile.thickness_in / 2
    corners = [member.placement.to_world(p) for p in product((x0, x1), (y0, y1), (-half, half))]
    heights = [z for _, _, z in corners]
    return MultiPoint([(x, y) for x, y, _ in corners]).convex_hull, min(heights), max(heights)
