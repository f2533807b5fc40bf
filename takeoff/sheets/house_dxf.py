"""A plan's geometry as a drawing that can be read back, and a template drawing to begin with.

Its layers are those that `takeoff.plan.drawing_in` reads. What a drawing can't say (sizes, spacings, products) stays in
the plan.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import replace
from math import hypot
from typing import TYPE_CHECKING, Any

from takeoff.findings import NOWHERE
from takeoff.framing.roof_lines import outer_ring
from takeoff.framing.roof_plan import roof_plan
from takeoff.plan.drawing_in.settings import DrawnOutline
from takeoff.plan.footprint import Footprint, Side, footprint
from takeoff.sheets.house_inside import (
    floor_parts,
    girder_parts,
    minor_parts,
    opening_parts,
    partition_parts,
    post_parts,
)
from takeoff.sheets.house_labels import placed
from takeoff.sheets.house_part import LETTERS_IN, HousePart, named_line, named_ring, ring_beside

if TYPE_CHECKING:
    from takeoff.framing.slope import Slope
    from takeoff.plan.schema import Building, Plan
    from takeoff.plan.skylights import Skylight

APART_IN = 40 * 12.0
"""Free space between two buildings in one drawing [in]."""

_INCHES, _ARCHITECTURAL = 1, 4
_NOTES = "NOTES"
_COLORS = {
    "WALLS": 7,
    "OPENINGS": 5,
    "PARTITIONS": 8,
    "ROOF": 1,
    "RIDGE": 2,
    "HIP": 2,
    "VALLEY": 2,
    "SKYLIGHT": 4,
    "FLOOR": 3,
    "LOFT": 6,
    "GIRDER": 3,
    "BEAM": 6,
    "PORCH": 1,
    "DORMER": 1,
}

HELP = (
    "Draw full size, in inches. Layers:",
    "WALLS: one closed polyline, the outside of the wall framing. In it, the building's name; at each side, its name.",
    "OPENINGS: a line or rectangle in the wall, as wide as the unit. Near it: 3040, or 3068 door, or",
    "  3040 window head 6'-8\" header 2-2x8 jacks 2.",
    "SKYLIGHT: a rectangle, the rough opening as seen from above. ROOF: the closed line of tail cuts and barges, or",
    "  each slope's outline, so far out; in it: front eave south pitch 8/12.",
    "RIDGE, HIP, VALLEY: lines, compared with the roof as it is laid out.",
    "PARTITIONS: centre lines; at each: bath studs 2x4. LOFT: a closed outline; in it: loft height 7'-6\" joists 2x8.",
    "FLOOR: the main floor, where it isn't as the walls. PORCH, DORMER: rectangles of those in the plan, with names.",
    "GIRDER, BEAM: centre lines under the main floor, under lofts; at each its size: 3-2x10 joists hang post 4x4.",
    "POST: points under girders, beams, porch fronts. GABLE, WALL FACE: elevations, compared; in each a side's name.",
    "This layer (NOTES) isn't read. Then: takeoff run house.dxf --settings framing.yaml",
)


def plan_dxf(plan: Plan) -> bytes:
    """The outlines, openings, skylights and roof lines of a plan, as DXF in inches."""
    parts: list[HousePart] = []
    beyond: float | None = None
    for building in plan.buildings:
        own = house_parts(building)
        xs = [x for part in own for x, _ in part.points]
        shift = 0.0 if beyond is None or min(xs) > beyond else beyond + APART_IN - min(xs)
        parts += [_shifted(part, shift) for part in own]
        beyond = max(xs) + shift
    return _written(parts)


def template_dxf(plan: Plan) -> bytes:
    """A drawing to begin with: all layers, an example, and what to draw on each."""
    parts = [part for building in plan.buildings for part in house_parts(building)]
    low = min(y for part in parts for _, y in part.points)
    notes = (
        HousePart(layer=_NOTES, points=((0.0, low - 24 - 12 * index),), words=line) for index, line in enumerate(HELP)
    )
    return _written([*parts, *notes])


def house_parts(building: Building) -> tuple[HousePart, ...]:
    """All that a drawing can say of a building."""
    walls, layers = footprint(building), DrawnOutline()
    parts = [HousePart(layer=layers.layer, points=walls.points, closed=True)]
    if building.sides is not None:
        outside = tuple(-LETTERS_IN * times for times in (1, 2, 3, 4, 5))
        parts += [named_line(layers.layer, side, side.name, outside) for side in walls.sides]
    for opening in building.walls.openings:
        parts += opening_parts(opening, walls.side(opening.side), layers.openings)
    for partition in building.walls.partitions:
        parts += partition_parts(partition, layers)
    parts += floor_parts(building, walls, layers)
    parts += girder_parts(building, walls, layers)
    parts += minor_parts(building, walls, layers)
    parts += post_parts(building, walls, layers)
    for skylight in building.roof.skylights:
        pitch = building.roof.pitch_of(skylight.side)
        if pitch is not None:
            parts += _skylight(skylight, walls.side(skylight.side), pitch.slope, layers.skylights)
    parts.append(named_ring(layers.layer, walls.points, building.name))
    return placed((*parts, *_roof(building, walls, layers)))


def _roof(building: Building, walls: Footprint, layers: DrawnOutline) -> list[HousePart]:
    plan = roof_plan(building, walls, lambda _: NOWHERE)
    if building.outlines.slopes:
        parts = [part for slope in plan.slopes for part in _slope(building, slope, layers.roof)]
    else:
        outer = tuple(edge.a for edge in outer_ring(plan.lines, run_on=False))
        parts = [HousePart(layer=layers.roof, points=outer, closed=True)]
    for fold in plan.folds:
        layer = layers.fold_layers[fold.kind]
        parts.append(HousePart(layer=layer, points=(fold.low[:2], fold.high[:2])))
    return parts


def _slope(building: Building, slope: Slope, layer: str) -> list[HousePart]:
    """A slope told by outline: to its tails and barges, with what is told of it."""
    corners = [slope.bench.placement.to_world((*edge.a, 0.0)) for edge in slope.outline.edges]
    points = tuple((x, y) for x, y, _ in corners)
    words = f"{slope.name} eave {slope.side} pitch {building.roof.pitch_of(slope.side)}"
    plate = building.walls.for_side(slope.side).height_in
    if plate != building.walls.height:
        words += f' plate {plate:g}"'
    return [
        HousePart(layer=layer, points=points, closed=True),
        named_ring(layer, points, words),
    ]


def _skylight(skylight: Skylight, side: Side, slope: float, layer: str) -> list[HousePart]:
    """A skylight by its rough opening, a chimney by its own size and named."""
    along_slope = hypot(1, slope)
    low = skylight.up / along_slope if skylight.up is not None else skylight.from_wall or 0.0
    high = low + (skylight.height / along_slope if skylight.height is not None else skylight.depth or 0.0)
    clear = skylight.clearance_in
    left, right = skylight.across_in
    points = ring_beside(side, (left + clear, right - clear), (low, high))
    drawn = [HousePart(layer=layer, points=points, closed=True)]
    if skylight.kind == "chimney":
        drawn.append(named_ring(layer, points, skylight.kind))
    return drawn


def _shifted(part: HousePart, x: float) -> HousePart:
    points = tuple((px + x, py) for px, py in part.points)
    return replace(part, points=points)


def _written(parts: Sequence[HousePart]) -> bytes:
    """The parts as a DXF file; the same parts give the same bytes."""
    from ezdxf import options  # type: ignore[attr-defined]  # exported without being declared so
    from ezdxf.filemanagement import new

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True  # no clock and no random ids in the file
    try:
        document = new("R2010", units=_INCHES)
        document.header["$LUNITS"] = _ARCHITECTURAL
        for layer in sorted({part.layer for part in parts} | DrawnOutline().layers):
            document.layers.add(layer, color=_COLORS.get(layer, 9))
        for part in parts:
            _draw(document.modelspace(), part)
        for name in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(name)  # before the library does, in the order of a set
        text = io.StringIO(newline="\n")
        document.write(text)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return text.getvalue().encode(document.output_encoding)


def _draw(space: Any, part: HousePart) -> None:
    from ezdxf.enums import TextEntityAlignment

    if part.words:
        text = space.add_text(part.words, height=LETTERS_IN, rotation=part.turned_deg, dxfattribs={"layer": part.layer})
        middle = TextEntityAlignment.LEFT if part.layer == _NOTES else TextEntityAlignment.MIDDLE_CENTER
        text.set_placement(part.points[0], align=middle)
    elif len(part.points) == 2:
        space.add_line(*part.points, dxfattribs={"layer": part.layer})
    else:
        space.add_lwpolyline(part.points, close=part.closed, dxfattribs={"layer": part.layer})
