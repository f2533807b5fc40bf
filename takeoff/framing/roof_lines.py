"""From the plan's roof to the lines it is laid out from: which sides carry a slope, how steep, how far out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING, Literal

from takeoff.catalog.profiles import profile
from takeoff.framing.clips import clip_height
from takeoff.framing.seat import Seat, decided_seat
from takeoff.framing.tails import tail_lean, tail_level_drop
from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.roof_edge import PARALLEL, RoofEdge, RoofError, same_slope
from takeoff.measure import Pitch
from takeoff.plan.slope_edges import traced_slopes

if TYPE_CHECKING:
    from takeoff.plan.footprint import Footprint, Side
    from takeoff.plan.schema import Building

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofSideLine:
    """What one side of the building does for the roof."""

    side: Side
    role: Literal["eave", "gable", "high", "abutment"]
    """An eave carries the feet of rafters, the high wall of a shed roof their heads; a gable carries none; an abutment
    is a wall that stands already."""
    pitch: Pitch | None
    """Of the slope that starts on an eave; None elsewhere."""
    out: float
    """Level, from the outside of the wall framing to the tail cut or to the outside of the barge [in]."""
    plate: float
    """Height of its wall above the deck [in]."""
    seat: Seat | None
    stand: float
    """Height of the rafters' tops above the plate, over the outside of the wall [in]; 0 where it carries none."""

    clip: RoofSideLine | None = None
    """The eave of a clip over a gable, which reaches out as far as the rake; its plate is the wall's level top."""

    gablet: float | None = None
    """Level, from the outside of the wall framing to a small gable on the hip slope [in]."""

    @property
    def is_eave(self) -> bool:
        """Rafters start on it."""
        return self.role == "eave"

    @property
    def bears(self) -> bool:
        """Rafters stand on it."""
        return self.role in ("eave", "high")

    @property
    def slope(self) -> float:
        """Rise over run of the slope that starts on it; 0 where none does."""
        return self.pitch.slope if self.pitch else 0.0

    @property
    def eave_height(self) -> float:
        """Height of the tops of the tail cuts above the deck [in]."""
        return self.plate + self.stand - self.out * self.slope


def roof_lines(building: Building, footprint: Footprint) -> tuple[RoofSideLine, ...]:
    """One for each side of the footprint, in its order.

    Eaves of unequal pitch are brought to one height, the flattest slope keeping what is written: steeper ones reach
    out less, or have their walls built higher, as the plan says. Walls that are written higher keep their height.
    """
    if building.roof.shape == "shed":
        return _shed_lines(building, footprint)
    lines = [_line(building, side) for side in footprint.sides]
    if building.outlines.slopes and building.outlines.reach == "eave_line":
        outs = traced_slopes(building.outlines, footprint).outs()
        lines = [replace(line, out=outs.get(k, line.out)) for k, line in enumerate(lines)]
    else:
        flattest = min((line for line in lines if line.is_eave), key=lambda line: line.slope)
        lines = [_brought_to(building, line, flattest) if line.is_eave else line for line in lines]
    return tuple(_clipped(building, k, lines) for k in range(len(lines)))


def _clipped(building: Building, k: int, lines: list[RoofSideLine]) -> RoofSideLine:
    """A gable with its clip, if it has one."""
    line, beside = lines[k], (lines[k - 1], lines[(k + 1) % len(lines)])
    clip = building.roof.clips.get(line.side.name)
    if clip is None:
        return line
    eave = replace(_eave(building, line.side, clip.pitch or building.roof.pitch), out=line.out)
    return replace(line, clip=replace(eave, plate=clip_height(clip, eave, beside, line.side.length_in)))


def _line(building: Building, side: Side) -> RoofSideLine:
    roof = building.roof
    pitch = roof.pitch_of(side.name)
    walls = building.walls.for_side(side.name)
    if pitch is None:
        abutment = roof.is_abutment(side.name)
        role: Literal["abutment", "gable"] = "abutment" if abutment else "gable"
        out = 0.0 if abutment else roof.overhang.rake
        return RoofSideLine(side=side, role=role, pitch=None, out=out, plate=walls.height_in, seat=None, stand=0.0)
    return _eave(building, side, pitch)


def _eave(building: Building, side: Side, pitch: Pitch) -> RoofSideLine:
    roof, walls = building.roof, building.walls.for_side(side.name)
    depth = profile(roof.rafters.size).depth_in
    seat = decided_seat(
        depth=depth,
        plate_width=walls.bearing_in,
        slope=pitch.slope,
        stated=roof.rafters.seat,
    )
    stand = depth * hypot(1, pitch.slope) - seat.length * pitch.slope
    gablet = roof.gablets.get(side.name)
    return RoofSideLine(
        side=side,
        role="eave",
        pitch=pitch,
        out=roof.overhang.eave,
        plate=walls.height_in,
        seat=seat,
        stand=stand,
        gablet=gablet.run if gablet else None,
    )


