"""What is listed of the outside walls for information: full-height panels for bracing, studs under rafters."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.rules import rule
from takeoff.checks.verdict import section
from takeoff.findings import Finding, Severity
from takeoff.measure import format_length
from takeoff.plan.footprint import footprint

if TYPE_CHECKING:
    from takeoff.model.building import FramedBuilding
    from takeoff.model.member import Member
    from takeoff.plan.footprint import Side
    from takeoff.plan.schema import Building

OVER_IN = 0.76
"""A rafter whose middle is within half a stud of a stud's stands over it [in]."""

UPRIGHTS = ("stud", "king-stud", "jack-stud", "corner-stud", "tee-stud", "gable-stud", "post")


def braced_panels(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Parts of each outside wall that are whole from plate to plate and as wide as a braced panel."""
    limit = rule("brace.panel")
    standing = {face.name: face for face in building.faces if face.kind == "wall" and face.cover}
    for side in footprint(plan).sides:
        face = standing.get(side.name)
        if face is None:
            continue
        openings = sorted((o.left_in, o.right_in) for o in plan.walls.openings if o.side == side.name)
        at, widths = 0.0, list[float]()
        for left, right in (*openings, (side.length_in, side.length_in)):
            widths.append(left - at)
            at = max(at, right)
        panels = [width for width in widths if width >= limit.value]
        words = f"{len(panels)} ({', '.join(map(format_length, panels))})" if panels else "none"
        total, share = sum(panels), 100 * sum(panels) / side.length_in
        yield Finding(
            rule=limit.id,
            severity=Severity.NOTE,
            message=f"{limit.words} {format_length(limit.value)}: {words}; {format_length(total)} of"
            f" {format_length(side.length_in)} ({share:.0f} %), for information: how much is wanted depends on wind,"
            " earthquake and stories",
            place=face.written,
            building=building.name,
            section=section(limit),
            where=f"{side.name} wall",
            found=format_length(total),
        )


def studs_under_rafters(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """How many rafters of each side stand over a stud, where both have one spacing."""
    for side in footprint(plan).sides:
        settings = plan.walls.for_side(side.name)
        if plan.roof.is_gable(side.name) or settings.spacing_in != plan.roof.rafters.spacing:
            continue
        studs = [_along(side, m) for m in building.members if m.face == side.name and m.role.name in UPRIGHTS]
        rafters = [
            m
            for m in building.members
            if m.face == f"{side.name} slope" and m.role.name in ("common-rafter", "end-rafter")
        ]
        if not studs or not rafters:
            continue
        off = [u for u in sorted(_along(side, m) for m in rafters) if all(abs(u - s) > OVER_IN for s in studs)]
        message = f"{len(rafters) - len(off)} of {len(rafters)} rafters stand over a stud"
        if off:
            message += f"; beside one, or over an opening: {', '.join(map(format_length, off))} from the left end"
        yield Finding(
            rule="frame.studs-under-rafters",
            severity=Severity.NOTE,
            message=message,
            place=rafters[0].written,
            building=building.name,
            where=f"{side.name} wall",
        )


def _along(side: Side, member: Member) -> float:
    """Middle of a stick along a side, from its left end seen from outside [in]."""
    x, y, _ = member.placement.to_world((0.0, member.profile.depth_in / 2, 0.0))
    (sx, sy), (dx, dy) = side.start, side.direction
    return (x - sx) * dx + (y - sy) * dy
