"""Checks of walls: tall studs, and sill plates too short for their bolts."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.rules import rule
from takeoff.checks.rafters import NEAR
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding, Severity
from takeoff.framing.point_loads import header_under, in_plan
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.footprint import side_names
from takeoff.plan.runs import run_pieces
from takeoff.plan.schema import Building

ROOF_BEAMS = ("ridge-beam", "purlin-beam")
"""What posts in a gable wall carry."""

TALL_ROLES = ("stud", "king-stud", "gable-stud", "post")


def tall_studs(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """The tallest upright of each wall against the height the tables end at."""
    limit = rule("stud.bearing-height")
    partitions = plan.walls.partitions
    idle = (
        {piece.name for piece in run_pieces(plan) if not partitions[piece.partition].bearing} if partitions else set()
    )
    for face in sorted({m.face for m in building.members if m.role.name in TALL_ROLES}):
        if face in idle:
            continue  # the limit is one of studs that bear
        standing = [m for m in building.members if m.face == face and m.role.name in TALL_ROLES]
        tallest = max(standing, key=lambda m: m.length_in)
        yield verdict(
            limit,
            passed=tallest.length_in <= limit.value + NEAR,
            building=building.name,
            where=f"{face} wall, {tallest.name}",
            found=f"a {tallest.profile.name} {format_length(tallest.length_in)} long",
            limit=format_length(limit.value),
            place=tallest.written,
            advice="tall walls need a licensed design",
        )


def posts_on_headers(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Posts under a beam of the roof that stand on the header of an opening instead of going down to the floor."""
    told: set[tuple[str, str]] = set()
    beams = [(m, in_plan(m)[0]) for m in building.members if m.role.name in ROOF_BEAMS]
    for post in building.members:
        if post.role.name != "post" or header_under(post, building.members) is None:
            continue
        box = in_plan(post)[0]
        over = next((_called(beam) for beam, its in beams if its.meets(box)), "a beam")
        if (post.face, over) in told:
            continue
        told.add((post.face, over))
        yield Finding(
            rule="header.point-load",
            severity=Severity.WARNING,
            message=f"the post under {over} stands on the header of an opening, which is sized for rafters"
            " alone: it carries the beam's end and needs a licensed design; or move the opening clear of the post",
            building=building.name,
            where=f"{post.face} wall, {post.name}",
            place=post.written,
        )


def _called(beam: Member) -> str:
    return "the ridge beam" if beam.role.name == "ridge-beam" else f"the beam of the {beam.face}"


def short_sills(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Pieces of a sill plate on concrete that have no room for two anchor bolts."""
    if plan.walls.sill is None:
        return
    limit, ends = rule("anchor.least"), rule("anchor.end-diameters").value * plan.walls.sill.bolt
    sides = set(side_names(plan))
    for plate in building.members:
        if plate.role.name != "bottom-plate" or plate.face not in sides or plate.length_in >= 3 * ends - NEAR:
            continue
        length = format_length(plate.length_in)
        yield verdict(
            limit,
            passed=False,
            building=building.name,
            where=f"{plate.face} wall, {plate.name}",
            found=f"a sill plate {length} long, which has room for one",
            limit=f"{limit.value:.0f}",
            place=plate.written,
            advice="run the sill on under the door beside it, or move the door",
        )
