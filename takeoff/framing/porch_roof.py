"""A porch as a small building: its rectangle beside the wall, its roof, and beams where a building has walls.

::

        host wall, seen from above
    ----+=========back==========+----   the face of the wall's sheathing
        |                       |
       left                   right
        |                       |
        +---------front---------+       outside of the front beam
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING, Any

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.framing.seat import decided_seat
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.by_name import ByName
from takeoff.plan.floors import Floors
from takeoff.plan.footprint import Footprint, Side
from takeoff.plan.outlines import Outlines
from takeoff.plan.roof import Blocking, Overhangs, Rafters, Ridge, Roof, SideRole, Sloped, Tail, Trim
from takeoff.plan.schema import Building
from takeoff.plan.soffit import Soffit
from takeoff.plan.walls import Walls, WallSettings

if TYPE_CHECKING:
    from takeoff.plan.porches import Porch

Point = tuple[float, float]


class _PorchRoof(Roof):
    """The roof of a porch."""

    open_ceiling: bool = False
    """Its underside shows."""

    @property
    def underside_shows(self) -> bool:
        """Whether the underside of all its sheathing shows."""
        return self.open_ceiling


class _Beams(Walls):
    """What the rafters of a porch stand on."""

    width: float
    """Of the beams [in]."""

    def for_side(self, name: str) -> WallSettings:
        """The wall of a side, with the width of the beam that is there."""
        return replace(super().for_side(name), bearing_in=self.width)


@dataclass(frozen=True, slots=True, kw_only=True)
class PorchHeights:
    """Heights of a porch above the main floor deck [in]."""

    beam: float
    """Top of its beams."""
    wall: float
    """Tops of its rafters at the wall, or at the peak."""


def porch_ground(building: Building, ground: Footprint, porch: Porch, label: str) -> Footprint:
    """The rectangle of a porch, its back at the face of the wall's sheathing."""
    side = ground.side(porch.side)
    back = -_far(ground) if porch.meets == "roof" else wall_face(building, porch)
    left, right = porch.across_in

    def at(along: float, out: float) -> Point:
        (x, y), (dx, dy), (nx, ny) = side.start, side.direction, side.normal
        return (x + dx * along + nx * out, y + dy * along + ny * out)

    points = (at(left, porch.depth), at(right, porch.depth), at(right, back), at(left, back))
    names = (f"{label} front", f"{label} right", f"{label} back", f"{label} left")
    following = (*points[1:], points[0])
    return Footprint(points, tuple(Side(name, a, b) for name, a, b in zip(names, points, following, strict=True)))


def _far(ground: Footprint) -> float:
    """Further in than any slope of the main roof [in]; a porch roof laid on one is cut off where it meets it."""
    return sum(side.length_in for side in ground.sides)


def wall_face(building: Building, porch: Porch) -> float:
    """From the outside of the wall framing to the face of its sheathing, which the porch is fixed to [in]."""
    product = building.walls.for_side(porch.side).sheathing
    return sheet_product(product).thickness_in if product else 0.0


def porch_building(building: Building, ground: Footprint, porch: Porch, label: str) -> Building:
    """A porch as the plan of a small building, what it leaves out taken from the main one."""
    place = porch_ground(building, ground, porch, label)
    rafters = porch_rafters(building, porch)
    walls = _Beams.model_construct(
        **{**_fields(building.walls), "height": porch_heights(building, porch).beam, "by_side": ByName({})},
        width=porch.beam.width_in,
    )
    walls = walls.model_copy(update={"openings": ()})
    return building.model_copy(
        update={
            "outline": place.points,
            "sides": tuple(side.name for side in place.sides),
            "walls": walls,
            "floors": Floors(),
            "outlines": Outlines(),
            "roof": _roof(building.roof, porch, label, rafters),
        }
    )


def porch_rafters(building: Building, porch: Porch) -> Rafters:
    """Its rafters, what is left out being as the main roof's."""
    own, main = porch.rafters, building.roof.rafters
    return Rafters.model_construct(
        size=own.size or main.size, spacing=own.spacing or main.spacing, grade=own.grade or main.grade, seat=own.seat
    )


