"""Laws of sheathing: each face covered exactly once, with sheets that are on sale, joined where there is wood."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import pytest
from measured import framed, site, world_box, world_corners
from shapely import MultiPoint, Point, Polygon, get_parts, line_merge, prepare, union_all
from shapely.geometry.base import BaseGeometry
from strategies import for_any_building

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.geometry.vec import Vec, dot
from takeoff.model.building import FramedBuilding
from takeoff.model.face import Face
from takeoff.model.member import Member
from takeoff.model.panel import Panel
from takeoff.plan.schema import Building
from takeoff.sheathing.sheathe import sheathe

NEAR = 1e-5
HALF_BLOCK_IN = 0.75
"""Half the height of a block that lies flat [in]."""
BEHIND_IN = 0.25
"""How deep in the wood a nail through a joint is looked for [in]."""


def sheathed(building: Building) -> Iterator[tuple[Face, tuple[Panel, ...]]]:
    """Each covered face with its panels."""
    yield from panels_by_face(sheathe(framed(building)))


def panels_by_face(frame: FramedBuilding) -> Iterator[tuple[Face, tuple[Panel, ...]]]:
    for face in frame.faces:
        panels = tuple(p for p in frame.panels if p.face == face.name)
        if face.cover is not None:
            yield face, panels


@for_any_building
def test_panels_cover_the_outline_exactly_once(building: Building) -> None:
    for face, panels in sheathed(building):
        outline, union = face.outline.polygon, union_all([p.polygon for p in panels])
        assert union.symmetric_difference(outline).area < NEAR * outline.length
        assert sum(p.polygon.area for p in panels) == pytest.approx(outline.area, rel=1e-9)


@for_any_building
def test_slopes_are_covered_from_the_fascia_to_the_ridge_and_to_the_outside_of_the_barges(building: Building) -> None:
    at, over = site(building), building.roof.overhang
    for face, panels in sheathed(building):
        if face.kind != "slope":
            continue
        seen = [at.measured(corner) for p in panels for corner in in_world(face, p.polygon)]
        reach = min(a for a, _, _ in seen), max(a for a, _, _ in seen)
        assert reach == (pytest.approx(-over.rake, abs=NEAR), pytest.approx(at.length + over.rake, abs=NEAR))
        out = [abs(c) for _, c, _ in seen]
        fascia = 0.0 if building.roof.fascia is None else thickness(building.roof.fascia.size)
        slot = max(building.roof.ridge.vent, thickness(building.roof.ridge.size) / 2) if building.roof.ridge.vent else 0
        assert max(out) == pytest.approx(at.span / 2 + over.eave + fascia, abs=NEAR)
        assert min(out) == pytest.approx(slot, abs=NEAR)


def thickness(size: str) -> float:
    return profile(size).thickness_in


def in_world(face: Face, polygon: Polygon) -> list[Vec]:
    """Corners of a polygon of the face, in the world."""
    return [face.placement.to_world((float(u), float(v), 0.0)) for u, v in polygon.exterior.coords[:-1]]


@for_any_building
def test_no_panel_is_larger_than_a_sheet_of_its_product(building: Building) -> None:
    for _, panels in sheathed(building):
        for panel in panels:
            sizes = sheet_product(panel.product).sizes
            fits = any(panel.width_in <= width + NEAR and panel.length_in <= length + NEAR for width, length in sizes)
            assert fits, f"{panel.length_in} x {panel.width_in} of {panel.product} on {panel.face}"


@for_any_building
def test_the_strength_axis_runs_across_the_rafters_and_up_the_walls(building: Building) -> None:
    frame = sheathe(framed(building))
    for face, panels in panels_by_face(frame):
        for panel in panels:
            axis = face.placement.x if panel.strength_axis == "u" else face.placement.y
            if face.kind == "wall":
                assert axis == (0.0, 0.0, 1.0)
            else:
                rafters = [m for m in frame.members if m.face == face.name and m.rafter is not None]
                assert all(abs(dot(axis, m.placement.x)) < NEAR for m in rafters)


@for_any_building
def test_end_joints_on_a_slope_are_on_the_middle_of_a_rafter(building: Building) -> None:
    frame = sheathe(framed(building))
    for face, panels in panels_by_face(frame):
        if face.kind == "slope":
            rafters = [m for m in frame.members if m.rafter is not None and m.face.startswith(face.name)]
            middles = [face.placement.from_world(m.placement.origin)[0] for m in rafters]
            for u, _ in upright_joints(panels):
                # No rafter stands further apart than a sheet is long, so there is one in reach of every joint.
                assert min(abs(u - middle) for middle in middles) < NEAR, f"a joint of {face.name} at {u}"


@for_any_building
def test_upright_joints_on_a_wall_have_wood_behind_both_edges(building: Building) -> None:
    frame = sheathe(framed(building))
    for face, panels in panels_by_face(frame):
        if face.kind == "wall":
            behind = sticks_behind(frame, face)
            for u, v in upright_joints(panels):
                assert nailed(behind, u - 0.375, sum(v) / 2), f"left of the joint of {face.name} at {u}, {v}"
                assert nailed(behind, u + 0.375, sum(v) / 2), f"right of the joint of {face.name} at {u}, {v}"


@for_any_building
def test_level_joints_on_a_wall_have_wood_behind_both_edges(building: Building) -> None:
    frame = sheathe(framed(building))
    for face, panels in panels_by_face(frame):
        if face.kind == "wall":
            behind = sticks_behind(frame, face)
            for u, v in level_joints(panels):
                middle = sum(u) / 2
                if beyond_the_last_upright(frame, face, middle, v):
                    continue  # its tip is nailed to the end rafter: a block needs an upright at both its ends
                assert nailed(behind, middle, v - 0.375), f"under the joint of {face.name} at {v}, {u}"
                assert nailed(behind, middle, v + 0.375), f"over the joint of {face.name} at {v}, {u}"


def beyond_the_last_upright(frame: FramedBuilding, face: Face, u: float, v: float) -> bool:
    """Whether at one side no upright passes a level joint: all that stand there end lower, under the rake."""
    passing = [
        (min(p[0] for p in local), max(p[0] for p in local))
        for member in frame.members
        if abs(dot(member.placement.x, face.placement.y)) > 1 - NEAR
        for local in [[face.placement.from_world(corner) for corner in world_corners(member)]]
        if min(p[2] for p in local) < -BEHIND_IN < max(p[2] for p in local)
        and min(p[1] for p in local) <= v - HALF_BLOCK_IN + NEAR
        and max(p[1] for p in local) >= v + HALF_BLOCK_IN - NEAR
    ]
    return not (any(left <= u for left, _ in passing) and any(right >= u for _, right in passing))


Stretch = tuple[float, float]


def upright_joints(panels: tuple[Panel, ...]) -> Iterator[tuple[float, Stretch]]:
    """Where two panels of a face meet side by side: u of the joint, and from where to where it runs."""
    for (u0, v0), (u1, v1) in shared_edges(panels):
        if abs(u0 - u1) < NEAR:
            yield u0, (v0, v1)


def level_joints(panels: tuple[Panel, ...]) -> Iterator[tuple[Stretch, float]]:
    """Where two panels of a face meet one over the other: from where to where the joint runs, and its v."""
    for (u0, v0), (u1, v1) in shared_edges(panels):
        if abs(v0 - v1) < NEAR:
            yield (u0, u1), v0


def shared_edges(panels: tuple[Panel, ...]) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    for a, b in combinations(panels, 2):
        x0, y0, x1, y1 = a.polygon.bounds
        s0, t0, s1, t1 = b.polygon.bounds
        if min(x1, s1) - max(x0, s0) < -NEAR or min(y1, t1) - max(y0, t0) < -NEAR:
            continue
        for part in get_parts(line_merge(a.polygon.boundary.intersection(b.polygon.boundary))):
            if part.length > 1:
                u0, v0, u1, v1 = part.bounds
                yield (u0, v0), (u1, v1)


def sticks_behind(frame: FramedBuilding, face: Face) -> BaseGeometry:
    """What stands a quarter of an inch behind a wall's outside, cut through parallel to it [in u and v]."""
    shapes = [cut_through(member, face) for member in frame.members]
    behind = union_all([shape.buffer(NEAR) for shape in shapes if shape is not None])
    prepare(behind)
    return behind


