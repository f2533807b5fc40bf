"""Slopes of a roof told one by one: their outlines in plan, as the plan writes them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import PlainValidator, TypeAdapter

from takeoff.plan.block import Block
from takeoff.plan.fields import Coordinate, Corners, Name, PitchField, WallHeight, listed, refusal

Point = tuple[Coordinate, Coordinate]

MOST_EDGES = 200
"""No outline has more."""


def _read_eave(value: object) -> int | str | tuple[tuple[float, float], ...]:
    """The name of a side, the number of an edge, or the two points of one."""
    if isinstance(value, bool) or not isinstance(value, int | str | list | tuple):
        raise refusal("the name of a side, the number of an edge of `points`, or the two points of one")
    if isinstance(value, str):
        return value.strip()
    if isinstance(value, int):
        if not 1 <= value <= MOST_EDGES:
            raise refusal("the number of an edge of `points`: 1 from the first point to the second")
        return value
    if len(value) != 2 or not all(isinstance(point, list | tuple) and len(point) == 2 for point in value):
        raise refusal("two points [x, y], the ends of the eave")
    return tuple((_POINTS.validate_python(x), _POINTS.validate_python(y)) for x, y in value)


_POINTS: TypeAdapter[float] = TypeAdapter(Coordinate)

Ends = tuple[tuple[float, float], tuple[float, float]]
EaveField = Annotated[
    int | str | Ends, PlainValidator(_read_eave, json_schema_input_type=int | str | tuple[Point, Point])
]
"""Which edge of an outline is an eave."""


class SlopeOutline(Block):
    """One slope of the roof, by its outline in plan."""

    name: Name
    """Name of the slope, for what is said about it; no two have the same."""
    points: Annotated[tuple[Point, ...], Corners]
    """Corners [x, y] in order round the slope, as the building's outline has them. Neighbouring slopes have the same
    two points at the ends of the edge that they share."""
    eave: EaveField
    """The edge that its rafters start on: the name of the side it lies along, the number of the edge (1 from the first
    point to the second), or its two points."""
    pitch: PitchField | None = None
    """Its pitch. Left out: the roof's."""
    plate: WallHeight | None = None
    """Height of the wall under its eave. Left out: as the walls have it."""


Slopes = listed(0, 60, "slopes")


class Outlines(Block):
    """Parts of the building told by outline, in place of being laid out from its walls."""

    slopes: Annotated[tuple[SlopeOutline, ...], Slopes] = ()
    """Slopes of a roof of shape edges; together they cover the roof once. Sides under their eaves are eaves, the others
    gables, but for abutments, which `roof: edges` tells. Left out: laid out from the sides."""
    reach: Literal["plate_line", "eave_line"] = "plate_line"
    """How far the outlines of slopes go: to the outside of the wall framing (plate_line), where the roof's overhang is
    added; or to the tail cuts and the outside of the barges (eave_line), which tells the overhang. Left out:
    plate_line."""
