"""A roof slope: the face that rafters are sliced from."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

from takeoff.geometry.outline import Outline, Slice
from takeoff.geometry.rafter import RafterGeometry

if TYPE_CHECKING:
    from takeoff.framing.stick import Bench


@dataclass(frozen=True, slots=True, kw_only=True)
class Slope:
    """One slope of a roof, framed in the plane of its rafters' top edges.

    u runs along the eave, to the right seen from outside; v up the slope, 0 plumb over the outside face of the
    wall framing. The outline reaches from the tail cut to the ridge's centre line and to the outside of the barges.
    """

    name: str
    side: str
    """The side of the building whose wall carries it."""
    bench: Bench
    outline: Outline
    """Edges with the roles ``eave``, ``rake``, ``ridge``."""
    common: RafterGeometry
    """The cuts a rafter has that runs from the eave to the ridge."""
    walls: tuple[float, float]
    """Outside faces of the end walls, [in] along u."""
    from_right: bool
    """Layout starts at the right end, so that the rafters of two slopes stand opposite each other."""

    @property
    def level(self) -> float:
        """Level run for one inch along the slope."""
        return 1 / hypot(1, self.common.slope)

    def geometry_at(self, cut: Slice) -> RafterGeometry:
        """Cuts of the rafter on one slice: its run and overhang follow from the edges it ends on."""
        return replace(self.common, run=cut.v1 * self.level, overhang=-cut.v0 * self.level)