def cut_through(member: Member, face: Face) -> BaseGeometry | None:
    local = [face.placement.from_world(corner) for corner in world_corners(member)]
    if not min(p[2] for p in local) < -BEHIND_IN < max(p[2] for p in local):
        return None
    return MultiPoint([p[:2] for p in local]).convex_hull


def nailed(behind: BaseGeometry, u: float, v: float) -> bool:
    return behind.covers(Point(u, v))


@for_any_building
def test_the_exposed_grade_covers_everything_that_shows_from_below(building: Building) -> None:
    walls = site(building).outline.buffer(NEAR, join_style="mitre")
    for face, panels in sheathed(building):
        for panel in panels:
            if face.kind == "slope" and panel.product != building.roof.sheathing.exposed_product:
                seen = Polygon([corner[:2] for corner in in_world(face, panel.polygon)])
                assert walls.covers(seen), f"{panel.product} shows outside the walls under {face.name}"
            if face.kind == "wall":
                assert panel.product == face.cover.field  # type: ignore[union-attr]


@for_any_building
def test_wall_sheets_reach_from_the_bottom_plate_to_the_cap_plate_or_up_the_rake(building: Building) -> None:
    frame = sheathe(framed(building))
    for face, panels in panels_by_face(frame):
        if face.kind == "wall":
            low, high = min(p.polygon.bounds[1] for p in panels), max(p.polygon.bounds[3] for p in panels)
            assert low == pytest.approx(0.0, abs=NEAR)
            if face.name not in building.roof.gables:
                assert high == pytest.approx(building.walls.height, abs=NEAR)
            else:
                rafters = [m for m in frame.members if m.role.name == "end-rafter"]
                peak = max(world_box(m)[1][2] for m in rafters)
                assert (
                    building.walls.height
                    < high
                    <= peak + thickness(building.roof.ridge.size) * building.roof.pitch.slope
                )
