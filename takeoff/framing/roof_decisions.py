"""What the tool decided itself about a roof, with its reason."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from takeoff.findings import Finding, Place, Severity
from takeoff.framing.clip_decisions import clips_decided, gablets_decided
from takeoff.framing.eave_decisions import eaves_decided
from takeoff.framing.opening_decisions import openings_decided
from takeoff.framing.purlin_beams import gambrel_decided
from takeoff.framing.ridge_over import over_decided
from takeoff.framing.roof_frame import RoofFrame
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.framing.roof_lines import RoofSideLine
    from takeoff.plan.openings import Opening
    from takeoff.plan.schema import Building


def roof_decisions(building: Building, frame: RoofFrame, written: Callable[[str], Place]) -> tuple[Finding, ...]:
    """Seats, overhangs, blocks, headers, eaves and openings: what was left out and is decided so."""
    return (
        *_seats_decided(building, frame, written("roof.rafters")),
        *_overhangs_decided(building, frame, written("roof.overhang")),
        *over_decided(building, frame, written("roof.ridge")),
        *_blocks_decided(building, frame, written("roof.blocking")),
        *_headers_decided(building, written),
        *eaves_decided(building, frame, written),
        *openings_decided(building.name, frame.rows),
        *gambrel_decided(building, frame, written),
        *clips_decided(building, frame, written),
        *gablets_decided(building, frame, written),
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
    if building.outlines.reach == "eave_line":
        return  # outlines that go to the eaves tell how far each reaches
    eaves = [line for line in frame.plan.lines if line.is_eave]
    for line in eaves:
        flatter = [other.eave_height for other in eaves if other.plate == line.plate and other.slope < line.slope]
        lower = max(flatter, default=line.eave_height) - line.eave_height
        if line.out < TOLERANCE.length < lower:
            yield _lower_eave(building, line, lower, place)
        elif abs(line.out - building.roof.overhang.eave) > TOLERANCE.length:
            yield Finding(
                rule="frame.overhang",
                severity=Severity.NOTE,
                message=f"the overhang is {format_length(line.out)}, not {format_length(building.roof.overhang.eave)}: "
                "a steeper slope reaches out less, so that all eaves are at one height",
                place=place,
                building=building.name,
                where=f"{line.side.name} eave",
            )


def _lower_eave(building: Building, line: RoofSideLine, lower: float, place: Place) -> Finding:
    """A steep eave that would have to end inside its wall to be as high as a flatter one."""
    return Finding(
        rule="frame.overhang",
        severity=Severity.WARNING,
        message=f"the eave ends {format_length(lower)} lower than that of a flatter slope: its rafters have no overhang"
        " to give up. Give the eaves more overhang, write `keep: eave_line`, or choose pitches nearer to each other",
        place=place,
        building=building.name,
        where=f"{line.side.name} eave",
    )


def _blocks_decided(building: Building, frame: RoofFrame, place: Place) -> Iterator[Finding]:
    if building.roof.blocking.eave == "none":
        return
    told = dict.fromkeys(
        (block, row.slope.common.height_above_plate, row.slope.on_purlin)
        for row, block in zip(frame.rows, frame.blocking, strict=True)
    )
    for block, stand, on_purlin in told:
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
            where="blocks over the purlins" if on_purlin else "eave blocks",
        )


def _headers_decided(building: Building, written: Callable[[str], Place]) -> Iterator[Finding]:
    for index, opening in enumerate(building.walls.openings):
        if opening.top == "round":
            yield Finding(
                rule="frame.opening",
                severity=Severity.NOTE,
                message="its round top is framed square: blocks that follow the curve are left to trim",
                place=written(f"walls.openings[{index}]"),
                building=building.name,
                where=f"{opening.side} wall, {opening.kind} {opening.call}",
            )
        if opening.header is None:
            yield Finding(
                rule="frame.header",
                severity=Severity.NOTE,
                message=_header_words(opening),
                place=written(f"walls.openings[{index}]"),
                building=building.name,
                where=f"{opening.side} wall, {opening.kind} {opening.call}",
            )


def _header_words(opening: Opening) -> str:
    row = opening.table_header
    if row is None:
        return f"header {opening.header_size} is a usual size for the width, not a design"
    jacks = f"{opening.jack_count} jack{'s' if opening.jack_count > 1 else ''} each side"
    known = " (recalled, to be looked up)" if row.how_known == "memory" else ""
    return (
        f"header {opening.header_size} on {jacks}: {row.section}, {row.edition}{known}, {row.supporting},"
        f" {row.snow_psf:.0f} psf of ground snow, a building up to {row.width_ft:.0f}' wide,"
        f" spans up to {format_length(row.span_in)}"
    )
