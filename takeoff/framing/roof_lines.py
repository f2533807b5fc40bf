"""From the plan's roof to the lines it is laid out from: which sides carry a slope, how steep, how far out."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.framing.seat import Seat, decided_seat
from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.roof_edge import RoofEdge
from takeoff.measure import Pitch

if TYPE_CHECKING:
    from takeoff.plan.footprint import Footprint, Side
    from takeoff.plan.schema import Building

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofSideLine:
    """What one side of the building does for the roof."""

    side: Side
    pitch: Pitch | None
    """None where no slope starts on it: a gable, or a wall that stands on."""
    out: float
    """Level, from the outside of the wall framing to the tail cut or to the outside of the barge [in]."""
    plate: float
    """Height of its wall above the deck [in]."""
    seat: Seat | None
    stand: float
    """Height of the rafters' tops above the plate, over the outside of the wall [in]; 0 where it carries none."""

    @property
    def is_eave(self) -> bool:
        """Rafters stand on it."""
        return self.pitch is not None

    @property
    def eave_height(self) -> float:
        """Height of the tops of the tail cuts above the deck [in]."""
        return self.plate + self.stand - self.out * (self.pitch.slope if self.pitch else 0.0)


def roof_lines(building: Building, footprint: Footprint) -> tuple[RoofSideLine, ...]:
    """One for each side of the footprint, in its order.

    Eaves of unequal pitch are brought to one height by the overhang: the flattest slope keeps the one written, and
    steeper ones reach out less.
    """
    lines = [_line(building, side) for side in footprint.sides]
    eaves = [line for line in lines if line.pitch]
    flattest = min(eaves, key=lambda line: line.pitch.slope if line.pitch else 0.0)
    return tuple(_brought_to(line, flattest.eave_height) for line in lines)


def _line(building: Building, side: Side) -> RoofSideLine:
    roof = building.roof
    pitch = roof.pitch_of(side.name)
    walls = building.walls.for_side(side.name)
    if pitch is None:
        return RoofSideLine(side=side, pitch=None, out=roof.overhang.rake, plate=walls.height_in, seat=None, stand=0.0)
    depth = profile(roof.rafters.size).depth_in
    seat = decided_seat(
        depth=depth,
        plate_width=profile(walls.studs).depth_in,
        slope=pitch.slope,
        stated=roof.rafters.seat,
    )
    stand = depth * hypot(1, pitch.slope) - seat.length * pitch.slope
    return RoofSideLine(side=side, pitch=pitch, out=roof.overhang.eave, plate=walls.height_in, seat=seat, stand=stand)


def _brought_to(line: RoofSideLine, height: float) -> RoofSideLine:
    if line.pitch is None:
        return line
    out = (line.plate + line.stand - height) / line.pitch.slope
    return RoofSideLine(side=line.side, pitch=line.pitch, out=out, plate=line.plate, seat=line.seat, stand=line.stand)


def outer_ring(lines: tuple[RoofSideLine, ...]) -> tuple[RoofEdge, ...]:
    """The roof's outline in plan: the footprint's sides moved out to tail cuts and barges, corners where they meet."""
    corners = [_corner(lines[k - 1], line) for k, line in enumerate(lines)]
    return tuple(
        RoofEdge(a, b, line.pitch.slope if line.pitch else None)
        for line, a, b in zip(lines, corners, [*corners[1:], corners[0]], strict=True)
    )


def _corner(one: RoofSideLine, other: RoofSideLine) -> Point:
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


def common_rafter(building: Building, line: RoofSideLine, run: float, top_half: float) -> RafterGeometry:
    """Cuts of the rafters that stand on a side's wall, for one that runs ``run`` to a ridge of that half thickness.

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
    )
