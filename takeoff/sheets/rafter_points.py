"""The points of a rafter that its drawings measure from and to, in the axes of the stick.

        tail_top ______________________ heel_top __________________ ridge_top
                /  tail depth          /                          /
     tail_foot /______________________/ tail_at_heel             /
                - - - (ripped off) - / corner                   /
                                    /`.                        /
                          heel_low /   `. seat_inner _________/ ridge_foot

Heel points stand on the heel plumb line, over one another in the building.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, cos, degrees, sin

from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.sheets.drawing import Point
from takeoff.sheets.rafter_words import eave_overhang


@dataclass(frozen=True, slots=True)
class RafterPoints:
    """Points of one rafter [in]; x along the stick from the top of the tail cut, y up from its bottom edge."""

    rafter: RafterGeometry

    def at(self, h: float, z: float) -> Point:
        """Point a level distance inward of the wall's outside face, at a height over the plate."""
        return self.rafter.to_stick(h, z)

    @property
    def tail_top(self) -> Point:
        """Top of the tail cut."""
        return (0.0, self.rafter.depth)

    @property
    def tail_foot(self) -> Point:
        """Where the line of the tail cut (or foot cut) meets the underside."""
        if self.rafter.laid_foot:
            h = self.rafter.surface_under
            return self.at(h, self.rafter.underside_at(h))
        h, angle = self.rafter.start, self.rafter.angle
        drop = self.rafter.tail_depth_cut / (cos(angle) + self.lower_lean * sin(angle))
        return self.at(h + self.lower_lean * drop, self.rafter.top_at(h) - drop)

    @property
    def lower_lean(self) -> float:
        """How far the cut of the lower end runs back, level, for one inch down."""
        return self.rafter.slope if self.rafter.square_foot else self.rafter.tail_lean

    @property
    def lower_cut_deg(self) -> float:
        """The cut of the lower end, off square [deg]: the plumb cut, less what it leans; or along what it lies on."""
        if self.rafter.laid_foot:
            return self.rafter.surface_deg
        return self.rafter.plumb_deg - degrees(atan(self.lower_lean))

    @property
    def level_cut(self) -> Point:
        """Foot of the tail's plumb cut, where its level cut starts; its underside where it has none."""
        drop = self.rafter.tail_level_drop
        h = self.rafter.start
        return self.tail_foot if drop is None else self.at(h, self.rafter.top_at(h) - drop)

    @property
    def level_cut_inner(self) -> Point:
        """Inner end of the tail's level cut: where it meets the underside, or at the heel plumb line."""
        h = self.rafter.start
        return self.at(h + self.level_cut_length, self.rafter.top_at(h) - (self.rafter.tail_level_drop or 0.0))

    @property
    def level_cut_length(self) -> float:
        """Level, of the cut under the tail for a soffit or a fascia; 0 where it passes below the tail."""
        rafter = self.rafter
        if rafter.tail_level_drop is None:
            return 0.0
        left = rafter.tail_depth_cut / cos(rafter.angle) - rafter.tail_level_drop
        return max(0.0, min(left / rafter.slope, eave_overhang(rafter)))

    @property
    def heel_top(self) -> Point:
        """Heel plumb line at the top edge."""
        return self.at(0.0, self.rafter.height_above_plate)

    @property
    def line_start(self) -> Point:
        """Where the line length is measured from, on the top edge: the heel plumb line, or the middle of a foot cut."""
        h = self.rafter.foot or 0.0
        return self.at(h, self.rafter.top_at(h))

    @property
    def corner(self) -> Point:
        """Outer end of the seat, on the heel plumb line."""
        return self.at(0.0, 0.0)

    @property
    def heel_low(self) -> Point:
        """Heel plumb line at the bottom edge of the uncut stock."""
        return self.at(0.0, self.rafter.underside_at(0.0))

    @property
    def tail_at_heel(self) -> Point:
        """Heel plumb line at the underside of the tail."""
        return self.at(0.0, self.rafter.tail_underside_at_heel)

    @property
    def seat_inner(self) -> Point:
        """Inner end of the seat, on the bottom edge."""
        return self.at(self.rafter.seat, 0.0)

    @property
    def ridge_top(self) -> Point:
        """Top of the ridge cut, on the centre line of the stick."""
        h = self.rafter.run - self.rafter.ridge_half
        return self.at(h, self.rafter.top_at(h))

    @property
    def ridge_foot(self) -> Point:
        """Foot of the ridge cut, on the centre line of the stick."""
        h = self.rafter.run - self.rafter.ridge_half
        if self.rafter.laid_head:
            h = self.rafter.surface_under
        return self.at(h, self.rafter.underside_at(h))

    @property
    def end_top(self) -> Point:
        """Top of the upper end at its long point."""
        return self.at(self.rafter.end, self.rafter.top_at(self.rafter.end))

    @property
    def end_foot(self) -> Point:
        """Foot of the cut of the upper end at its long point."""
        if self.rafter.square_head:
            return (self.end_top[0], 0.0)
        if self.rafter.laid_head:
            return self.ridge_foot
        return self.at(self.rafter.end, self.rafter.top_at(self.rafter.end) - self.rafter.peak_cut)

    @property
    def upper_cut_deg(self) -> float:
        """The cut of the upper end, off square [deg]."""
        if self.rafter.laid_head:
            return self.rafter.surface_deg
        return 0.0 if self.rafter.square_head else self.rafter.plumb_deg

    @property
    def ripped(self) -> bool:
        """Whether the tail is ripped from the stock."""
        return bool(eave_overhang(self.rafter)) and self.rafter.depth - self.rafter.tail_depth_cut > TOLERANCE.length
