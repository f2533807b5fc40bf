r"""A gambrel roof: an ordinary gable roof over the purlins, and a lower slope from each wall up to its purlin.

_,-'   upper rafter, seated on the purlin like on a plate
_,-'  |
break ,-' __|
/|  |      purlin: its outer face plumb under the break
/ |  |
/  |__|      lower rafter, cut plumb on the purlin's outer face
/  /
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.framing.roof_lines import RoofSideLine, corner, outer_ring
from takeoff.framing.seat import decided_seat
from takeoff.geometry.outline import Outline, rectangle
from takeoff.measure import format_length
from takeoff.plan.footprint import Side

if TYPE_CHECKING:
    from takeoff.framing.slope import Slope
    from takeoff.plan.gambrel import Upper
    from takeoff.plan.schema import Building


@dataclass(frozen=True, slots=True, kw_only=True)
class Break:
    """Where the lower slope of a side ends."""

    run: float
    """Level, from the outside of the wall framing [in]."""
    height: float
    """Of the tops of the rafters there, above the deck [in]."""


def break_of(line: RoofSideLine, upper: Upper) -> Break:
    """Where the slope that starts on a side breaks.

    Raises:
        ValueError: at the height told it would be outside the wall.
    """
    top = line.plate + line.stand
    run = upper.run if upper.run is not None else ((upper.height or 0.0) - top) / line.slope
    if run <= 0:
        raise ValueError(
            f"the break is {format_length(upper.height or 0.0)} over the deck, not above the rafters' tops over the"
            f" {line.side.name} wall at {format_length(top)}"
        )
    return Break(run=run, height=top + run * line.slope)


def upper_lines(building: Building, lines: tuple[RoofSideLine, ...], upper: Upper) -> tuple[RoofSideLine, ...]:
    """What the sides of the roof over the purlins do: eaves without overhang, the purlins their plates."""
    moved = [replace(line, out=-break_of(line, upper).run if line.is_eave else 0.0) for line in lines]
    corners = [corner(moved[k - 1], line) for k, line in enumerate(moved)]
    ends = [*corners[1:], corners[0]]
    return tuple(
        _upper_line(building, replace(line, side=Side(line.side.name, a, b)), line, upper)
        for line, a, b in zip(lines, corners, ends, strict=True)
    )


def _upper_line(building: Building, moved: RoofSideLine, line: RoofSideLine, upper: Upper) -> RoofSideLine:
    if not line.is_eave:
        return moved
    depth, slope = profile(building.roof.rafters.size).depth_in, upper.pitch.slope
    seat = decided_seat(depth=depth, plate_width=profile(upper.purlin.size).thickness_in, slope=slope)
    stand = depth * hypot(1, slope) - seat.length * slope
    plate = break_of(line, upper).height - stand
    return replace(moved, pitch=upper.pitch, out=0.0, seat=seat, stand=stand, plate=plate)


def lower_outline(lines: tuple[RoofSideLine, ...], index: int, upper: Upper) -> Outline:
    """Of the slope of a side, between its rakes, from the tail cut up to the break."""
    line = lines[index]
    (x, y), (ax, ay) = line.side.start, line.side.direction
    edge = outer_ring(lines)[index]
    u0, u1 = ((px - x) * ax + (py - y) * ay for px, py in (edge.a, edge.b))
    level = hypot(1, line.slope)
    top = break_of(line, upper).run * level
    return Outline(rectangle(u0, -line.out * level, u1, top, ("eave", "rake", "break", "rake")))


def as_upper(slope: Slope) -> Slope:
    """A slope laid out over a purlin: seated there, without a tail."""
    name = f"{slope.side} upper slope"
    edges = tuple(replace(e, role="purlin") if e.role == "eave" else e for e in slope.outline.edges)
    return replace(
        slope,
        name=name,
        bench=replace(slope.bench, face=name),
        outline=Outline(edges),
        common=replace(slope.common, tail_depth=None, tail_level_drop=None, tail_lean=0.0),
        on_purlin=True,
    )
