"""Layout lines: what a tape pulls on plates and ridge, each from one stated end."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.roles import role
from takeoff.framing.fold_marks import folds_on_plate, folds_on_ridge
from takeoff.framing.laid_ridge import from_square_end
from takeoff.framing.opening_lines import edge_marks, opening_lines
from takeoff.framing.wall import Wall
from takeoff.geometry.compass import compass
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import scale
from takeoff.model.layout import LayoutLine, LayoutMark, Tape
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.framing.fold_members import RidgeStick
    from takeoff.framing.rafters import Placed, RafterRow
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.slope import Slope
    from takeoff.plan.footprint import Footprint

PLATE = "wall, top of cap plate"
CLIP_PLATE = "wall, level top under the clip"
"""What rafters stand on, unless it is something else."""

WALL_PLATES = "wall plates"
"""How the name of the line ends that a wall's uprights stand on."""

_INSIDE = 0.5
"""How far inside a stick the line lies that a tape is said to mark [in]."""

OPENING_MARKS = (("[", "left edge of"), ("CL", "centre of"), ("]", "right edge of"))

TEE_MARKS = (("<", "left side of"), ("T", "middle of"), (">", "right side of"))


def wall_lines(wall: Wall, footprint: Footprint, members: Iterable[Member]) -> tuple[LayoutLine, ...]:
    """Studs and openings on a wall's plates, from the left end of the plates seen from outside.

    What stands on the cap plate of a platform gable has a line of its own.
    """
    return _wall_lines(wall, left_end(wall, footprint), members)


def left_end(wall: Wall, footprint: Footprint) -> str:
    """What the left end of a side's wall is called."""
    return f"{footprint.left_of(wall.side.name).name} end"


def partition_lines(wall: Wall, members: Iterable[Member]) -> tuple[LayoutLine, ...]:
    """Studs and openings on a partition's plates, from the end that the plan writes first, told by the compass."""
    x, y = wall.side.direction
    return _wall_lines(wall, f"{compass(-x, -y)} end", members)


def _wall_lines(wall: Wall, start: str, members: Iterable[Member]) -> tuple[LayoutLine, ...]:
    uprights = [member for member in members if abs(member.placement.x[2]) > 0.5]  # stands up
    over = [member for member in uprights if wall.platform and _v(wall, member) > wall.height - TOLERANCE.length]
    under = [member for member in uprights if member not in over]
    lines = (_plates_line(wall, start, under),)
    return (*lines, _gable_line(wall, start, over)) if over else lines


def _plates_line(wall: Wall, start: str, uprights: Iterable[Member]) -> LayoutLine:
    origin, end = wall.extent
    openings = {
        (round(u - origin, 6), symbol, f"{words} {opening.what}")
        for opening in wall.openings
        for u, (symbol, words) in zip((opening.u[0], sum(opening.u) / 2, opening.u[1]), OPENING_MARKS, strict=True)
    }
    tees = {
        (round(u - origin, 6), symbol, f"{words} a wall that ends here")
        for tee in wall.tees
        for u, (symbol, words) in zip((tee.u[0], sum(tee.u) / 2, tee.u[1]), TEE_MARKS, strict=True)
    }
    return LayoutLine(
        name=f"{wall.side.name} {WALL_PLATES}",
        start=start,
        length_in=end - origin,
        marks=tuple(LayoutMark(*mark) for mark in sorted(_standing(wall, uprights, origin) | openings | tees)),
        load=1,
        tape=_tape(wall, origin, wall.plate / 2),
    )


def _gable_line(wall: Wall, start: str, uprights: Iterable[Member]) -> LayoutLine:
    """What stands on the cap plate of a platform gable, from the end of that plate."""
    origin, end = max(wall.cap_ends[0]), min(wall.cap_ends[1])
    return LayoutLine(
        name=f"{wall.side.name} wall, gable on the cap plate",
        start=start,
        length_in=end - origin,
        marks=tuple(LayoutMark(*mark) for mark in sorted(_standing(wall, uprights, origin))),
        load=1,
        tape=_tape(wall, origin, wall.height - wall.plate / 2),
    )


def _standing(wall: Wall, uprights: Iterable[Member], origin: float) -> set[tuple[float, str, str]]:
    return {(round(_u(wall, member) - origin, 6), member.role.layout_symbol, member.role.words) for member in uprights}


def _tape(wall: Wall, u: float, v: float) -> Tape:
    """Along the middle of a plate, from ``u``."""
    placement = wall.bench.placement
    return Tape(placement.to_world((u, v, -wall.studs.depth_in / 2)), placement.x)


def _v(wall: Wall, member: Member) -> float:
    return wall.bench.placement.from_world(member.placement.origin)[1]


def _u(wall: Wall, member: Member) -> float:
    return wall.bench.placement.from_world(member.placement.origin)[0]


def rafter_lines(frame: RoofFrame, footprint: Footprint, stands_on: str = PLATE) -> tuple[LayoutLine, ...]:
    """Rafters on plates and ridges, those of opposite slopes pulled from the same end of the building.

    Args:
        frame: the roof.
        footprint: of the building.
        stands_on: what its rafters stand on, as a line calls it after the side's name.
    """
    plates = (line for row in frame.rows if row.seated for line in _plate_lines(frame, row, footprint, stands_on))
    ridges = (from_square_end(frame, ridge, line) for ridge in frame.ridges for line in _ridge_lines(frame, ridge))
    openings = (line for row in frame.rows for line in opening_lines(row))
    return (*plates, *ridges, *openings)


