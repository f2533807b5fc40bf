"""Checks of walls: tall studs, and sill plates too short for their bolts."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.rules import rule
from takeoff.checks.rafters import NEAR
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding, Severity
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.footprint import side_names
from takeoff.plan.runs import run_pieces
from takeoff.plan.schema import Building

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
    """Posts under a ridge beam that stand on the header of an opening instead of going down to the floor."""
    told: set[str] = set()
    for post in building.members:
        if post.role.name != "post" or post.face in told or not _stands_on_a_header(post, building):
            continue
        told.add(post.face)
        yield Finding(
            rule="header.point-load",
            severity=Severity.WARNING,
            message="the post under the ridge beam stands on the header of an opening, which is sized for rafters"
            " alone: it carries the beam's end and needs a licensed design; or move the opening clear of the post",
            building=building.name,
            where=f"{post.face} wall, {post.name}",
            place=post.written,
        )


def _stands_on_a_header(post: Member, building: FramedBuilding) -> bool:
    foot = min(end[2] for end in post.centre_line)
    headers = (m for m in building.members if m.role.name == "header" and m.face == post.face)
    return any(abs(foot - header.centre_line[0][2] - header.profile.depth_in / 2) < NEAR for header in headers)


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
