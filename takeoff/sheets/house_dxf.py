"""A plan's geometry as a drawing that can be read back, and a template drawing to begin with.

Its layers are those that `takeoff.plan.drawing_in` reads. What a drawing can't say (sizes, spacings, products) stays in
the plan.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import atan2, copysign, degrees, hypot
from typing import TYPE_CHECKING, Any

from takeoff.findings import NOWHERE
from takeoff.framing.roof_lines import outer_ring, roof_lines
from takeoff.framing.roof_plan import roof_plan
from takeoff.measure import format_length
from takeoff.plan.drawing_in.settings import NOT_USED, DrawnOutline
from takeoff.plan.footprint import Footprint, Side, footprint

if TYPE_CHECKING:
    from takeoff.plan.openings import Opening
    from takeoff.plan.schema import Building, Plan
    from takeoff.plan.skylights import Skylight

Spot = tuple[float, float]

APART_IN = 40 * 12.0
"""Free space between two buildings in one drawing [in]."""

_INCHES, _ARCHITECTURAL = 1, 4
_LETTERS_IN = 5.0
_NOTES = "NOTES"
_WALL_IN = 5.5
_COLORS = {"WALLS": 7, "OPENINGS": 5, "PARTITIONS": 8, "ROOF": 1, "RIDGE": 2, "HIP": 2, "VALLEY": 2, "SKYLIGHT": 4}

HELP = (
    "Draw full size, in inches. Layers:",
    "WALLS: one closed polyline, the outside of the wall framing. In it, the building's name; at each side, its name.",
    "OPENINGS: a line or rectangle in the wall, as wide as the unit. Near it: 3040, or 3068 door, or",
    "  3040 window head 6'-8\" header 2-2x8 jacks 2.",
    "SKYLIGHT: a rectangle, the rough opening as seen from above. ROOF: the closed line of tail cuts and barges.",
    "RIDGE, HIP, VALLEY: lines, compared with the roof as it is laid out. PARTITIONS: lines.",
    "This layer (NOTES) isn't read. Then: takeoff run house.dxf --settings framing.yaml",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class HousePart:
    """One thing to draw on a layer: a line, closed or not, or words at a point."""

    layer: str
    points: tuple[Spot, ...]
    closed: bool = False
    words: str = ""
    turned_deg: float = 0.0
    """Of the words: their direction, counter-clockwise from level."""


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
    parts.append(HousePart(layer=layers.layer, points=(_point_inside(walls),), words=building.name))
    if building.sides is not None:
        parts += [_side_name(side, layers.layer) for side in walls.sides]
    for opening in building.walls.openings:
        parts += _opening(opening, walls.side(opening.side), layers.openings)
    for skylight in building.roof.skylights:
        pitch = building.roof.pitch_of(skylight.side)
        if skylight.kind == "skylight" and pitch is not None:
            parts.append(_skylight(skylight, walls.side(skylight.side), pitch.slope, layers.skylights))
    return (*parts, *_roof(building, walls, layers))


def _roof(building: Building, walls: Footprint, layers: DrawnOutline) -> list[HousePart]:
    outer = tuple(edge.a for edge in outer_ring(roof_lines(building, walls), run_on=False))
    parts = [HousePart(layer=layers.roof, points=outer, closed=True)]
    for fold in roof_plan(building, walls, lambda _: NOWHERE).folds:
        layer = layers.fold_layers[fold.kind]
        parts.append(HousePart(layer=layer, points=(fold.low[:2], fold.high[:2])))
    return parts


def _point_inside(walls: Footprint) -> Spot:
    from shapely import Point, Polygon

    outline = Polygon(walls.points)
    point = outline.buffer(-4 * _LETTERS_IN).representative_point()  # off the walls, and under a ridge in the middle
    point = outline.representative_point() if point.is_empty else Point(point.x, point.y - 3 * _LETTERS_IN)
    return (round(point.x), round(point.y))


def _side_name(side: Side, layer: str) -> HousePart:
    """Its name outside its middle."""
    spot = _beside(side, side.length_in / 2, -_LETTERS_IN)
    return HousePart(layer=layer, points=(spot,), words=side.name, turned_deg=_along(side))


def _along(side: Side) -> float:
    """Direction of words along a side, never upside down [deg]."""
    turned = degrees(atan2(side.direction[1], side.direction[0]))
    return turned - copysign(180, turned) if abs(turned - 1e-9) > 90 else turned


def _opening(opening: Opening, side: Side, layer: str) -> list[HousePart]:
    middle, half = (opening.left_in + opening.right_in) / 2, opening.size.width / 2
    corners = ((middle - half, 0.0), (middle + half, 0.0), (middle + half, _WALL_IN), (middle - half, _WALL_IN))
    label = _beside(side, middle, _WALL_IN + 2 * _LETTERS_IN)
    return [
        HousePart(layer=layer, points=tuple(_beside(side, *corner) for corner in corners), closed=True),
        HousePart(layer=layer, points=(label,), words=opening_words(opening), turned_deg=_along(side)),
    ]


def opening_words(opening: Opening) -> str:
    """The label of an opening, with all that its drawing can say."""
    size = opening.call
    if not size.isdigit():
        size = f"{_exact(opening.size.width)} x {_exact(opening.size.height)}"
    words = [size, opening.kind]
    if opening.head is not None:
        words.append(f"head {_exact(opening.head)}")
    if opening.header is not None:
        words.append(f"header {opening.header}")
    if opening.jacks is not None:
        words.append(f"jacks {opening.jacks}")
    return " ".join(words)


def _exact(inches: float) -> str:
    return format_length(inches, denominator=64)


def _skylight(skylight: Skylight, side: Side, slope: float, layer: str) -> HousePart:
    (left, right), (low, high) = skylight.across_in, skylight.reach_in(slope, 0.0)
    near, far = low / hypot(1, slope), high / hypot(1, slope)
    corners = ((left, near), (right, near), (right, far), (left, far))
    return HousePart(layer=layer, points=tuple(_beside(side, *corner) for corner in corners), closed=True)


def _beside(side: Side, along: float, inward: float) -> Spot:
    (x, y), (ux, uy), (nx, ny) = side.start, side.direction, side.normal
    return (x + along * ux - inward * nx, y + along * uy - inward * ny)


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
        for layer in sorted({part.layer for part in parts} | DrawnOutline().layers | set(NOT_USED)):
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
        text = space.add_text(
            part.words, height=_LETTERS_IN, rotation=part.turned_deg, dxfattribs={"layer": part.layer}
        )
        middle = TextEntityAlignment.LEFT if part.layer == _NOTES else TextEntityAlignment.MIDDLE_CENTER
        text.set_placement(part.points[0], align=middle)
    elif len(part.points) == 2:
        space.add_line(*part.points, dxfattribs={"layer": part.layer})
    else:
        space.add_lwpolyline(part.points, close=part.closed, dxfattribs={"layer": part.layer})
