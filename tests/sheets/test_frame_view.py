"""The view of a frame: what is in front hides what is behind, and nothing is lost."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from takeoff.checks.audit import solid
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.drawing import Polyline
from takeoff.sheets.frame_corner import best_corner
from takeoff.sheets.frame_view import frame_view, looking


@pytest.mark.parametrize("job", ["hip_takeoff", "cabin_takeoff"])
def test_at_every_spot_the_nearest_stick_is_drawn_last(job: str, request: pytest.FixtureRequest) -> None:
    """Nearest by the triangles of the sticks' solids, which manifold3d builds with all their cuts."""
    takeoff: Takeoff = request.getfixturevalue(job)
    (building,) = takeoff.buildings
    drawing = frame_view(building, name="frame")
    assert drawing is not None
    sides = [item for item in drawing.views[0].items if isinstance(item, Polyline)]
    shapes = np.array([shapely.Polygon(side.points) for side in sides])
    x0, y0, x1, y1 = shapely.total_bounds(shapes)
    spots = np.random.default_rng(7).uniform((x0, y0), (x1, y1), (400, 2))

    onto = looking(best_corner(building))
    depths: dict[str, np.ndarray] = {"": np.full(len(spots), -1e6)}
    for member in building.members:
        mesh = solid(member).body.to_mesh()
        seen = np.array([onto.from_world(tuple(map(float, v[:3]))) for v in mesh.vert_properties])
        near = np.fmax.reduce([depth_at(triangle, spots) for triangle in seen[mesh.tri_verts]])
        depths[member.mark] = np.fmax(depths.get(member.mark, -np.inf), near)
    marks = list(depths)
    table = np.nan_to_num(np.array([depths[mark] for mark in marks]), nan=-np.inf)
    order = np.argsort(-table, axis=0)

    for k, spot in enumerate(spots):
        first, second = order[:2, k]
        if table[first, k] - table[second, k] > 1 / 32:  # two that touch are alike near
            over = [side.mark for side, shape in zip(sides, shapes, strict=True) if shapely.contains_xy(shape, *spot)]
            assert (over[-1] if over else "") == marks[first], spot


def depth_at(triangle: np.ndarray, spots: np.ndarray) -> np.ndarray:
    """How near a triangle is at each spot, by barycentric coordinates; nan beside it."""
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = triangle
    area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay)
    if abs(area) < 1e-9:
        return np.full(len(spots), np.nan)
    x, y = spots.T
    b = ((x - ax) * (cy - ay) - (cx - ax) * (y - ay)) / area
    c = ((bx - ax) * (y - ay) - (x - ax) * (by - ay)) / area
    inside = (b >= 0) & (c >= 0) & (b + c <= 1)
    return np.where(inside, az + b * (bz - az) + c * (cz - az), np.nan)


def test_every_stick_is_drawn(cabin_takeoff: Takeoff) -> None:
    (building,) = cabin_takeoff.buildings
    drawing = frame_view(building, name="frame")
    assert drawing is not None
    drawn = {item.mark for item in drawing.views[0].items if isinstance(item, Polyline)}
    assert drawn == {member.mark for member in building.members}
