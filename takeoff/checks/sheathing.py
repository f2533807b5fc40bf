"""Checks of the sheathing as laid: supports under every piece, joints on supports, corners that meet."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.rules import rule
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding, Severity
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.face import Face
from takeoff.model.panel import Panel
from takeoff.plan.footprint import side_names
from takeoff.plan.schema import Building

NO_SUPPORT = "sheathing.no-support"
ONE_SUPPORT = "sheathing.one-support"
LEAST_AREA_SQIN = 144.0
"""A piece smaller than a square foot is held by its neighbours' edges too [sq in]. Common practice, no source."""


def panel_supports(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Faces that have nothing to nail to, and pieces that reach over fewer than two supports."""
    for face in building.faces:
        panels = [panel for panel in building.panels if panel.face == face.name]
        if not panels:
            continue
        if not face.supports.centres:
            yield _finding(NO_SUPPORT, building, face, f"nothing stands under the sheets of {face.name}")
            continue
        single = [p for p in panels if p.polygon.area >= LEAST_AREA_SQIN and _supports(face, p) < 2]
        if single:
            marks = ", ".join(sorted({panel.mark for panel in single}))
            pieces = f"{len(single)} piece{'s' if len(single) > 1 else ''} ({marks})"
            yield _finding(
                ONE_SUPPORT, building, face, f"{pieces} of {face.name} on fewer than two supports: block them"
            )


def foot_of_walls(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """How far the sheets of the outside walls reach down over a framed floor, and what that leaves bare."""
    if plan.floors.main is None:
        return
    reached: dict[float, list[Face]] = {}
    sides = set(side_names(plan))
    for face in building.faces:
        if face.name in sides and face.cover:
            reached.setdefault(round(-face.outline.bounds[1], 6), []).append(face)
    for below, faces in sorted(reached.items()):
        longest = max(top - bottom for _, bottom, _, top in (face.outline.bounds for face in faces))
        laid = f"the sheets reach {format_length(below)} below the deck, over the edge of the floor"
        bare = "the sheets end at the deck: what covers the edge of the floor isn't in this take-off"
        yield Finding(
            rule="sheathing.foot",
            severity=Severity.NOTE,
            message=f"{laid if below else bare} ({format_length(longest)} from foot to top at the most); write"
            " walls: sheathing: down_to: sill, rim or deck",
            place=faces[0].written,
            building=building.name,
            where=f"{', '.join(face.name for face in faces)} wall{'s' if len(faces) > 1 else ''}",
            found=format_length(below),
        )


def wall_studs(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Walls whose studs stand further apart than their sheets may span; those that keep the rule aren't told."""
    limit = rule("sheathing.wall-studs")
    names = side_names(plan)
    for face in building.faces:
        spacing = plan.walls.for_side(face.name).spacing_in
        covered = face.kind == "wall" and face.cover is not None and face.name in names
        if covered and spacing > limit.value + TOLERANCE.length:
            yield verdict(
                limit,
                passed=False,
                building=building.name,
                where=f"{face.name} wall",
                found=f"studs {format_length(spacing)} apart",
                limit=format_length(limit.value),
                place=face.written,
                advice="set them nearer, or have the wall designed",
            )


def _supports(face: Face, panel: Panel) -> int:
    u0, _, u1, _ = panel.polygon.bounds
    half = face.supports.thickness / 2 + TOLERANCE.length
    return sum(u0 - half <= centre <= u1 + half for centre in face.supports.centres)


def _finding(rule: str, building: FramedBuilding, face: Face, message: str) -> Finding:
    return Finding(
        rule=rule,
        severity=Severity.WARNING,
        message=message,
        place=face.written,
        building=building.name,
        where=face.name,
    )
