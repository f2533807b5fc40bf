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

from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.sheets.drawing import Point


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
        """Where the tail's plumb line meets its underside."""
        h = -self.rafter.overhang
        return self.at(h, self.rafter.top_at(h) - self.rafter.tail_depth_cut * self._plumb_share)

    @property
    def level_cut(self) -> Point:
        """Foot of the tail's plumb cut, where its level cut starts; its underside where it has none."""
        drop = self.rafter.tail_level_drop
        h = -self.rafter.overhang
        return self.tail_foot if drop is None else self.at(h, self.rafter.top_at(h) - drop)

    @property
    def heel_top(self) -> Point:
        """Heel plumb line at the top edge."""
        return self.at(0.0, self.rafter.height_above_plate)

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
        """Top of the ridge cut."""
        h = self.rafter.run - self.rafter.ridge_half
        return self.at(h, self.rafter.top_at(h))

    @property
    def ridge_foot(self) -> Point:
        """Foot of the ridge cut."""
        h = self.rafter.run - self.rafter.ridge_half
        return self.at(h, self.rafter.underside_at(h))

    @property
    def ripped(self) -> bool:
        """Whether the tail is ripped from the stock."""
        return bool(self.rafter.overhang) and self.rafter.depth - self.rafter.tail_depth_cut > TOLERANCE.length

    @property
    def _plumb_share(self) -> float:
        return self.rafter.plumb_depth / self.rafter.depth