def porch_heights(building: Building, porch: Porch) -> PorchHeights:
    """Top of the beams and of the roof at the wall: what is written, and what follows from it and the pitch.

    Raises:
        ValueError: both are written, and the pitch leads from one to another place than the other.
    """
    slope, rafters = porch.pitch.slope, porch_rafters(building, porch)
    depth = profile(rafters.size).depth_in
    seat = decided_seat(depth=depth, plate_width=porch.beam.width_in, slope=slope, stated=rafters.seat).length
    run = porch.width / 2 if porch.shape == "gable" else porch.depth - wall_face(building, porch)
    rise = depth * hypot(1, slope) - seat * slope + run * slope
    if porch.beam_height is None:
        wall = porch.roof_height or 0.0
        return PorchHeights(beam=wall - rise, wall=wall)
    wall = porch.beam_height + rise
    if porch.roof_height is not None and abs(porch.roof_height - wall) > TOLERANCE.mark:
        raise ValueError(
            f"beam_height {format_length(porch.beam_height)} and a pitch of {porch.pitch} bring the rafters' tops to "
            f"{format_length(wall)} at the {'peak' if porch.shape == 'gable' else 'wall'}, but roof_height says "
            f"{format_length(porch.roof_height)}; leave one of the two out"
        )
    return PorchHeights(beam=porch.beam_height, wall=wall)


def _roof(main: Roof, porch: Porch, label: str, rafters: Rafters) -> Roof:
    gabled = porch.shape == "gable"
    sides = ("front",) if gabled else ("left", "right")
    edges: dict[str, SideRole] = {f"{label} back": "abutment", **{f"{label} {side}": "gable" for side in sides}}
    eave = main.overhang.eave if porch.overhang.eave is None else porch.overhang.eave
    rake = main.overhang.rake if porch.overhang.rake is None else porch.overhang.rake
    own: dict[str, Any] = {
        "shape": "edges",
        "gables": None,
        "low": None,
        "edges": ByName(edges),
        "pitch": porch.pitch,
        "pitches": ByName({}),
        "keep": "plate_line",
        "rafters": rafters,
        "overhang": Overhangs.model_construct(eave=eave, rake=rake, high=None),
        "tail": _tail(main.tail, rafters),
        "ridge": _ridge(porch),
        "ledger": Sloped.model_construct(size=porch.ledger.size) if porch.ledger else None,
        "hips": None,
        "valleys": None,
        "barge": _trim(main.barge, porch.barge) if rake else None,
        "fascia": _trim(main.fascia, porch.fascia),
        "outlookers": main.outlookers if rake else None,
        "ties": None,
        "collar": None,
        "ceiling": None,
        # Over an open porch no air is led in, and the bays may stay open; over a ceiling they are closed as elsewhere.
        "blocking": Blocking.model_construct(eave="none", size=None) if porch.ceiling == "open" else main.blocking,
        "soffit": Soffit(),
        "upper": None,
        "purlins": None,
        "clips": ByName({}),
        "gablets": ByName({}),
        "skylights": (),
        "dormers": (),
        "porches": (),
    }
    return _PorchRoof.model_construct(**{**_fields(main), **own}, open_ceiling=porch.ceiling == "open")


def _fields(block: Roof | Walls) -> dict[str, Any]:
    return dict(block)


def _ridge(porch: Porch) -> Ridge | None:
    if porch.ridge is None:
        return None
    return Ridge(kind=porch.ridge.kind, size=porch.ridge.size, material=porch.ridge.material)


def _tail(main: Tail, rafters: Rafters) -> Tail:
    """Tails as the main roof's, unless those are deeper than the porch's rafters, or cut level for a soffit."""
    ripped = main.size if main.size and profile(main.size).depth_in < profile(rafters.size).depth_in else None
    return Tail(size=ripped, cut="plumb" if main.cut == "level" else main.cut)


def _trim(main: Trim | None, size: str | None) -> Trim | None:
    if size is None:
        return main
    return Trim.model_construct(size=size, grade=main.grade if main else "trim")
