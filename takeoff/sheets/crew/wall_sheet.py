"""Walls and floors: their pieces, openings and gable studs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from takeoff.model.building import FramedBuilding
from takeoff.model.face import Face
from takeoff.sheets.crew.alike import alike, by_number, short_ids
from takeoff.sheets.crew.figures import Figures
from takeoff.sheets.crew.marked import Marked, PieceRow, by_mark, cuts_words, piece_row
from takeoff.sheets.crew.opening_rows import OpeningRow, edges_words, heights_words, opening_rows
from takeoff.sheets.crew.steps import common_step
from takeoff.sheets.wall_drawing import face_words

if TYPE_CHECKING:
    from takeoff.sheets.sheet_drawings import SheetDrawings

GABLE_STUD, BACKING = "gable-stud", "backing-block"

_Rakes = tuple[tuple[tuple[float, str], ...], ...]
"""Lengths and marks of gable studs, rake by rake."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GableRow:
    """Gable studs of one length, and how much longer they are than the ones before."""

    mark: str
    count: int
    stock: str
    length: str
    inches: str
    step: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WallSheet:
    """One wall. Counts are of one building of its kind."""

    building: str
    load: int
    """With which delivery its sticks come: those of a dormer with the roof that it stands on."""
    copies: int
    name: str
    """With what it is: ``south wall``, ``main floor``."""
    length: str
    height: str
    edges: str
    """From where the edges of its openings run."""
    heights: tuple[str, str]
    """What the lower and the upper edge of an opening are called."""
    pieces: tuple[PieceRow, ...]
    gable: tuple[GableRow, ...]
    gable_ends: tuple[str, ...]
    """How they are cut, those alike together: ``G1 to G4: square one end, bevel 33.7° the other``."""
    common_difference: str
    openings: tuple[OpeningRow, ...]
    backing: tuple[str, ...]
    """At which heights its backing is nailed: ``KB1: bottom 2'-7", top 3'-1" over the floor``."""
    drawing: str
    """File of its elevation; empty where nothing stands in it."""


def wall_sheets(building: FramedBuilding, drawings: SheetDrawings, figures: Figures) -> tuple[WallSheet, ...]:
    """The main floor, the walls and the lofts of one building, in the order they are built."""
    built = [face for kind in ("floor", "wall") for face in building.faces if face.kind == kind]
    lofts = [face for face in built if face.kind == "floor" and face.placement.origin[2] > 0]
    ordered = (*(face for face in built if face not in lofts), *lofts)
    return tuple(_wall(building, face, drawings, figures) for face in ordered)


def wall_height(face: Face, figures: Figures) -> str:
    """How high a wall is, of a gable wall up to where its sheets reach; how far a floor reaches along its joists.

    A wall's height is over the underside of its bottom plate, also where its sheets reach lower.
    """
    _, v0, _, v1 = face.outline.bounds
    high = figures.length(v1 - (0.0 if _is_lapped(face) else v0))
    if face.kind == "floor":
        up = face.placement.origin[2]
        told = f"; the tops of its joists {figures.length(up)} over the main floor's deck" if up > 0 else ""
        return f"{high} along the joists{told}"
    return f"sheets to {high} at the peak" if face.outline.edges_with("rake") else f"{high} high"


def _is_lapped(face: Face) -> bool:
    """Whether sheets reach below the bottom plate, whose underside is v = 0: the frame alone begins there."""
    _, v0, _, v1 = face.outline.bounds
    return face.kind == "wall" and v0 < 0.0 < v1


def _lap_words(face: Face, figures: Figures) -> str:
    """How far the sheets of a wall reach below its frame; nothing where they begin with it."""
    return f"; its sheets begin {figures.length(-face.outline.bounds[1])} lower" if _is_lapped(face) else ""


def _wall(building: FramedBuilding, face: Face, drawings: SheetDrawings, figures: Figures) -> WallSheet:
    one = replace(building, count=1)
    marked = by_mark((one,), lambda member: member.face == face.name)
    gable = tuple(group for group in marked if group.member.role.name == GABLE_STUD)
    rakes = _rakes(building, face) if gable else ()
    u0, _, u1, _ = face.outline.bounds
    return WallSheet(
        building=building.name,
        load=min((group.member.role.load for group in marked), default=1),
        copies=building.count,
        name=face_words(face),
        length=figures.length(u1 - u0),
        height=f"{wall_height(face, figures)}{_lap_words(face, figures)}",
        edges=edges_words(face),
        heights=heights_words(face),
        pieces=tuple(piece_row(group, figures) for group in marked if group not in gable),
        gable=_gable_rows(gable, rakes, figures),
        gable_ends=tuple(_gable_ends(gable)),
        common_difference=_common_difference(rakes, figures),
        openings=opening_rows(building, face, figures),
        backing=tuple(_backing(building, face, figures)),
        drawing=f"{drawing.name}.svg" if (drawing := drawings.wall(building, face)) else "",
    )


def _backing(building: FramedBuilding, face: Face, figures: Figures) -> Iterator[str]:
    blocks = [m for m in building.members if m.face == face.name and m.role.name == BACKING]
    for mark, low, deep in sorted({(m.mark, round(m.placement.origin[2], 6), m.profile.depth_in) for m in blocks}):
        yield f"{mark}: bottom {figures.length(low)}, top {figures.length(low + deep)} over the floor"


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
            )
        )
    return tuple(found)


def _gable_ends(studs: tuple[Marked, ...]) -> Iterator[str]:
    groups = alike(studs, lambda group: cuts_words(group.member))
    for group in groups:
        words = cuts_words(group[0].member)
        yield words if len(groups) == 1 else f"{short_ids(by_number(one.member.mark for one in group))}: {words}"


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
