"""Walls: their pieces, openings and gable studs; and the layout marks of all lines."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from takeoff.geometry.outline import Edge
from takeoff.model.building import FramedBuilding
from takeoff.model.face import Face
from takeoff.model.layout import LayoutLine
from takeoff.sheets.crew.figures import Figures
from takeoff.sheets.crew.marked import Marked, PieceRow, by_mark, piece_row
from takeoff.sheets.crew.steps import common_step
from takeoff.sheets.wall_drawing import face_words

if TYPE_CHECKING:
    from takeoff.sheets.sheet_drawings import SheetDrawings

GABLE_STUD = "gable-stud"

_Rakes = tuple[tuple[tuple[float, str], ...], ...]
"""Lengths and marks of gable studs, rake by rake."""

EDGES = {
    "wall": "Edges run from the wall's left end, seen from {seen};"
    " sill and head from the underside of the bottom plate.",
    "floor": "Edges run across the joists from the end that the layout starts at; sill and head along the joists.",
    "slope": "",
}
"""From where the edges of openings run, by the kind of face."""

EDGES_OF_MINOR = "Edges run from the wall's left end, seen from outside; sill and head over the deck of the main floor."
"""In a wall that stands on a roof."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningRow:
    """A rough opening; distances along the wall are from its left end, seen from outside."""

    number: int
    width: str
    height: str
    left: str
    right: str
    sill: str
    head: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GableRow:
    """Gable studs of one length, and how much longer they are than the ones before."""

    mark: str
    count: int
    stock: str
    length: str
    inches: str
    step: str
    cuts: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WallSheet:
    """One wall. Counts are of one building of its kind."""

    building: str
    copies: int
    name: str
    """With what it is: ``south wall``, ``main floor``."""
    length: str
    height: str
    edges: str
    """From where the edges of its openings run."""
    pieces: tuple[PieceRow, ...]
    gable: tuple[GableRow, ...]
    common_difference: str
    openings: tuple[OpeningRow, ...]
    drawing: str
    """File of its elevation; empty where nothing stands in it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkRow:
    """A mark that a tape pulls: running, in feet and inches and in inches alone."""

    position: str
    inches: str
    symbol: str
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LineSheet:
    """One layout line."""

    building: str
    load: int
    name: str
    start: str
    length: str
    marks: tuple[MarkRow, ...]


def wall_sheets(building: FramedBuilding, drawings: SheetDrawings, figures: Figures) -> tuple[WallSheet, ...]:
    """The main floor, the walls and the lofts of one building, in the order they are built."""
    built = [face for kind in ("floor", "wall") for face in building.faces if face.kind == kind]
    lofts = [face for face in built if face.kind == "floor" and face.placement.origin[2] > 0]
    ordered = (*(face for face in built if face not in lofts), *lofts)
    return tuple(_wall(building, face, drawings, figures) for face in ordered)


def line_sheets(building: FramedBuilding, figures: Figures) -> tuple[LineSheet, ...]:
    """The layout lines of one building."""
    return tuple(_line(building, line, figures) for line in building.lines)


def wall_height(face: Face, figures: Figures) -> str:
    """How high a wall is, of a gable wall up to where its sheets reach; how far a floor reaches along its joists."""
    _, v0, _, v1 = face.outline.bounds
    high = figures.length(v1 - v0)
    if face.kind == "floor":
        up = face.placement.origin[2]
        told = f"; the tops of its joists {figures.length(up)} over the main floor's deck" if up > 0 else ""
        return f"{high} along the joists{told}"
    return f"sheets to {high} at the peak" if face.outline.edges_with("rake") else f"{high} high"


def _wall(building: FramedBuilding, face: Face, drawings: SheetDrawings, figures: Figures) -> WallSheet:
    one = replace(building, count=1)
    marked = by_mark((one,), lambda member: member.face == face.name)
    gable = tuple(group for group in marked if group.member.role.name == GABLE_STUD)
    rakes = _rakes(building, face) if gable else ()
    u0, _, u1, _ = face.outline.bounds
    return WallSheet(
        building=building.name,
        copies=building.count,
        name=face_words(face),
        length=figures.length(u1 - u0),
        height=wall_height(face, figures),
        edges=EDGES_OF_MINOR if face.part else EDGES[face.kind].format(seen=face.seen_from),
        pieces=tuple(piece_row(group, figures) for group in marked if group not in gable),
        gable=_gable_rows(gable, rakes, figures),
        common_difference=_common_difference(rakes, figures),
        openings=tuple(_opening(number, hole, u0, figures) for number, hole in enumerate(face.outline.holes, start=1)),
        drawing=f"{drawing.name}.svg" if (drawing := drawings.wall(building, face)) else "",
    )


def _by_length(studs: tuple[Marked, ...]) -> list[Marked]:
    return sorted(studs, key=lambda group: group.member.length_in)


def _gable_rows(studs: tuple[Marked, ...], rows: _Rakes, figures: Figures) -> tuple[GableRow, ...]:
    steps = {mark: b - a for row in rows for (a, _), (b, mark) in pairwise(row)}
    found = []
    for group in _by_length(studs):
        row = piece_row(group, figures)
        step = steps.get(group.member.mark)
        found.append(
            GableRow(
                mark=row.mark,
                count=row.count,
                stock=row.stock,
                length=row.length,
                inches=row.inches,
                step="" if step is None else figures.length(step),
                cuts=row.cuts,
            )
        )
    return tuple(found)


def _rakes(building: FramedBuilding, face: Face) -> _Rakes:
    """Gable studs left and right of the peak, each side's by length: neighbours on one rake have one difference."""
    peak = max((edge.a for edge in face.outline.edges), key=lambda point: point[1])[0]
    sides: tuple[list[tuple[float, str]], list[tuple[float, str]]] = ([], [])
    for member in building.members:
        if member.face == face.name and member.role.name == GABLE_STUD:
            u, _, _ = face.placement.from_world(member.centre_line[0])
            sides[u > peak].append((member.length_in, member.mark))
    return tuple(tuple(sorted(side)) for side in sides)


def _common_difference(rows: _Rakes, figures: Figures) -> str:
    """Of the rakes; only where none has another."""
    steps = {common_step((length for length, _ in row), figures.denominator) for row in rows} - {None}
    (step,) = steps if len(steps) == 1 else (None,)
    return "" if step is None else figures.length(step)


def _opening(number: int, hole: tuple[Edge, ...], left_end: float, figures: Figures) -> OpeningRow:
    us, vs = [edge.a[0] for edge in hole], [edge.a[1] for edge in hole]
    return OpeningRow(
        number=number,
        width=figures.length(max(us) - min(us)),
        height=figures.length(max(vs) - min(vs)),
        left=figures.length(min(us) - left_end),
        right=figures.length(max(us) - left_end),
        sill=figures.length(min(vs)),
        head=figures.length(max(vs)),
    )


def _line(building: FramedBuilding, line: LayoutLine, figures: Figures) -> LineSheet:
    return LineSheet(
        building=building.name,
        load=line.load,
        name=line.name,
        start=line.start,
        length=figures.length(line.length_in),
        marks=tuple(
            MarkRow(
                position=figures.length(mark.position_in),
                inches=figures.inches(mark.position_in),
                symbol=mark.symbol,
                what=mark.what,
            )
            for mark in line.marks
        ),
    )
