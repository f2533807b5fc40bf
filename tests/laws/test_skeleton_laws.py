"""Laws of roofs over outlines: what holds whatever the outline, the slopes and the walls."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from itertools import combinations, pairwise
from math import dist, hypot, pi

import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st
from roof_outlines import PITCHES, convex_roofs, edges, moved, outlines, rectangle, roofs, tee
from shapely import LineString, Point, Polygon, get_parts, union_all

from takeoff.geometry.roof_edge import RoofEdge, RoofError
from takeoff.geometry.skeleton import RoofSide, RoofSlope, roof_slopes

Place = tuple[float, float]

MANY = settings(max_examples=150, deadline=None)
FEW = settings(max_examples=15, deadline=None)

one_pitch = roofs()
any_pitches = roofs(st.sampled_from(PITCHES))
with_walls = roofs(st.sampled_from([*PITCHES, None]))


def inward(edge: RoofEdge) -> Place:
    length = dist(edge.a, edge.b)
    return ((edge.a[1] - edge.b[1]) / length, (edge.b[0] - edge.a[0]) / length)


def height(edge: RoofEdge, place: Sequence[float]) -> float:
    """Of the slope that starts on the edge: its distance from the edge's line times its rise over run."""
    x, y = inward(edge)
    return edge.slope * ((place[0] - edge.a[0]) * x + (place[1] - edge.a[1]) * y)


def face(slope: RoofSlope) -> Polygon:
    return Polygon([place for place, _ in slope.ring])


def beside(side: RoofSide, step: float) -> Place:
    """A point in the slope, just off the middle of its side."""
    (ax, ay, _), (bx, by, _) = side.start, side.end
    length = hypot(bx - ax, by - ay)
    return ((ax + bx) / 2 - step * (by - ay) / length, (ay + by) / 2 + step * (bx - ax) / length)


def outline_of(ring: list[RoofEdge]) -> Polygon:
    return Polygon([edge.a for edge in ring])


def slopes_over(ring: list[RoofEdge]) -> tuple[RoofSlope, ...]:
    """The roof; an example whose walls leave space that no slope reaches has none, and does not count."""
    try:
        return roof_slopes(ring)
    except RoofError as error:
        if not str(error).startswith(("no slope reaches", "no edge carries")):
            raise
    return reject()


@MANY
@given(with_walls | any_pitches)
def test_slopes_cover_the_outline_exactly_once(ring):
    whole = outline_of(ring)
    slack = 2e-4 * whole.length  # corners within 1e-4 are one
    faces = [face(slope) for slope in slopes_over(ring)]
    assert all(one.is_valid for one in faces)
    assert sum(one.area for one in faces) == pytest.approx(whole.area, abs=slack)
    assert union_all(faces, grid_size=1e-6).symmetric_difference(whole).area < slack
    assert all(one.intersection(other).area < slack for one, other in combinations(faces, 2))


@MANY
@given(with_walls | any_pitches)
def test_every_corner_lies_in_the_plane_of_its_slope_and_no_eave_is_off_its_edge(ring):
    for slope in slopes_over(ring):
        for place, up in slope.ring:
            assert up == pytest.approx(height(ring[slope.edge], place), abs=1e-3)
        eaves = [side for side in slope.sides if side.kind == "eave" and side.start[2] == 0]
        assert sorted(side.across for side in eaves) == list(slope.edges)
        assert all(side.start[:2] == ring[side.across].a for side in eaves)


@MANY
@given(with_walls | any_pitches)
def test_every_fold_is_seen_alike_from_both_its_slopes(ring):
    seen = defaultdict(list)
    for slope in slopes_over(ring):
        for side in slope.sides:
            if side.kind in ("ridge", "hip", "valley"):
                key = (side.kind, *sorted((slope.edge, side.across)))
                ends = sorted((side.start, side.end))
                seen[key].append((slope.edge < side.across, LineString([end[:2] for end in ends])))
    for folds in seen.values():
        mine = union_all([line for first, line in folds if first])
        other = union_all([line for first, line in folds if not first])
        assert mine.hausdorff_distance(other) < 2e-3  # sides under 1e-3 are left out


