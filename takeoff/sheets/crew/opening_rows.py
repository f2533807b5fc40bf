"""Rough openings of a wall or a floor, each with what is framed in it."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.sheets.crew.alike import by_number

if TYPE_CHECKING:
    from takeoff.geometry.outline import Edge
    from takeoff.model.building import FramedBuilding
    from takeoff.model.face import Face
    from takeoff.model.member import Member
    from takeoff.sheets.crew.figures import Figures

EDGES = {
    "wall": "Edges run from the wall's left end, seen from {seen};"
    " sill and head from the underside of the bottom plate.",
    "floor": "Left and right run across the joists from the end that the layout starts at,"
    " near and far along the joists.",
    "slope": "",
}
"""From where the edges of openings run, by the kind of face."""

EDGES_OF_MINOR = "Edges run from the wall's left end, seen from outside; sill and head over the deck of the main floor."
"""In a wall that stands on a roof."""


_HEIGHTS = {"floor": ("near edge", "far edge")}
_CENTRE = "centre of "


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningRow:
    """A rough opening; distances along the wall are from its left end, seen from outside."""

    number: int
    what: str
    """As a builder calls it: ``window 3040``; empty where nobody has."""
    header: str
    """Marks of the plies over it, with how many: ``2 H1``; empty where it has none of its own."""
    width: str
    height: str
    left: str
    right: str
    sill: str
    head: str


def edges_words(face: Face) -> str:
    """From where the edges of a face's openings run."""
    return EDGES_OF_MINOR if face.part else EDGES[face.kind].format(seen=face.seen_from)


def heights_words(face: Face) -> tuple[str, str]:
    """What the lower and the upper edge of an opening are called; those of a hatch lie along the joists."""
    return _HEIGHTS.get(face.kind, ("sill", "head"))


def opening_rows(building: FramedBuilding, face: Face, figures: Figures) -> tuple[OpeningRow, ...]:
    """The openings of a face, in its own order."""
    return tuple(_row(building, face, number, hole, figures) for number, hole in enumerate(face.outline.holes, start=1))


def _row(building: FramedBuilding, face: Face, number: int, hole: tuple[Edge, ...], figures: Figures) -> OpeningRow:
    us, vs = [edge.a[0] for edge in hole], [edge.a[1] for edge in hole]
    left_end = face.outline.bounds[0]
    return OpeningRow(
        number=number,
        what=_called(building, face, (min(us) + max(us)) / 2),
        header=_header(building, face, (min(us), max(us)), max(vs)) if face.kind == "wall" else "",
        width=figures.length(max(us) - min(us)),
        height=figures.length(max(vs) - min(vs)),
        left=figures.length(min(us) - left_end),
        right=figures.length(max(us) - left_end),
        sill=figures.length(min(vs)),
        head=figures.length(max(vs)),
    )


def _called(building: FramedBuilding, face: Face, middle: float) -> str:
    """What the wall's own layout line calls the opening there."""
    for line in building.lines:
        if line.tape is None or line.name != f"{face.name} wall plates":
            continue
        for mark in line.marks:
            at = face.placement.from_world(line.tape.at(mark.position_in))[0]
            if mark.what.startswith(_CENTRE) and abs(at - middle) < TOLERANCE.mark:
                return mark.what.removeprefix(_CENTRE)
    return ""


def _header(building: FramedBuilding, face: Face, u: tuple[float, float], head: float) -> str:
    """The plies that reach over an opening, those next above its head."""
    over = [
        (low, member.mark)
        for member in building.members
        if member.face == face.name and member.role.name == "header"
        for low in (_low_edge(face, member, u),)
        if low is not None and low > head - TOLERANCE.mark
    ]
    lowest = min((low for low, _ in over), default=0.0)
    marks = Counter(mark for low, mark in over if low < lowest + TOLERANCE.mark)
    return ", ".join(f"{marks[mark]} {mark}" for mark in by_number(marks))


def _low_edge(face: Face, member: Member, u: tuple[float, float]) -> float | None:
    """Height in the face of a ply's lower edge; None where it doesn't reach over the opening."""
    start, end = (face.placement.from_world(point) for point in member.centre_line)
    reaches = min(start[0], end[0]) < u[0] + TOLERANCE.mark and max(start[0], end[0]) > u[1] - TOLERANCE.mark
    return float(face.placement.from_world(member.placement.origin)[1]) if reaches else None
