"""What a tape reads on a dormer's soles, cheek plates and valley plates, and where they lie on the main sheathing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from takeoff.framing.lines import PLATE, WALL_PLATES
from takeoff.framing.plate_lines import plate_lines
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.layout import LayoutLine, LayoutMark, Tape

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.framing.dormer import Spot
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.valley_plates import ValleyPlate
    from takeoff.framing.wall import Wall
    from takeoff.geometry.placement import Placement
    from takeoff.model.member import Member

_INSIDE_IN = 0.05
"""How far under a sole's top its tape lies [in]: inside the sole, and no farther off the studs' feet than that."""
UPRIGHT = 0.5
"""Sticks whose axis rises more steeply than this, rise for one along it, stand up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lying:
    """What lies flat on the main sheathing under a dormer, as outlines on the plane of its tops."""

    soles: tuple[Polygon, ...]
    """Of the front, the left and the right cheek."""
    valleys: tuple[ValleyPlate, ...]
    """Pieces of valley plates."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MainEave:
    """What is measured from on the main slope."""

    edge: float
    """V of the lower edge of its sheathing [in]."""
    left_end: str
    """What the left end of its wall is called, seen from outside."""
    length: float
    """Of its wall [in]."""


def cheek_lines(
    spot: Spot, wall: Wall, members: Sequence[Member], sole: Polygon, *, at_right: bool
) -> Iterator[LayoutLine]:
    """Studs of a cheek along its sole, which lies on the slope, and along its level top plate.

    Args:
        spot: where the dormer stands.
        wall: the cheek.
        members: its sticks.
        sole: its outline on the plane of the soles' tops.
        at_right: it is the right one, whose front end is its left.
    """
    whole = wall.side.length_in
    marks = {
        (u if at_right else whole - u, m.role.layout_symbol, m.role.words)
        for m in members
        if abs(m.placement.x[2]) > UPRIGHT
        for u in (wall.bench.placement.from_world(m.placement.origin)[0],)
    }
    u0, v0, u1, _ = (float(at) for at in sole.bounds)
    outer = u1 if at_right else u0
    top = max(v for u, v in sole.exterior.coords if abs(u - outer) < TOLERANCE.length)
    yield LayoutLine(
        name=f"{wall.side.name} sole, up the slope along its outer edge",
        start="lower end, at the front",
        length_in=top - v0,
        marks=_sorted((at / spot.slope.level, symbol, words) for at, symbol, words in marks),
        tape=_up_the_slope(spot, outer - spot.studs.depth_in / 2 if at_right else outer + spot.studs.depth_in / 2, v0),
    )
    plates = [m for m in members if m.role.name == "top-plate" and abs(m.placement.x[2]) < TOLERANCE.length]
    if plates:
        yield LayoutLine(
            name=f"{wall.side.name} top plate",
            start="front end",
            length_in=max(m.length_in for m in plates),
            marks=_sorted(marks),
            tape=_along_plate(wall, plates[0], at_right=at_right),
        )


def _up_the_slope(spot: Spot, u: float, v: float) -> Tape:
    """Up a sole, from its lower end."""
    top = spot.plane(spot.layer)
    return Tape.toward_point(*(top.to_world((u, at, -_INSIDE_IN)) for at in (v, v + 1.0)))


def _along_plate(wall: Wall, plate: Member, *, at_right: bool) -> Tape:
    """In from the front, which is at the left end of the right cheek."""
    face = wall.bench.placement
    _, v, w = face.from_world(plate.centre_line[0])
    front, into = (0.0, 1.0) if at_right else (wall.side.length_in, -1.0)
    return Tape.toward_point(*(face.to_world((u, v, w)) for u in (front, front + into)))


def with_sole_tape(spot: Spot, sole: Polygon, lines: Iterable[LayoutLine]) -> Iterator[LayoutLine]:
    """Lines of the front wall, whose studs stand on a sole on the slope and not on a plate on the floor.

    Args:
        spot: where the dormer stands.
        sole: of the front, its outline on the plane of the soles' tops.
        lines: as of a wall that went down to the floor.
    """
    top = spot.plane(spot.layer)
    u0, v0, u1, v1 = (float(at) for at in sole.bounds)
    ends = tuple(top.to_world((u, (v0 + v1) / 2, -_INSIDE_IN)) for u in (u0, u1))
    for line in lines:
        yield replace(line, tape=Tape.toward_point(*ends)) if line.name.endswith(WALL_PLATES) else line


def _sorted(marks: Iterable[tuple[float, str, str]]) -> tuple[LayoutMark, ...]:
    return tuple(LayoutMark(*mark) for mark in sorted((round(at, 6), symbol, words) for at, symbol, words in marks))


def valley_plate_lines(roof: RoofFrame, lying: Lying, top: Placement) -> Iterator[LayoutLine]:
    """Jacks along each piece of a valley plate."""
    yield from plate_lines("", roof, lying.valleys, top)


def placed_on_sheathing(spot: Spot, lying: Lying, main: MainEave) -> Iterator[LayoutLine]:
    """Where soles and valley plates are snapped on the main sheathing, up the slope and along the eave.

    Args:
        spot: where the dormer stands.
        lying: soles and valley plates.
        main: the eave of the main slope.
    """
    low, high = spot.sole_v
    cheeks = {round(float(sole.bounds[3]), 6) for sole in lying.soles[1:]}
    ends = {
        (round(u, 6), round(v, 6), f"{which} end of a valley plate's edge beside the valley")
        for plate in lying.valleys
        for which, (u, v) in zip(("lower", "upper"), sorted(plate.run, key=lambda end: end[1]), strict=True)
    }
    up = {
        (low, "[", "lower edge of the soles"),
        (high, "]", "upper edge of the front sole"),
        *((v, "]", "upper end of a cheek sole, its longer edge") for v in cheeks),
        *((v, "V", words) for _, v, words in ends),
    }
    yield LayoutLine(
        name="soles and valley plates on the main sheathing, up the slope",
        start="lower edge of the main sheathing",
        length_in=spot.slope.outline.bounds[3] - main.edge,
        marks=_sorted((v - main.edge, symbol, words) for v, symbol, words in up),
    )
    left, right = spot.dormer.across_in
    along = {
        (left, "[", "outside of the left cheek's sole"),
        (right, "]", "outside of the right cheek's sole"),
        *((u, "V", words) for u, _, words in ends),
    }
    yield LayoutLine(
        name="soles and valley plates on the main sheathing, along the eave",
        start=main.left_end,
        length_in=main.length,
        marks=_sorted(along),
    )


def with_cap_lengths(spot: Spot, lines: Iterable[LayoutLine]) -> tuple[LayoutLine, ...]:
    """Lines of rafters on a gable dormer's cheeks, as long as their cap plates reach in from the front."""
    return tuple(
        replace(line, length_in=spot.reach) if line.name.endswith(PLATE) and "cheek" in line.name else line
        for line in lines
    )
