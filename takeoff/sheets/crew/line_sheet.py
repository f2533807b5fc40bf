"""Layout lines: what a tape pulls on plates, ridges, rims and beams, and which stick stands at each mark."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import add, dot, scale
from takeoff.sheets.crew.on_tape import OnTape, on_tape

if TYPE_CHECKING:
    from takeoff.model.building import FramedBuilding
    from takeoff.model.layout import LayoutLine
    from takeoff.sheets.crew.figures import Figures

_RIDGE, _PLATE, _PARALLEL = "ridge, ", "top of cap plate", 0.999


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkRow:
    """A mark that a tape pulls: running, in feet and inches and in inches alone."""

    position: str
    inches: str
    symbol: str
    what: str
    piece: str
    """Mark of what stands there; empty where it is no stick."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LineSheet:
    """One layout line."""

    building: str
    load: int
    name: str
    start: str
    length: str
    on: str
    """Marks of the sticks that it is pulled on; empty if unknown."""
    starts: str
    """Where a ridge starts along the plate that its rafters stand on, if not at that plate's end."""
    marks: tuple[MarkRow, ...]


def line_sheets(building: FramedBuilding, figures: Figures) -> tuple[LineSheet, ...]:
    """The layout lines of one building."""
    sticks = on_tape(building)
    return tuple(_line(building, line, sticks, figures) for line in building.lines)


def _line(building: FramedBuilding, line: LayoutLine, sticks: OnTape, figures: Figures) -> LineSheet:
    return LineSheet(
        building=building.name,
        load=line.load,
        name=line.name,
        start=line.start,
        length=figures.length(line.length_in),
        on=sticks.carriers(line),
        starts=_starts(building, line, figures),
        marks=tuple(
            MarkRow(
                position=figures.length(mark.position_in),
                inches=figures.inches(mark.position_in),
                symbol=mark.symbol,
                what=mark.what,
                piece=sticks.piece(line, mark),
            )
            for mark in line.marks
        ),
    )


def _starts(building: FramedBuilding, line: LayoutLine, figures: Figures) -> str:
    """How far a ridge's tape starts along a plate's that is pulled the same way; empty where both start together."""
    part, ridge, _ = line.name.partition(_RIDGE)
    if not ridge or line.tape is None:
        return ""
    for plate in building.lines:
        tape = plate.tape
        if tape is None or not plate.name.endswith(_PLATE) or not plate.name.startswith(part):
            continue
        off = dot(add(line.tape.start, scale(tape.start, -1.0)), tape.along)
        if dot(tape.along, line.tape.along) > _PARALLEL and abs(off) > TOLERANCE.mark:
            beyond = "along" if off > 0 else "before the start of"
            return f"Its start is {figures.length(abs(off))} {beyond} the {plate.name}"
    return ""
