"""The second bird's mouth of a rafter, on a high wall or on the ridge beam that it runs over."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from takeoff.geometry.rafter import RafterGeometry
    from takeoff.sheets.drawing import Point


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondMouth:
    """Its figures and what it is called. Lengths [in], level or plumb unless the name says otherwise."""

    rafter: RafterGeometry
    name: str
    """Which mouth it is: ``upper``, ``beam``."""
    under: str
    """What carries the rafter there."""
    h: float
    """Of its heel plumb line, inward of the outside face of the wall."""
    seat: float
    bearing: float
    """Height of what carries it over the first plate."""

    @property
    def heel(self) -> float:
        """Plumb height of its heel cut."""
        return self.bearing - self.rafter.underside_at(self.h)

    @property
    def height_above(self) -> float:
        """From what carries it up to the top edge, at its heel plumb line."""
        return self.rafter.top_at(self.h) - self.bearing

    @property
    def level_from_start(self) -> float:
        """From where the line length starts: the first heel plumb line, or the middle of a foot cut."""
        return self.h - (self.rafter.foot or 0.0)

    @property
    def along(self) -> float:
        """The same along the slope."""
        return self.level_from_start / cos(self.rafter.angle)

    @property
    def from_low_end(self) -> float:
        """Along the top edge, from the lower end's long point to its heel plumb line."""
        return (self.h - self.rafter.start) / cos(self.rafter.angle)

    @property
    def heel_top(self) -> Point:
        """Its heel plumb line at the top edge, in the axes of the stick."""
        return self.rafter.to_stick(self.h, self.rafter.top_at(self.h))

    @property
    def heel_low(self) -> Point:
        """Its heel plumb line at the bottom edge."""
        return self.rafter.to_stick(self.h, self.rafter.underside_at(self.h))

    @property
    def corner(self) -> Point:
        """Outer end of its seat, on its heel plumb line."""
        return self.rafter.to_stick(self.h, self.bearing)

    @property
    def seat_inner(self) -> Point:
        """Inner end of its seat: on the bottom edge, or on the peak cut."""
        return self.rafter.to_stick(self.h + self.seat, self.bearing)

    @property
    def holds_the_end(self) -> bool:
        """Whether it is so near the upper end that one view shows both."""
        return self.rafter.beam is not None

    @property
    def at_end(self) -> bool:
        """Whether its seat runs out into the upper cut."""
        return self.h + self.seat > self.rafter.end - TOLERANCE.length


def second_mouth(rafter: RafterGeometry) -> SecondMouth | None:
    """The second bird's mouth of a rafter, if it has one."""
    if rafter.upper_heel is not None and rafter.upper_seat_cut:
        return SecondMouth(
            rafter=rafter,
            name="upper",
            under="high plate",
            h=rafter.upper_heel,
            seat=rafter.upper_seat_cut,
            bearing=rafter.upper_plate,
        )
    if rafter.beam is not None:
        return SecondMouth(
            rafter=rafter,
            name="beam",
            under="beam",
            h=rafter.beam_face,
            seat=rafter.beam_seat,
            bearing=rafter.beam.top,
        )
    return None
