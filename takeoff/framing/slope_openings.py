"""Openings in slopes: where trimmers and headers stand, and which roofs they go in.

trimmers, from eave to ridge
  ||            ||
  ||  |  |  |   ||     cut rafters, upper header to ridge or hip
  ||============||
  ||            ||     the opening: u and v of its edges on the tops of the rafters
  ||============||
  ||  |  |  |   ||     cut rafters, tail to lower header
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.framing.opening_room import refuse_no_room
from takeoff.geometry.outline import Edge, Outline, rectangle, ring

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.findings import Place
    from takeoff.framing.slope import Slope
    from takeoff.plan.schema import Building
    from takeoff.plan.skylights import Skylight

SQUARE_HEADER, PLUMB_HEADER = "square header", "plumb header"
HEADERS = frozenset((SQUARE_HEADER, PLUMB_HEADER))
"""Roles of the edges of a hole that cut rafters end on."""

DORMER_VALLEY = "dormer valley"
"""Role of the edges along the valley rafters of a dormer."""

Span = tuple[float, float]

Makes = Callable[["Slope", "Building", "Callable[[str], Place]"], "tuple[SlopeOpening, ...]"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopeOpening:
    """A rough opening in a slope, and the framing round it. u along the eave, v along the tops of the rafters [in]."""

    what: str
    """As a builder calls it: ``skylight 2'-0" x 4'-0"``."""
    u: Span
    v: Span
    plumb: bool
    """The headers stand plumb, not square to the slope."""
    plies: int
    """Of each header, and trimmers at each side."""
    header: Profile
    trimmer: Profile
    level: float
    """Level run for one inch along the slope."""
    clearance: float
    """Level space kept to a chimney, within the opening [in]."""
    written: Place
    dormer_fall: float | None = None
    """Under a dormer: how much lower its walls have to be for an inch less of opening; None for any other."""
    shoulder: float | None = None
    """Under a dormer on valley rafters: v at which those pass the trimmers. They meet in the middle of its top."""

    @property
    def header_reach(self) -> float:
        """What a header takes up along the slope [in]."""
        return self.plies * self.header.thickness_in / (self.level if self.plumb else 1.0)

    @property
    def cut_v(self) -> Span:
        """Where cut rafters end: the lower face of the lower header and the upper face of the upper one."""
        return self.v[0] - self.header_reach, self.v[1] + self.header_reach

    @property
    def framed_u(self) -> Span:
        """Outsides of the trimmers."""
        width = self.plies * self.trimmer.thickness_in
        return self.u[0] - width, self.u[1] + width

    @property
    def trimmers(self) -> tuple[float, ...]:
        """Centres of the trimmers, left to right."""
        thickness = self.trimmer.thickness_in
        steps = [(ply + 0.5) * thickness for ply in range(self.plies)]
        return (*(self.u[0] - step for step in reversed(steps)), *(self.u[1] + step for step in steps))

    @property
    def hole(self) -> tuple[Edge, ...]:
        """The ring that the sheathing leaves open."""
        if self.shoulder is not None:
            return self._gabled(self.v[0], "header", "valley")
        return rectangle(self.u[0], self.v[0], self.u[1], self.v[1], ("header", "trimmer", "header", "trimmer"))

    @property
    def cut_holes(self) -> tuple[tuple[Edge, ...], ...]:
        """The rings that the rafters between the trimmers leave open, headers included."""
        header = PLUMB_HEADER if self.plumb else SQUARE_HEADER
        (left, right), (low, high) = self.u, self.cut_v
        sides = (header, "trimmer", header, "trimmer")
        if self.shoulder is not None:
            return self._gabled(low, header, DORMER_VALLEY), rectangle(left, self.v[1], right, high, sides)
        return (rectangle(left, low, right, high, sides),)

    def _gabled(self, low: float, below: str, above: str) -> tuple[Edge, ...]:
        """A ring that comes to a point at the opening's upper edge."""
        (left, right), high = self.u, self.v[1]
        shoulder = high if self.shoulder is None else self.shoulder
        points = ((left, low), (right, low), (right, shoulder), ((left + right) / 2, high), (left, shoulder))
        return ring(points, (below, "trimmer", above, above, "trimmer"))


def with_openings(
    slopes: tuple[Slope, ...], building: Building, written: Callable[[str], Place], more: Makes
) -> tuple[Slope, ...]:
    """The slopes with the openings that the plan has in them.

    Args:
        slopes: as laid out.
        building: as the plan has it.
        written: gives the place in the plan of a path.
        more: makes the openings that are no skylights or chimneys.

    Raises:
        PlanError: one of them runs into a hip, a valley, a ridge, a rake or the wall.
    """
    return tuple(_with_openings(slope, building, written, more) for slope in slopes)


def _with_openings(slope: Slope, building: Building, written: Callable[[str], Place], more: Makes) -> Slope:
    openings = (
        *(
            slope_opening(skylight, slope, building, written(f"roof.skylights[{index}]"))
            for index, skylight in enumerate(building.roof.skylights)
            if skylight.side == slope.side and not slope.on_purlin
        ),
        *more(slope, building, written),
    )
    if not openings:
        return slope
    for opening in openings:
        refuse_no_room(opening, slope)
    outline = Outline(
        slope.outline.edges, (*slope.outline.holes, *(hole for opening in openings for hole in opening.cut_holes))
    )
    return replace(slope, outline=outline, openings=openings)


def slope_opening(skylight: Skylight, slope: Slope, building: Building, written: Place) -> SlopeOpening:
    """An opening of the plan in the slope that it is in."""
    trimmer, rise = profile(building.roof.rafters.size), slope.common.slope
    header = profile(skylight.header_size(trimmer.name, rise))
    return SlopeOpening(
        what=skylight.call,
        u=skylight.across_in,
        v=skylight.reach_in(rise, header.depth_in),
        plumb=skylight.plumb,
        plies=skylight.plies,
        header=header,
        trimmer=trimmer,
        level=1 / hypot(1, rise),
        clearance=skylight.clearance_in,
        written=written,
    )
