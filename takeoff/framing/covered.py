"""What the sheets of a slope cover, and where their underside shows: known before its rafters are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.geometry.outline import Edge, Outline
from takeoff.geometry.shifted import shifted
from takeoff.model.courses import slope_courses
from takeoff.model.face import Cover, Shown

if TYPE_CHECKING:
    from takeoff.framing.slope import Slope
    from takeoff.plan.roof import Roof
    from takeoff.plan.schema import Building


def covered_edges(roof: Roof, slope: Slope) -> tuple[Edge, ...]:
    """Out over the fascia and the barges, up to the folds or to the slot beside the ridge.

    Where the rafters stand proud of the ridge for air, the sheathing ends with the rafters, at the ridge's face:
    the slot is the ridge's half thickness or the gap, whichever is more.
    """
    fascia = profile(roof.fascia.size).thickness_in if roof.fascia else 0.0
    plumb = fascia / slope.level
    slot = max(slope.halves.ridge, roof.ridge_vent) / slope.level if roof.ridge_vent else 0.0
    out = {"eave": fascia if slope.common.tail_lean else plumb, "high": plumb}
    slotted = shifted(slope.outline.edges, {**out, "ridge": -slot})
    # Beside a ridge shorter than the slot is wide there is no room for one.
    return slotted if _is_simple(slotted) else shifted(slope.outline.edges, out)


def _is_simple(edges: tuple[Edge, ...]) -> bool:
    from shapely import LinearRing

    return bool(LinearRing([edge.a for edge in edges]).is_simple)


def cover(roof: Roof) -> Cover:
    """The sheets of its slopes."""
    return Cover(field=roof.sheathing.field, exposed=roof.sheathing.exposed_product)


def shown(building: Building, slope: Slope) -> Shown:
    """Where the underside of a slope shows; at a boxed eave it does not."""
    left, _, right, _ = slope.outline.bounds
    plate = building.walls.for_side(slope.side).bearing_in
    at_left, at_right = slope.rakes
    boxed = building.roof.soffit.kind == "boxed"
    return Shown(
        eave=Outline(covered_edges(building.roof, slope)).bounds[1] if boxed else 0.0,
        eave_hidden_to=plate / slope.level,
        left=slope.walls[0] if at_left else left,
        right=slope.walls[1] if at_right else right,
        high=slope.high_wall / slope.level if slope.high_wall else None,
        everywhere=building.roof.underside_shows and not slope.open_below,
        high_hidden_from=(slope.common.upper_heel or 0.0) / slope.level,
    )


def sheet_edges(building: Building, slope: Slope) -> tuple[float, ...]:
    """V of the level joints between the courses of a slope's sheets [in]: as chosen, or as in the plain lay-up."""
    if slope.sheet_edges is not None:
        return slope.sheet_edges
    roof = building.roof
    _, low, _, high = Outline(covered_edges(roof, slope)).bounds
    courses = slope_courses(low, high, cover(roof), shown(building, slope))
    return tuple(course.v[0] for course in courses[1:])