@MANY
@given(with_walls | any_pitches)
def test_water_leaves_a_hip_or_ridge_and_gathers_in_a_valley(ring):
    for slope in slopes_over(ring):
        for side in slope.sides:
            if side.kind not in ("ridge", "hip", "valley") or dist(side.start, side.end) < 0.1:
                continue
            place = beside(side, 0.01)
            lower = height(ring[slope.edge], place) - height(ring[side.across], place)
            assert lower * (1 if side.kind == "valley" else -1) > 0


@MANY
@given(convex_roofs())
def test_over_a_convex_outline_the_roof_is_the_lowest_of_its_planes(ring):
    planes = [edge for edge in ring if edge.slope is not None]
    for slope in roof_slopes(ring):
        shape = face(slope)
        near_sides = [place for place in (beside(side, 0.01) for side in slope.sides) if shape.covers(Point(place))]
        middle = shape.representative_point().coords[0]
        for place in (middle, *near_sides, *[corner for corner, _ in slope.ring]):
            least = min(height(plane, place) for plane in planes)
            assert height(ring[slope.edge], place) == pytest.approx(least, abs=1e-5)


def level_outline_by_steps(whole: Polygon, run: float, steps: int) -> float:
    """Area left of an outline set in by ``run`` in small mitred steps, as another library does it."""
    for _ in range(steps):
        whole = whole.buffer(-run / steps, join_style="mitre", mitre_limit=1e4)
    return whole.area


def area_over(slopes: Sequence[RoofSlope], ring: list[RoofEdge], level: float) -> float:
    """Plan area of the roof higher than a level."""
    total = 0.0
    for slope in slopes:
        edge = ring[slope.edge]
        (x, y), far = inward(edge), 1e4
        run = level / edge.slope
        left = (edge.a[0] + run * x - far * y, edge.a[1] + run * y + far * x)
        right = (edge.a[0] + run * x + far * y, edge.a[1] + run * y - far * x)
        upper = Polygon([right, (right[0] + far * x, right[1] + far * y), (left[0] + far * x, left[1] + far * y), left])
        total += face(slope).intersection(upper).area
    return total


@FEW
@given(one_pitch, st.floats(0.1, 0.9))
def test_with_one_pitch_level_outlines_are_the_outline_set_in(ring, share):
    slopes = roof_slopes(ring)
    top = max(up for slope in slopes for _, up in slope.ring)
    whole = outline_of(ring)
    by_steps = level_outline_by_steps(whole, share * top / ring[0].slope, 150)
    # a step that an event falls into is off by about its own strip
    assert area_over(slopes, ring, share * top) == pytest.approx(by_steps, abs=whole.area / 100)


@MANY
@given(outlines, st.floats(0, 2 * pi), st.floats(-2000, 2000), st.floats(0.5, 5), st.integers(0, 11))
def test_with_one_pitch_turning_moving_scaling_and_renumbering_change_nothing(points, turn, shift, scale, first):
    first %= len(points)
    changed = moved([*points[first:], *points[:first]], turn, (shift, -shift), scale)
    was = {edge: slope for slope in roof_slopes(edges(points, 0.5)) for edge in slope.edges}
    for slope in roof_slopes(edges(changed, 0.5)):
        before = was[(slope.edge + first) % len(points)]
        assert sorted((edge + first) % len(points) for edge in slope.edges) == list(before.edges)
        assert slope.area == pytest.approx(before.area * scale**2, rel=1e-6, abs=1e-3)
        assert max(up for _, up in slope.ring) == pytest.approx(max(up for _, up in before.ring) * scale, abs=1e-3)


@MANY
@given(one_pitch)
def test_with_one_pitch_a_line_square_to_the_eave_crosses_a_slope_once(ring):
    for slope in roof_slopes(ring):
        (x, y), shape = inward(ring[slope.edge]), face(slope)
        middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for (a, _), (b, _) in pairwise(slope.ring)]
        for px, py in middles:
            line = LineString([(px - 3000 * x, py - 3000 * y), (px + 3000 * x, py + 3000 * y)])
            parts = [part for part in get_parts(line.intersection(shape)) if part.length > 1e-6]
            assert all(one.distance(other) < 1e-6 for one, other in combinations(parts, 2))


@pytest.mark.parametrize("points", [rectangle(480, 240), tee(wing=120), tee(wing=300)])
def test_the_same_outline_gives_the_same_slopes_to_the_last_bit(points):
    assert roof_slopes(edges(points, 0.5)) == roof_slopes(edges(points, 0.5))
