"""The order of framing: walls under roof under trim, one building."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import TYPE_CHECKING

from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.profiles import Profile, profile
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.eave_decisions import eaves_decided
from takeoff.framing.eaves import eave_blocks, fascia, fascia_drop, high_blocks, vent_area
from takeoff.framing.faces import slope_face, wall_cover, wall_face
from takeoff.framing.floors import framed_floors
from takeoff.framing.fold_members import false_ridges, ridge_members, sloped_member
from takeoff.framing.inside_lines import post_lines, with_joists
from takeoff.framing.joints import joints
from takeoff.framing.ledgers import ledgers
from takeoff.framing.lines import rafter_lines, wall_line
from takeoff.framing.opening_decisions import openings_decided
from takeoff.framing.rafters import rafters
from takeoff.framing.rakes import barges, ladder_blocks, outlookers
from takeoff.framing.ridge_over import over_decided
from takeoff.framing.ridge_posts import inside_posts, post_members
from takeoff.framing.roof_frame import RoofFrame, fascia_runs, rafters_along, roof_frame
from takeoff.framing.roof_headers import roof_headers
from takeoff.framing.runs import runs
from takeoff.framing.soffits import soffit_boxes, soffit_members
from takeoff.framing.square_eaves import lean_fault
from takeoff.framing.tails import fold_lean
from takeoff.framing.tie_joints import tie_joints
from takeoff.framing.ties import tie_members
from takeoff.framing.walls import wall_members, walls
from takeoff.geometry.roof_edge import RoofError
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.footprint import footprint

if TYPE_CHECKING:
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.roof import Roof
    from takeoff.plan.schema import Building


def frame(
    building: Building, written: Callable[[str], Place], sheet_edges: Mapping[str, tuple[float, ...]] | None = None
) -> tuple[FramedBuilding, tuple[Finding, ...]]:
    """Frame one building.

    Args:
        building: as the plan writes it, already verified.
        written: gives the place in the plan of a path within the building, such as ``roof.pitch``.
        sheet_edges: by slope, v of the level joints of its sheets [in]; left out, those of the plain lay-up.

    Returns:
        The framed building, its sticks not yet marked and its faces not yet sheathed; and what was decided.

    Raises:
        PlanError: no such roof can be framed.
    """
    ground = footprint(building)
    roof = _roof(building, ground, written, sheet_edges or {})
    standing = walls(building, roof, ground, written)
    covers = [wall_cover(building, wall, roof) for wall in standing]
    in_walls = [wall_members(wall, cover.rows) for wall, cover in zip(standing, covers, strict=True)]
    over = _roof_members(building, roof, written)
    posts, of_posts = inside_posts(building, roof, over, written)
    ties, of_ties = tie_members(building, roof, posts, written)
    inside = (*post_members(building, posts, written("roof.ridge")), *ties)
    members = (*(m for group in in_walls for m in group), *over, *inside)
    floors = framed_floors(building, ground, written, len(members))
    framed = FramedBuilding(
        name=building.name,
        count=building.count,
        members=(*members, *floors.members),
        joints=(*joints(members), *tie_joints(members), *floors.joints),
        lines=(
            *(wall_line(wall, ground, group) for wall, group in zip(standing, in_walls, strict=True)),
            *with_joists(rafter_lines(roof, ground), roof, ties),
            *post_lines(roof, posts),
            *floors.lines,
        ),
        faces=(
            *(wall_face(wall, cover) for wall, cover in zip(standing, covers, strict=True)),
            *(slope_face(building, roof, row) for row in roof.rows),
            *floors.faces,
        ),
        runs=runs(members, standing, roof.rows),
        vent_area_sqin=sum(vent_area(row, block) for row, block in zip(roof.rows, roof.blocking, strict=True) if block),
    )
    return framed, (*_decisions(building, roof, written), *of_posts, *of_ties, *floors.findings)


def _roof(
    building: Building,
    ground: Footprint,
    written: Callable[[str], Place],
    sheet_edges: Mapping[str, tuple[float, ...]],
) -> RoofFrame:
    try:
        return roof_frame(building, ground, written, sheet_edges)
    except RoofError as error:
        names = ", ".join(ground.sides[k].name for k in error.edges)
        raise _refused("frame.roof", written("roof"), f"no roof closes over these sides ({names}): {error}") from error
    except PlanError:
        raise
    except ValueError as error:
        raise _refused("frame.rafter", written("roof.rafters"), str(error)) from error


def _refused(rule: str, place: Place, message: str) -> PlanError:
    return PlanError([Finding(rule=rule, severity=Severity.ERROR, message=message, place=place)])


def _roof_members(building: Building, frame: RoofFrame, written: Callable[[str], Place]) -> tuple[Member, ...]:
    roof = building.roof
    return (
        *(m for row in frame.rows for m in rafters(row)),
        *(m for row in frame.rows for m in roof_headers(row)),
        *_fold_members(roof, frame, written),
        *_ledgers(roof, frame),
        *(
            m
            for row, block in zip(frame.rows, frame.blocking, strict=True)
            if block
            for m in eave_blocks(row, block, roof.rafters.grade)
        ),
        *(
            m
            for row, block in zip(frame.rows, frame.high_blocking, strict=True)
            if block
            for m in high_blocks(row, block, roof.rafters.grade)
        ),
        *_rake_members(roof, frame),
        *_fascia(roof, frame, written("roof.tail.cut")),
        *_soffits(building, frame, written("roof.soffit")),
    )


def _fold_members(roof: Roof, frame: RoofFrame, written: Callable[[str], Place]) -> Iterator[Member]:
    for ridge in frame.ridges:
        yield from ridge_members(ridge, _longest(ridge.profile, ridge.grade), rafters_along(frame, ridge))
    tail = profile(roof.tail.size).depth_in if roof.tail.size else None
    for stick in frame.sloped:
        slope = frame.plan.slopes[stick.fold.slopes[0]]
        size = profile(roof.hip_size if stick.fold.kind == "hip" else roof.valley_size)
        try:
            yield sloped_member(
                stick,
                bench=slope.bench,
                size=size,
                grade=roof.rafters.grade,
                plate=frame.plan.line(slope.side).plate,
                tail_plumb=None if tail is None else tail / slope.level,
                tail_level_drop=slope.common.tail_level_drop,
                tail_lean=fold_lean(roof, slope.common.slope, stick.fold.slope),
            )
        except ValueError as error:
            raise _refused("frame.rafter", written("roof"), f"the {stick.fold.kind} rafter: {error}") from error


def _ledgers(roof: Roof, frame: RoofFrame) -> Iterator[Member]:
    size, grade = profile(roof.ledger_size), roof.rafters.grade
    for row in frame.rows:
        yield from ledgers(row, size, grade, _longest(size, grade))


def _rake_members(roof: Roof, frame: RoofFrame) -> Iterator[Member]:
    if not roof.overhang.rake:
        return
    barge = profile(roof.barge.size) if roof.barge else None
    back = barge.thickness_in if barge else 0.0
    if roof.outlookers:
        size = profile(roof.outlookers.size)
        sticks = ladder_blocks if roof.outlookers.method == "ladder" else outlookers
        for row in frame.rows:
            yield from sticks(row, size, roof.rafters.grade, back)
    if barge and roof.barge:
        for row in frame.rows:
            drop = fascia_drop(row.slope.common.slope, profile(roof.fascia.size)) if roof.fascia else None
            yield from barges(row, barge, roof.barge.grade, drop)
        yield from false_ridges(frame.ridge_ends, barge, roof.barge.grade, back)


def _fascia(roof: Roof, frame: RoofFrame, place: Place) -> Iterator[Member]:
    board = profile(roof.fascia.size) if roof.fascia else None
    faults = (lean_fault(row.slope, board) for row in frame.rows if row.slope.outline.edges_with("eave"))
    for fault in filter(None, faults):
        raise _refused("frame.tail", place, fault)
    if not roof.fascia:
        return
    size, grade = profile(roof.fascia.size), roof.fascia.grade
    for row in frame.rows:
        yield from fascia(row, fascia_runs(frame.plan, row.slope), size, grade, _longest(size, grade))


def _soffits(building: Building, frame: RoofFrame, place: Place) -> Iterator[Member]:
    for box in soffit_boxes(building, frame.rows, place):
        yield from soffit_members(box, _longest(box.ledger, box.grade))


def _longest(stick: Profile, grade: str) -> float:
    lengths = stock_lengths(stick, grade)
    return lengths[-1] if lengths else float("inf")


def _decisions(building: Building, frame: RoofFrame, written: Callable[[str], Place]) -> tuple[Finding, ...]:
    """What the tool decided itself, with its reason."""
    return (
        *_seats_decided(building, frame, written("roof.rafters")),
        *_overhangs_decided(building, frame, written("roof.overhang")),
        *over_decided(building, frame, written("roof.ridge")),
        *_blocks_decided(building, frame, written("roof.blocking")),
        *_headers_decided(building, written),
        *eaves_decided(building, frame, written),
        *openings_decided(building.name, frame.rows),
    )


def _seats_decided(building: Building, frame: RoofFrame, place: Place) -> Iterator[Finding]:
    seats = {line.seat: line for line in frame.plan.lines if line.seat}
    for seat, line in seats.items():
        yield Finding(
            rule="frame.seat",
            severity=Severity.NOTE,
            message=f"the seat is {format_length(seat.length)}: {seat.reason}",
            place=place,
            building=building.name,
            where="bird's mouth" if len(seats) == 1 else f"bird's mouth on the {line.side.name} wall",
        )


def _overhangs_decided(building: Building, frame: RoofFrame, place: Place) -> Iterator[Finding]:
    for line in frame.plan.lines:
        if line.is_eave and abs(line.out - building.roof.overhang.eave) > TOLERANCE.length:
            yield Finding(
                rule="frame.overhang",
                severity=Severity.NOTE,
                message=f"the overhang is {format_length(line.out)}, not {format_length(building.roof.overhang.eave)}: "
                "a steeper slope reaches out less, so that all eaves are at one height",
                place=place,
                building=building.name,
                where=f"{line.side.name} eave",
            )


def _blocks_decided(building: Building, frame: RoofFrame, place: Place) -> Iterator[Finding]:
    if building.roof.blocking.eave == "none":
        return
    told = dict.fromkeys(
        (block, row.slope.common.height_above_plate) for row, block in zip(frame.rows, frame.blocking, strict=True)
    )
    for block, stand in told:
        high = format_length(stand)
        if block is None:
            message = f"no block fits under rafters that stand {high} over the plate; none is ordered"
        elif block.air:
            message = (
                f"vented blocks are {block.profile.name}, which leaves {format_length(block.air)} of air over them"
            )
        else:
            message = f"solid blocks are ripped to {high} from {block.profile.name}"
        yield Finding(
            rule="frame.eave-block",
            severity=Severity.NOTE if block else Severity.WARNING,
            message=message,
            place=place,
            building=building.name,
            where="eave blocks",
        )


def _headers_decided(building: Building, written: Callable[[str], Place]) -> Iterator[Finding]:
    for index, opening in enumerate(building.walls.openings):
        if opening.header is None:
            yield Finding(
                rule="frame.header",
                severity=Severity.NOTE,
                message=f"header {opening.header_size} is a usual size for the width, not a design",
                place=written(f"walls.openings[{index}]"),
                building=building.name,
                where=f"{opening.side} wall, {opening.kind} {opening.call}",
            )