def _brought_to(building: Building, line: RoofSideLine, flattest: RoofSideLine) -> RoofSideLine:
    if line.slope == flattest.slope or line.plate != flattest.plate:
        return line
    if building.roof.keep == "eave_line":
        return replace(line, plate=flattest.eave_height + line.out * line.slope - line.stand)
    # No eave is drawn inside its wall: without an overhang, one that would be is a little lower than the others.
    return replace(line, out=max(0.0, (line.plate + line.stand - flattest.eave_height) / line.slope))


def _shed_lines(building: Building, footprint: Footprint) -> tuple[RoofSideLine, ...]:
    """The low side as an eave, the wall opposite built up under the rafters, the others as gables."""
    roof = building.roof
    low = next(_line(building, side) for side in footprint.sides if side.name == roof.low)
    high = footprint.right_of(footprint.right_of(low.side.name).name)
    inner = footprint.left_of(low.side.name).length_in - profile(building.walls.for_side(high.name).studs).depth_in
    if low.seat is None:
        raise ValueError(f"no rafters stand on {low.side.name}")
    # The upper bird's mouth is as long as the lower: its seat starts over the inside of the high wall.
    plate = low.plate + inner * low.slope
    run = footprint.left_of(low.side.name).length_in
    stand = low.plate + low.stand + run * low.slope - plate
    lines = {
        low.side.name: low,
        high.name: RoofSideLine(
            side=high, role="high", pitch=None, out=roof.high_overhang, plate=plate, seat=low.seat, stand=stand
        ),
    }
    return tuple(lines.get(side.name) or _line(building, side) for side in footprint.sides)


def lowest_eave(lines: tuple[RoofSideLine, ...]) -> float:
    """Height of the lowest eave above the deck [in]."""
    return min(line.eave_height for line in lines if line.is_eave)


def outer_ring(lines: tuple[RoofSideLine, ...], *, run_on: bool = True) -> tuple[RoofEdge, ...]:
    """The roof's outline in plan: the footprint's sides moved out to tail cuts and barges, corners where they meet.

    The slopes of higher eaves are run on down to the height of the lowest, unless ``run_on`` is off.
    """
    for k, line in enumerate(lines):
        if _in_line(lines[k - 1], line) and not same_slope(_rise(lines[k - 1]), _rise(line)):
            names = f"{lines[k - 1].side.name} and {line.side.name}"
            raise RoofError(
                f"{names} are in one line but differ in pitch or in what they do", [(k - 1) % len(lines), k]
            )
    base = lowest_eave(lines)
    moved = [replace(line, out=line.out + _run_on(line, base)) for line in lines] if run_on else list(lines)
    corners = [corner(moved[k - 1], line) for k, line in enumerate(moved)]
    return tuple(
        RoofEdge(a, b, _rise(line)) for line, a, b in zip(lines, corners, [*corners[1:], corners[0]], strict=True)
    )


def _in_line(one: RoofSideLine, other: RoofSideLine) -> bool:
    (ux, uy), (vx, vy) = one.side.direction, other.side.direction
    return abs(ux * vy - uy * vx) < PARALLEL and ux * vx + uy * vy > 0


def _rise(line: RoofSideLine) -> float | None:
    return line.pitch.slope if line.pitch else None


def _run_on(line: RoofSideLine, base: float) -> float:
    return (line.eave_height - base) / line.slope if line.is_eave else 0.0


def corner(one: RoofSideLine, other: RoofSideLine) -> Point:
    """Where the outer lines of two neighbouring sides meet; sides in one line keep their joint, moved straight out."""
    (px, py), (ux, uy) = _moved(one), one.side.direction
    (qx, qy), (vx, vy) = _moved(other), other.side.direction
    turn = ux * vy - uy * vx
    if abs(turn) < 1e-9:
        return (qx, qy)
    along = ((qx - px) * vy - (qy - py) * vx) / turn
    return (px + along * ux, py + along * uy)


def _moved(line: RoofSideLine) -> Point:
    """A point of the side's outer line: its left end moved out."""
    (x, y), (nx, ny) = line.side.start, line.side.normal
    return (x + nx * line.out, y + ny * line.out)


def common_rafter(
    building: Building, line: RoofSideLine, run: float, top_half: float, upper_heel: float | None = None
) -> RafterGeometry:
    """Cuts of the rafters that stand on a side's wall, for one that runs ``run`` to a ridge of that half thickness.

    ``upper_heel`` is the level distance to the inside of a high wall that carries their heads [in].

    Raises:
        ValueError: no such rafter can be cut; the message says why.
    """
    if line.pitch is None or line.seat is None:
        raise ValueError(f"no rafters stand on {line.side.name}")
    roof = building.roof
    return RafterGeometry(
        slope=line.pitch.slope,
        depth=profile(roof.rafters.size).depth_in,
        run=run,
        overhang=line.out,
        ridge_half=top_half,
        seat=line.seat.length,
        tail_depth=profile(roof.tail.size).depth_in if roof.tail.size else None,
        tail_level_drop=tail_level_drop(roof, line.pitch.slope),
        tail_lean=tail_lean(roof, line.pitch.slope),
        upper_heel=upper_heel,
    )
