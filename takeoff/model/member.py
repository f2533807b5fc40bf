"""A member: one placed stick with all its cuts."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees, hypot
from typing import TYPE_CHECKING

from takeoff.findings import NOWHERE, Place
from takeoff.geometry.vec import Vec

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.catalog.profiles import Profile
    from takeoff.catalog.roles import Role
    from takeoff.geometry.placement import Placement
    from takeoff.geometry.rafter import RafterGeometry


@dataclass(frozen=True, slots=True)
class EndCut:
    """The plane that ends a stick: its outward unit normal in the stick's axes.

    The plane passes through ``through``; where that is None, through the tip of the side outline, on the face of
    the stick that it leaves longest.
    """

    normal: Vec
    through: Vec | None = None

    @property
    def miter_deg(self) -> float:
        """Saw turned off square, the board lying on its wide face [deg]; + where the top edge is the shorter."""
        return degrees(atan2(self.normal[1], abs(self.normal[0]))) + 0.0

    @property
    def bevel_deg(self) -> float:
        """Blade tilted off plumb [deg]; + where the face toward the stick's z axis is the shorter."""
        return degrees(atan2(self.normal[2], hypot(self.normal[0], self.normal[1]))) + 0.0


SQUARE_ENDS = (EndCut((-1.0, 0.0, 0.0)), EndCut((1.0, 0.0, 0.0)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """One placed stick.

    Its axes: x along the stick, y up its depth (0 at the bottom edge), z through its thickness (0 at mid-thickness).
    """

    building: str
    face: str
    role: Role
    profile: Profile
    grade: str
    side: Polygon
    """Outline seen from the side [in]: bird's mouths, ripped tails and pockets are simply in it."""
    placement: Placement
    cuts: tuple[EndCut, EndCut] = SQUARE_ENDS
    """The main cut of each end, left and right."""
    cheeks: tuple[tuple[EndCut, ...], tuple[EndCut, ...]] = ((), ())
    """Further cuts of each end: the second cheek of a double cheek cut."""
    rafter: RafterGeometry | None = None
    """What the outline was made from, for the rafter tables."""
    mark: str = ""
    written: Place = NOWHERE

    @property
    def name(self) -> str:
        """What a finding calls it: the first words of its role, and its mark."""
        return f"{self.role.words.split(',')[0]} {self.mark}".strip()

    @property
    def length_in(self) -> float:
        """Tip to tip along the stick [in]: the long-point length, where the tape is hooked."""
        x0, _, x1, _ = self.side.bounds
        return float(x1 - x0)

    def placed(self, cut: EndCut) -> tuple[Vec, Vec]:
        """Outward normal of one of its cuts, and a point of the cut's plane, in the stick's axes."""
        if cut.through is not None:
            return cut.normal, cut.through
        x, y = (max if cut.normal[0] > 0 else min)(self.side.exterior.coords, key=lambda p: p[0])
        half = self.profile.thickness_in / 2
        longest_face = -half if cut.normal[2] > 0 else half if cut.normal[2] < 0 else 0.0
        return cut.normal, (float(x), float(y), longest_face)

    @property
    def centre_line(self) -> tuple[Vec, Vec]:
        """Ends of the centre line, in the world [in]."""
        x0, _, x1, _ = self.side.bounds
        middle = self.profile.depth_in / 2
        return self.placement.to_world((x0, middle, 0.0)), self.placement.to_world((x1, middle, 0.0))
