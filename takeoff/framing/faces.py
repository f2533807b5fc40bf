"""Faces for the sheathing: what is covered, what it is nailed to, and where its underside shows."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import dist
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.framing.block_rows import NO_ROWS, Rows, rows_of
from takeoff.framing.covered import cover, covered_edges, shown
from takeoff.framing.floor_lap import lapped
from takeoff.framing.rake_ends import carried
from takeoff.framing.roof_frame import RoofFrame
from takeoff.framing.wall import Wall
from takeoff.framing.walls import stud_centres
from takeoff.geometry.compass import compass
from takeoff.geometry.outline import Edge, Outline, Point, rectangle, ring
from takeoff.geometry.rake_line import LevelTop, RakeLine
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.face import Cover, Face, Supports

if TYPE_CHECKING:
    from takeoff.framing.rafters import RafterRow
    from takeoff.plan.schema import Building


@dataclass(frozen=True, slots=True, kw_only=True)
class WallCover:
    """What a wall is covered with, up to where, and the rows that its sheets are nailed to."""

    sheets: Cover | None
    edges: tuple[Edge, ...]
    rows: Rows


def wall_cover(building: Building, wall: Wall, frame: RoofFrame) -> WallCover:
    """From the bottom of the bottom plate, or of what it stands on, to the top of the cap plate or into the gable."""
    settings = building.walls.for_side(wall.side.name)
    product = settings.sheathing
    length = wall.side.length_in
    foot = -lapped(building, wall.side.name)
    flat = rectangle(0.0, foot, length, wall.height, ("bottom", "end", "top", "end"))
    if frame.plan.line(wall.side.name).role == "abutment" and not building.walls.by_side[wall.side.name].sheathing:
        product = None  # nobody can nail sheets against the wall that stands there, unless the plan says so
    plain = _under_top(wall.top, (0.0, length), foot) if wall.top else flat
    edges = _gable(building, wall, frame, foot) if wall.rake else plain
    longest = max(length for _, length in sheet_product(product).sizes) if product else None
    sheets = Cover(field=product, exposed=product, at_openings=settings.at_openings) if product else None
    return WallCover(sheets=sheets, edges=edges, rows=rows_of(wall, (foot, Outline(edges).bounds[3]), longest))


def wall_face(wall: Wall, cover: WallCover) -> Face:
    """The outside of a wall, openings left out."""
    length = wall.side.length_in
    holes = tuple(rectangle(o.u[0], o.v[0], o.u[1], o.v[1], ("sill", "jamb", "header", "jamb")) for o in wall.openings)
    # The first and last sheets reach the corners of the building, over the end of the wall that is met there.
    half = wall.studs.thickness_in / 2
    return Face(
        kind="wall",
        name=wall.side.name,
        outline=Outline(cover.edges, holes),
        placement=wall.bench.placement,
        supports=Supports(
            centres=tuple(sorted({*stud_centres(wall), *_jambs(wall, cover.sheets), half, length - half})),
            thickness=wall.studs.thickness_in,
            rows=cover.rows.joints,
            from_right=wall.from_right,
        ),
        cover=cover.sheets,
        shown=None,
        written=wall.bench.written,
    )


def _jambs(wall: Wall, sheets: Cover | None) -> Iterator[float]:
    """Centres of the sticks beside the openings, which broken sheets end on."""
    half = wall.studs.thickness_in / 2
    for opening in wall.openings if sheets and sheets.at_openings == "broken" else ():
        yield opening.u[0] - half
        yield opening.u[1] + half


def partition_face(wall: Wall) -> Face:
    """A partition seen from its right-hand side, told by the compass; nothing is ordered to cover it."""
    (left, right), high = wall.extent, wall.height
    flat = rectangle(left, 0.0, right, high, ("bottom", "end", "top", "end"))
    if wall.rake:
        flat = _under_top(wall.rake, (left, right), 0.0)
    face = wall_face(wall, WallCover(sheets=None, edges=flat, rows=NO_ROWS))
    x, y = wall.side.direction
    return replace(face, seen_from=f"the {compass(y, -x)}, its {compass(-x, -y)} end at the left")


def _under_top(line: RakeLine, extent: tuple[float, float], foot: float) -> tuple[Edge, ...]:
    """A wall from the foot of its sheets up to a stepped or raked top."""
    (left, right) = extent
    top = [p for part in line.runs(extent) for p in part]
    top = [p for k, p in enumerate(top) if k == 0 or dist(p, top[k - 1]) > TOLERANCE.length * 10]
    return ring([(left, foot), (right, foot), *reversed(top)], ("bottom", "end", *["top"] * (len(top) - 1), "end"))


def _gable(building: Building, wall: Wall, frame: RoofFrame, foot: float) -> tuple[Edge, ...]:
    """From the foot of the sheets to the top of the end rafters, or the underside of outlookers that cross them."""
    if wall.rake is None:
        raise ValueError(f"{wall.side.name} has no rake")
    outlookers = carried(building.roof)
    size = profile(outlookers.size) if outlookers else None
    under = (size.thickness_in if outlookers.method == "pocket" else size.depth_in) if size and outlookers else 0.0
    length = wall.side.length_in
    corners: list[Point] = []
    level = wall.level_top
    for a, b in wall.rake.runs((0.0, length)):
        if level and a[0] < level.hips[1] and b[0] > level.hips[0]:
            a, b = _beside_hips(a, b, level)
        level_here = level is not None and abs(b[1] - a[1]) < TOLERANCE.length
        lift = level.top - level.bottom if level and level_here else _lift(frame, (b[1] - a[1]) / (b[0] - a[0]), under)
        corners += [(u, v + lift) for u, v in (a, b)]
    top = [c for k, c in enumerate(corners) if k == 0 or dist(c, corners[k - 1]) > TOLERANCE.length * 10]
    return ring([(0.0, foot), (length, foot), *reversed(top)], ("bottom", "end", *["rake"] * (len(top) - 1), "end"))


def _beside_hips(a: Point, b: Point, level: LevelTop) -> tuple[Point, Point]:
    """A part of a clipped rake, ended where the outside of a hip is; the level part starts there."""
    rise = (b[1] - a[1]) / (b[0] - a[0])
    if abs(rise) < TOLERANCE.length:
        return (level.hips[0], a[1]), (level.hips[1], b[1])
    if rise > 0:
        return a, (level.hips[0], a[1] + rise * (level.hips[0] - a[0]))
    return (level.hips[1], b[1] + rise * (level.hips[1] - b[0])), b


def _lift(frame: RoofFrame, slope: float, under: float) -> float:
    """From the underside of rafters of a slope up to so far under their tops, plumb [in]."""
    commons = [each.common for each in frame.plan.slopes]
    common = next((c for c in commons if abs(c.slope - abs(slope)) < TOLERANCE.length), commons[0])
    return common.plumb_depth - under * common.plumb_depth / common.depth


def slope_face(building: Building, frame: RoofFrame, row: RafterRow) -> Face:
    """The top of a slope, as `covered_edges` has it; a dropped end rafter is under the outlookers, not under it."""
    slope = row.slope
    standing = {one.u for one in row.placed if not one.drop}
    return Face(
        kind="slope",
        name=slope.name,
        outline=Outline(covered_edges(building.roof, slope), tuple(opening.hole for opening in slope.openings)),
        placement=slope.bench.placement,
        supports=Supports(
            centres=tuple(sorted({*standing, *_barge_centres(building, row)})),
            thickness=row.profile.thickness_in,
            rows=(),
            from_right=slope.from_right,
        ),
        cover=cover(building.roof),
        shown=shown(building, slope),
        open_below=slope.open_below,
        inside=tuple(mouth.span for mouth in frame.plan.mouths if frame.rows[mouth.main] is row),
        written=slope.bench.written,
    )


def _barge_centres(building: Building, row: RafterRow) -> set[float]:
    roof = building.roof
    if not roof.barge or not roof.overhang.rake:
        return set()
    left, _, right, _ = row.slope.outline.bounds
    half = profile(roof.barge.size).thickness_in / 2
    return {u for u, there in zip((left + half, right - half), row.slope.rakes, strict=True) if there}
