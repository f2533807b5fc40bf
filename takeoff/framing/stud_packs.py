"""Stud packs: studs side by side in the walls behind the ends of loft beams and girders, down to the bottom plate."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import TYPE_CHECKING

from takeoff.findings import Finding, Place, Severity
from takeoff.framing.floor_plan import floor_plan
from takeoff.framing.floor_sticks import girder_run
from takeoff.framing.spacing import clear_of
from takeoff.framing.studs import fixed_uprights, jack_centres
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.framing.wall import Wall
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.schema import Building

OWN_POST_IN = 12.0
"""A post so near the end of a beam carries that end [in]. Common practice, no source."""

MEETS_IN = 0.25
"""A beam that ends so near the face of a wall ends on it [in]: room to set it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamEnd:
    """An end of a beam that no post of its own carries."""

    what: str
    spot: tuple[float, float, float]
    """Middle of its end, at its lower edge [in]."""
    width: float
    written: Place


def beam_ends(building: Building, ground: Footprint, written: Callable[[str], Place]) -> tuple[BeamEnd, ...]:
    """Ends of the beams and girders of all lofts that no post of their own carries."""
    return tuple(_ends(building, ground, written))


def _ends(building: Building, ground: Footprint, written: Callable[[str], Place]) -> Iterator[BeamEnd]:
    for index, loft in enumerate(building.floors.lofts):
        place = written(f"floors.lofts[{index}]")
        plan = floor_plan(building, ground, loft, place)
        for girder in plan.girders:
            low = -girder.profile.depth_in - (plan.joist.depth_in if girder.joists == "over" else 0.0)
            for u in girder_run(plan, girder):
                if all(abs(u - post) > OWN_POST_IN for post in girder.posts):
                    yield BeamEnd(
                        what=f"{girder.name} of {plan.name}",
                        spot=plan.bench.placement.to_world((u, girder.v, low)),
                        width=girder.plies * girder.profile.thickness_in,
                        written=place,
                    )


def packed(
    building: str, walls: Sequence[Wall], ends: Sequence[BeamEnd]
) -> tuple[tuple[Wall, ...], tuple[Finding, ...]]:
    """The walls with a pack of studs behind each end of a beam, and what there is to say of it.

    Args:
        building: its name.
        walls: of its outline, and its partitions.
        ends: of beams.
    """
    done, findings = list(walls), []
    for end in ends:
        k = next((k for k, wall in enumerate(done) if _meets(wall, end)), None)
        if k is None:
            message = (
                f"the {end.what} ends at [{format_length(end.spot[0])}, {format_length(end.spot[1])}] on no wall and"
                " on no post of its own; write posts for it, or run it to a wall"
            )
            findings.append(_say(building, end, Severity.WARNING, message))
            continue
        done[k], found = _with_pack(building, done[k], end)
        findings.append(found)
    return tuple(done), tuple(findings)


def _meets(wall: Wall, end: BeamEnd) -> bool:
    u, v, w = wall.bench.placement.from_world(end.spot)
    faces = (-wall.studs.depth_in, 0.0)
    on_face = any(abs(w - face) < MEETS_IN for face in faces)
    return on_face and wall.extent[0] <= u <= wall.extent[1] and v < wall.height


def _with_pack(building: str, wall: Wall, end: BeamEnd) -> tuple[Wall, Finding]:
    t = wall.studs.thickness_in
    u, v, _ = wall.bench.placement.from_world(end.spot)
    plies = max(2, ceil(end.width / t - TOLERANCE.length))
    wanted = [u + (k - (plies - 1) / 2) * t for k in range(plies)]
    jacks = [j for opening in wall.openings for j in jack_centres(opening, t)]
    taken = (*(upright.u for upright in fixed_uprights(wall)), *wall.post_centres, *jacks)
    stands = [
        c for c in clear_of(wanted, taken, t) if not any(o.u[0] - t / 2 < c < o.u[1] + t / 2 for o in wall.openings)
    ]
    over = [o.what for o in wall.openings if o.u[0] < u < o.u[1] and o.v[0] < v]
    where = f"the {end.what} ends on the {wall.side.name} wall {format_length(u)} from its left end"
    if over:
        message = f"{where}, over the {over[0]}: its header carries the beam and wants a licensed design; or move one"
        return wall, _say(building, end, Severity.WARNING, message)
    beside = [c for c in taken if abs(c - u) < (end.width + t) / 2 - TOLERANCE.length]
    message = (
        f"{where}: a pack of {len(stands) + len(beside)} studs stands in the wall behind it, down to the bottom plate,"
        " to hang it on"
    )
    if beside:
        message += f", {len(beside)} of them there for something else"
    return replace(wall, packs=tuple(sorted((*wall.packs, *stands)))), _say(building, end, Severity.NOTE, message)


def _say(building: str, end: BeamEnd, severity: Severity, message: str) -> Finding:
    return Finding(
        rule="frame.stud-pack",
        severity=severity,
        message=message,
        place=end.written,
        building=building,
        where=end.what,
    )
