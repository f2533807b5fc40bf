"""The order of framing: walls under roof under trim, one building."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.profiles import Profile, profile
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.eaves import EaveBlocking, eave_blocking, eave_blocks, fascia, fascia_drop, vent_area
from takeoff.framing.faces import slope_face, wall_face
from takeoff.framing.gable_end import RidgePost, ridge_post
from takeoff.framing.gable_roof import gable_slopes, rake_line, seat_for
from takeoff.framing.joints import joints
from takeoff.framing.lines import rafter_lines, wall_line
from takeoff.framing.rafters import RafterRow, rafter_row, rafters
from takeoff.framing.rakes import barges, outlookers, pockets_for
from takeoff.framing.ridge import Ridge, false_ridges, ridge_members
from takeoff.framing.wall import Wall
from takeoff.framing.walls import wall_members, walls, with_rake
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.footprint import Footprint, footprint

if TYPE_CHECKING:
    from takeoff.framing.slope import Slope
    from takeoff.geometry.rafter import Pocket
    from takeoff.plan.roof import Roof
    from takeoff.plan.schema import Building


@dataclass(frozen=True, slots=True, kw_only=True)
class _RoofFrame:
    """The roof as designed, before its sticks are made."""

    rows: tuple[RafterRow, RafterRow]
    ridge: Ridge
    pockets: tuple[Pocket, ...]
    blocking: EaveBlocking | None


def frame(building: Building, written: Callable[[str], Place]) -> tuple[FramedBuilding, tuple[Finding, ...]]:
    """Frame one building.

    Args:
        building: as the plan writes it, already verified.
        written: gives the place in the plan of a path within the building, such as ``roof.pitch``.

    Returns:
        The framed building, its sticks not yet marked and its faces not yet sheathed; and what was decided.

    Raises:
        PlanError: no such roof can be framed.
    """
    ground = footprint(building)
    try:
        slopes = gable_slopes(building, ground, written)
    except ValueError as error:
        place = written("roof.rafters")
        raise PlanError(
            [Finding(rule="frame.rafter", severity=Severity.ERROR, message=str(error), place=place)]
        ) from error
    design = _design(building.roof, slopes)
    standing = tuple(_wall_and_post(building, ground, wall, design) for wall in walls(building, ground, written))
    in_walls = [wall_members(wall, post) for wall, post in standing]
    members = (*(m for group in in_walls for m in group), *_roof_members(building.roof, design))
    framed = FramedBuilding(
        name=building.name,
        count=building.count,
        members=members,
        joints=joints(members),
        lines=(
            *(wall_line(wall, ground, group) for (wall, _), group in zip(standing, in_walls, strict=True)),
            *rafter_lines(design.rows, ground),
        ),
        faces=(
            *(wall_face(building, wall, post, design.ridge) for wall, post in standing),
            *(slope_face(building, row, design.ridge) for row in design.rows),
        ),
        vent_area_sqin=sum(vent_area(row, design.blocking) for row in design.rows) if design.blocking else 0.0,
    )
    return framed, _decisions(building, ground, design, written)


def _design(roof: Roof, slopes: tuple[Slope, Slope]) -> _RoofFrame:
    rafter = profile(roof.rafters.size)
    first, second = (rafter_row(slope, rafter, roof.rafters.grade, roof.rafters.spacing) for slope in slopes)
    ridge = Ridge(
        beam=roof.ridge.kind == "beam",
        profile=profile(roof.ridge.size),
        grade=roof.ridge.grade,
        vent=roof.ridge.vent,
        slope=slopes[0],
    )
    outlooker = roof.outlookers if roof.overhang.rake else None
    pockets = pockets_for(profile(outlooker.size), slopes[0].common, outlooker.spacing) if outlooker else ()
    return _RoofFrame(rows=(first, second), ridge=ridge, pockets=pockets, blocking=_blocking(roof, slopes[0]))


def _blocking(roof: Roof, slope: Slope) -> EaveBlocking | None:
    if roof.blocking.eave == "none":
        return None
    size = profile(roof.blocking.size) if roof.blocking.size else None
    return eave_blocking(slope.common.height_above_plate, vented=roof.blocking.eave == "vented", size=size)


def _wall_and_post(
    building: Building, ground: Footprint, wall: Wall, design: _RoofFrame
) -> tuple[Wall, RidgePost | None]:
    if wall.side.name not in building.roof.gables:
        return wall, None
    ridge = design.ridge
    raked = with_rake(wall, rake_line(building, wall.side, ridge.slope.common))
    post = ridge_post(raked, ridge.profile, wall.height + ridge.bottom) if ridge.beam else None
    return raked, post


def _roof_members(roof: Roof, design: _RoofFrame) -> tuple[Member, ...]:
    grade = roof.rafters.grade
    rafter_sticks = [m for row in design.rows for m in rafters(row, design.pockets)]
    return (
        *rafter_sticks,
        *ridge_members(design.ridge, design.rows[0], _longest(design.ridge.profile, design.ridge.grade)),
        *(_blocks(design, grade)),
        *(_rake_members(roof, design)),
        *(_fascia(roof, design)),
    )


def _blocks(design: _RoofFrame, grade: str) -> tuple[Member, ...]:
    if design.blocking is None:
        return ()
    return tuple(block for row in design.rows for block in eave_blocks(row, design.blocking, grade))


def _rake_members(roof: Roof, design: _RoofFrame) -> tuple[Member, ...]:
    if not roof.overhang.rake:
        return ()
    barge = profile(roof.barge.size) if roof.barge else None
    back = barge.thickness_in if barge else 0.0
    members: list[Member] = []
    if roof.outlookers:
        size = profile(roof.outlookers.size)
        for row in design.rows:
            members += outlookers(row, design.pockets, size, roof.rafters.grade, back)
    if barge and roof.barge:
        drop = fascia_drop(roof.pitch.slope, profile(roof.fascia.size)) if roof.fascia else None
        for row in design.rows:
            members += barges(row, barge, roof.barge.grade, drop)
        members += false_ridges(design.ridge, barge, roof.barge.grade, back)
    return tuple(members)


def _fascia(roof: Roof, design: _RoofFrame) -> tuple[Member, ...]:
    if not roof.fascia:
        return ()
    size, grade = profile(roof.fascia.size), roof.fascia.grade
    return tuple(m for row in design.rows for m in fascia(row, size, grade, _longest(size, grade)))


def _longest(stick: Profile, grade: str) -> float:
    lengths = stock_lengths(stick, grade)
    return lengths[-1] if lengths else float("inf")


def _decisions(
    building: Building, ground: Footprint, design: _RoofFrame, written: Callable[[str], Place]
) -> tuple[Finding, ...]:
    """What the tool decided itself, with its reason."""
    return (
        _seat_decided(building, ground, design, written("roof.rafters")),
        *_blocks_decided(building, design, written("roof.blocking")),
        *_headers_decided(building, written),
    )


def _seat_decided(building: Building, ground: Footprint, design: _RoofFrame, place: Place) -> Finding:
    seat = seat_for(building, ground.side(design.ridge.slope.side))
    return Finding(
        rule="frame.seat",
        severity=Severity.NOTE,
        message=f"the seat is {format_length(seat.length)}: {seat.reason}",
        place=place,
        building=building.name,
        where="bird's mouth",
    )


def _blocks_decided(building: Building, design: _RoofFrame, place: Place) -> Iterator[Finding]:
    stand = format_length(design.ridge.slope.common.height_above_plate)
    if building.roof.blocking.eave == "none":
        return
    if design.blocking is None:
        severity = Severity.WARNING
        message = f"no block fits under rafters that stand {stand} over the plate; none is ordered"
    elif design.blocking.air:
        severity = Severity.NOTE
        air = format_length(design.blocking.air)
        message = f"vented blocks are {design.blocking.profile.name}, which leaves {air} of air over them"
    else:
        severity = Severity.NOTE
        message = f"solid blocks are ripped to {stand} from {design.blocking.profile.name}"
    yield Finding(
        rule="frame.eave-block",
        severity=severity,
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
