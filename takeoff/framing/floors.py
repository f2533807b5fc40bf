"""The floors of a building: the platform under the walls, and the lofts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from takeoff.findings import Finding, Severity
from takeoff.framing.floor_blocks import blocks, bridging_pairs
from takeoff.framing.floor_joints import JOISTS, floor_joints
from takeoff.framing.floor_joists import PlacedJoist, joist_members, placed_joists
from takeoff.framing.floor_lines import floor_lines
from takeoff.framing.floor_plan import FloorPlan, floor_plan
from takeoff.framing.floor_sticks import bearing_ledgers, girders, headers, rims, sills
from takeoff.framing.loft_heights import headroom, height_line
from takeoff.framing.loft_plates import clipped, on_plates
from takeoff.framing.loft_room import refuse_meeting
from takeoff.framing.plate_joints import plate_joints
from takeoff.framing.pony import Pony, ponies, pony_face, pony_line, pony_members, pony_told
from takeoff.framing.squash_blocks import under_posts
from takeoff.geometry.outline import Outline, rectangle
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.face import Cover, Face, Supports
from takeoff.model.fitting import Fitting
from takeoff.plan.floors import Loft, MainFloor
from takeoff.plan.header import HeaderSize

if TYPE_CHECKING:
    from takeoff.findings import Place
    from takeoff.model.joint import Joint
    from takeoff.model.layout import LayoutLine
    from takeoff.model.member import Member
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.schema import Building


GLUED = (*JOISTS, "rim-board", "floor-header")
"""Sticks that a deck lies on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FramedFloors:
    """All that the floors of a building add to it."""

    members: tuple[Member, ...] = ()
    joints: tuple[Joint, ...] = ()
    """Sticks are named by their place among the building's members."""
    lines: tuple[LayoutLine, ...] = ()
    faces: tuple[Face, ...] = ()
    fittings: tuple[Fitting, ...] = ()
    """Bridging and glue, which no joint tells of."""
    findings: tuple[Finding, ...] = ()


def framed_floors(
    building: Building,
    ground: Footprint,
    written: Callable[[str], Place],
    standing: Sequence[Member],
    slopes: Sequence[Face] = (),
) -> FramedFloors:
    """Frame the floors.

    Args:
        building: as the plan writes it, already verified.
        ground: its footprint.
        written: gives the place in the plan of a path.
        standing: the building's sticks without those of its floors.
        slopes: faces of the building's roofs.

    Raises:
        PlanError: a loft meets what stands inside the building, or finds no plates to lie on.
    """
    first = len(standing)
    roof = tuple(face for face in slopes if face.kind == "slope" and not face.part)
    members: list[Member] = []
    joints: list[Joint] = []
    lines: list[LayoutLine] = []
    faces: list[Face] = []
    fittings: list[Fitting] = []
    findings: list[Finding] = []
    for floor, place in _floors(building, written):
        plan = on_plates(building, floor_plan(building, ground, floor, place), standing, roof)
        joists = placed_joists(plan)
        stand = ponies(building, ground, plan) if isinstance(floor, MainFloor) else {}
        sticks, of_clips = clipped(building, plan, _sticks(plan, joists, stand), roof)
        lines += (pony_line(pony, f"{ground.left_of(pony.side.name).name} end") for pony in stand.values())
        faces += map(pony_face, stand.values())
        findings += (found for pony in stand.values() for found in pony_told(pony))
        joints += floor_joints(sticks, plan.bench.placement, first + len(members))
        if isinstance(floor, Loft):
            refuse_meeting(building, plan.name, sticks, standing, place)
        members += sticks
        lines += floor_lines(plan, joists, ground)
        lines += height_line(plan, sticks)
        faces.append(_face(plan, joists))
        fittings += _fittings(plan, joists, sticks)
        findings += (*_told(building, plan), *of_clips, *headroom(building, plan, sticks, standing, roof))
    blocks, of_blocks = under_posts(building, ground, written, (*standing, *members))
    members += blocks
    findings += of_blocks
    return FramedFloors(
        members=tuple(members),
        joints=(*joints, *plate_joints((*standing, *members))),
        lines=tuple(lines),
        faces=tuple(faces),
        fittings=tuple(fittings),
        findings=tuple(findings),
    )