def _plate_lines(frame: RoofFrame, row: RafterRow, footprint: Footprint, stands_on: str) -> Iterator[LayoutLine]:
    """The plate or purlin that a slope's rafters start on, and the plate of the high wall they run over.

    Rafters over a wing's mouth have a line of their own (`mouth_lines`).
    """
    stands_on = CLIP_PLATE if frame.plan.line(row.slope.side).clip else stands_on
    mouths = [mouth.span for mouth in frame.plan.mouths if frame.rows[mouth.main] is row]
    slope = row.slope
    left, right = slope.walls
    first = footprint.right_of(slope.side) if slope.from_right else footprint.left_of(slope.side)
    standing = [one for one in row.placed if one.seated and not any(a < one.u < b for a, b in mouths)]
    marks = _marks((right - one.u if slope.from_right else one.u - left, one) for one in standing)
    marks = (*marks, *edge_marks(slope), *folds_on_plate(frame, slope))
    sides = [(slope.side, _plate_tape(slope, 0.0, _bearing(slope)))]
    if slope.high_wall:
        high = footprint.right_of(footprint.right_of(slope.side).name).name
        sides.append((high, _plate_tape(slope, slope.high_wall, frame.plan.line(high).plate)))
    for side, tape in sides:
        what = "purlin, top and outer face" if slope.on_purlin else stands_on
        # The plates under a clip are shorter than the wall, over whose layout its jacks stand.
        start = f"{first.name} {'corner of the wall' if what == CLIP_PLATE else 'end'}"
        yield LayoutLine(
            name=f"{side} {what}",
            start=start,
            length_in=right - left,
            marks=tuple(sorted(marks, key=lambda mark: mark.position_in)),
            tape=tape,
        )


def _ridge_lines(frame: RoofFrame, ridge: RidgeStick) -> tuple[LayoutLine, ...]:
    """One line for both faces where the rafters stand opposite each other, else one a face."""
    faces = [(frame.rows[k].slope.side, _along(frame, k, ridge)) for k in ridge.slopes]
    over = next((end.side for end in frame.ridge_ends if end.ridge is ridge and end.at_start), None)
    x, y, _ = ridge.bench.placement.x
    start = f"{over or compass(-x, -y)} end"
    first, second = ([(mark.position_in, mark.symbol) for mark in marks] for _, marks in faces)
    both = "top" if frame.rows[ridge.slopes[0]].slope.common.beam else "both faces"
    tapes = [_ridge_tape(ridge, frame.rows[k].slope) for k in ridge.slopes]
    named = [(f"{name} face", marks, tape) for (name, marks), tape in zip(faces, tapes, strict=True)]
    if first == second:
        named = [(both, faces[0][1], _ridge_tape(ridge, None))]
    return tuple(
        LayoutLine(
            name=f"ridge, {name}",
            start=start,
            length_in=ridge.run[1] - ridge.run[0],
            marks=found,
            tape=tape,
        )
        for name, found, tape in named
    )


def _ridge_tape(ridge: RidgeStick, slope: Slope | None) -> Tape:
    """Along the middle of a ridge, for the rafters of one slope or of both."""
    placement = ridge.bench.placement
    start = placement.to_world((ridge.run[0], ridge.profile.depth_in / 2, 0.0))
    if slope is None:
        return Tape(start, placement.x)
    x, y, _ = slope.bench.placement.y
    return Tape(start, placement.x, (-x, -y, 0.0))


def _bearing(slope: Slope) -> float:
    """Height above the deck of what its rafters are seated on [in]."""
    return slope.bench.placement.to_world((slope.walls[0], 0.0, 0.0))[2] - slope.common.height_above_plate


def _plate_tape(slope: Slope, inward: float, top: float) -> Tape:
    """Along a plate whose top is at a height, so far in from the outside of the wall under the eave [in], level.

    It lies just inside the stick, on the side of the slope that the rafters come from.
    """
    left, right = slope.walls
    aside = inward + _INSIDE if not inward else inward - _INSIDE
    x, y, _ = slope.bench.placement.to_world((right if slope.from_right else left, aside / slope.level, 0.0))
    along = slope.bench.placement.x
    return Tape((x, y, top - _INSIDE), scale(along, -1.0) if slope.from_right else along)


def _along(frame: RoofFrame, index: int, ridge: RidgeStick) -> tuple[LayoutMark, ...]:
    """Rafters, hips and valleys of a slope on a ridge."""
    row = frame.rows[index]
    origin = row.slope.bench.placement
    spots = ((ridge.bench.placement.from_world(origin.to_world((one.u, 0.0, 0.0)))[0], one) for one in row.placed)
    rafters = _marks((u - ridge.run[0], one) for u, one in spots if "ridge" in one.cuts.upper)
    folds = folds_on_ridge(frame, frame.plan.slopes[index], ridge)
    return tuple(sorted((*rafters, *folds), key=lambda mark: mark.position_in))


def _marks(placed: Iterable[tuple[float, Placed]]) -> tuple[LayoutMark, ...]:
    found = ((round(position, 6), role(one.role)) for position, one in placed)
    return tuple(
        LayoutMark(position, known.layout_symbol, known.words.split(",")[0])
        for position, known in sorted(found, key=lambda pair: pair[0])
    )
