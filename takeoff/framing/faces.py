"""Faces for the sheathing: what is covered, what it is nailed to, and where its underside shows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.framing.gable_end import RidgePost, block_rows
from takeoff.framing.ridge import Ridge
from takeoff.framing.wall import Wall
from takeoff.framing.walls import stud_centres
from takeoff.geometry.outline import Edge, Outline, rectangle, ring
from takeoff.model.face import Cover, Face, Shown, Supports

if TYPE_CHECKING:
    from takeoff.framing.rafters import RafterRow
    from takeoff.plan.schema import Building


def wall_face(building: Building, wall: Wall, post: RidgePost | None, ridge: Ridge) -> Face:
    """The outside of a wall: from the bottom of the bottom plate to the top of the cap plate, or up into the gable."""
    product = building.walls.for_side(wall.side.name).sheathing
    length = wall.side.length_in
    holes = tuple(rectangle(o.u[0], o.v[0], o.u[1], o.v[1], ("sill", "jamb", "header", "jamb")) for o in wall.openings)
    flat = rectangle(0.0, 0.0, length, wall.height, ("bottom", "end", "top", "end"))
    # End rafters stand flush with the outside of the end walls: their wall's first and last sheets reach the corner.
    half = wall.studs.thickness_in / 2
    edges = (half, length - half)
    return Face(
        kind="wall",
        name=wall.side.name,
        outline=Outline(_gable(building, wall, ridge) if wall.rake else flat, holes),
        placement=wall.bench.placement,
        supports=Supports(
            centres=tuple(sorted({*stud_centres(wall, post), *edges})),
            thickness=wall.studs.thickness_in,
            rows=block_rows(wall),
            from_right=wall.from_right,
        ),
        cover=Cover(field=product, exposed=product) if product else None,
        shown=None,
        written=wall.bench.written,
    )


def _gable(building: Building, wall: Wall, ridge: Ridge) -> tuple[Edge, ...]:
    """Up to the top of the end rafters, or to the underside of the outlookers that cross them."""
    common = ridge.slope.common
    outlookers = building.roof.outlookers if building.roof.overhang.rake else None
    under = profile(outlookers.size).thickness_in / ridge.slope.level if outlookers else 0.0
    foot = wall.height + common.height_above_plate - under
    length, peak = wall.side.length_in, foot + common.rise
    points = [(0.0, 0.0), (length, 0.0), (length, foot), (length / 2, peak), (0.0, foot)]
    return ring(points, ("bottom", "end", "rake", "rake", "end"))


def slope_face(building: Building, row: RafterRow, ridge: Ridge) -> Face:
    """The top of a slope: out over the fascia and the barges, up to the ridge or to the slot beside it.

    Where the rafters stand proud of the ridge for air, the sheathing ends with the rafters, at the ridge's face:
    the slot is the ridge's half thickness or the gap, whichever is more.
    """
    roof, slope = building.roof, row.slope
    left, low, right, high = slope.outline.bounds
    over_fascia = profile(roof.fascia.size).thickness_in / slope.level if roof.fascia else 0.0
    slot = max(ridge.profile.thickness_in / 2, ridge.vent) / slope.level if ridge.vent else 0.0
    half_barge = profile(roof.barge.size).thickness_in / 2 if roof.barge else 0.0
    barge_centres = {left + half_barge, right - half_barge} if roof.barge and roof.overhang.rake else set()
    plate = profile(building.walls.for_side(slope.side).studs).depth_in
    return Face(
        kind="slope",
        name=slope.name,
        outline=Outline(rectangle(left, low - over_fascia, right, high - slot, ("eave", "rake", "ridge", "rake"))),
        placement=slope.bench.placement,
        supports=Supports(
            centres=tuple(sorted({*row.centres, *barge_centres})),
            thickness=row.profile.thickness_in,
            rows=(),
            from_right=slope.from_right,
        ),
        cover=Cover(field=roof.sheathing.field, exposed=roof.sheathing.exposed_product),
        shown=Shown(eave=0.0, eave_hidden_to=plate / slope.level, left=slope.walls[0], right=slope.walls[1]),
        written=slope.bench.written,
    )