def _floors(building: Building, written: Callable[[str], Place]) -> Iterator[tuple[MainFloor | Loft, Place]]:
    if building.floors.main:
        yield building.floors.main, written("floors.main")
    for index, loft in enumerate(building.floors.lofts):
        yield loft, written(f"floors.lofts[{index}]")


def _sticks(plan: FloorPlan, joists: Sequence[PlacedJoist], stand: Mapping[int, Pony]) -> tuple[Member, ...]:
    return (
        *sills(plan, {k: pony.run for k, pony in stand.items()}),
        *(stick for pony in stand.values() for stick in pony_members(pony)),
        *girders(plan),
        *bearing_ledgers(plan),
        *rims(plan, joists),
        *joist_members(plan, joists),
        *headers(plan),
        *blocks(plan, joists),
    )


def _fittings(plan: FloorPlan, joists: Sequence[PlacedJoist], sticks: Sequence[Member]) -> Iterator[Fitting]:
    """Pairs of cross bridging, and feet of glue on all that the deck lies on."""
    pairs = bridging_pairs(plan, joists)
    if pairs:
        yield Fitting("bridging-pair", pairs)
    if plan.floor.glue:
        under = [stick for stick in sticks if stick.role.name in GLUED]
        yield Fitting("deck-glue", ceil(sum(stick.length_in for stick in under) / 12 - TOLERANCE.length))


def _face(plan: FloorPlan, joists: Sequence[PlacedJoist]) -> Face:
    """The deck, its sheets laid across the joists."""
    roles = ("header", "trimmer", "header", "trimmer")
    holes = tuple(rectangle(hole.u[0], hole.v[0], hole.u[1], hole.v[1], roles) for hole in plan.holes)
    return Face(
        kind="floor",
        name=plan.name,
        outline=Outline(plan.deck_edges, holes),
        placement=plan.bench.placement,
        supports=Supports(
            centres=tuple(sorted({joist.u for joist in joists})),
            thickness=plan.thickness,
            rows=(),
            from_right=False,
        ),
        cover=Cover(field=plan.floor.deck, exposed=plan.floor.deck),
        shown=None,
        written=plan.bench.written,
    )


def _told(building: Building, plan: FloorPlan) -> Iterator[Finding]:
    """What was decided, and what a floor needs beside its frame."""

    def say(rule: str, severity: Severity, message: str) -> Finding:
        place = plan.bench.written
        return Finding(
            rule=rule, severity=severity, message=message, place=place, building=building.name, where=plan.name
        )

    if plan.floor.joists.span is None:
        x, y, _ = plan.bench.placement.y
        way = "north-south" if abs(y) > abs(x) else "east-west"
        yield say("frame.joists", Severity.NOTE, f"joists run {way}, the shorter way across; `span` says otherwise")
    if plan.floor.splice == "lap" and any(g.joists == "over" for g in plan.girders):
        message = (
            "joists lap over the girder, so that those beyond it stand their thickness off the layout: sheets"
            " that end beside a joist there are told one by one, with the scabs they want"
        )
        yield say("frame.joists", Severity.NOTE, message)
    if isinstance(plan.floor, Loft):
        message = "the guard along the loft's open edge is not framed or counted: put one up before anybody works there"
        yield say("frame.loft-guard", Severity.WARNING, message)
    for girder in plan.girders:
        size = HeaderSize(girder.plies, girder.profile.name).words
        message = f"{girder.name} of {size} is what the plan says, not a design"
        if not girder.posts:
            message += "; it has no posts: its ends want hangers or pockets on studs"
        yield say("frame.girder", Severity.WARNING, message)
