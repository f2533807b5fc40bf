from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString

from takeoff.geometry.outline import Edge, Outline, rectangle, ring

WALL = ("bottom", "end", "top", "end")
HOLE = ("sill", "jack", "header", "jack")
GABLE = ring([(0, 0), (240, 0), (240, 10), (120, 90), (0, 10)], ("bottom", "end", "rake", "rake", "end"))
"""A wall 20 ft long that climbs 8 in 12 from 10 in at its ends to 90 in."""

coordinates = st.integers(0, 64).map(lambda n: n / 4)


def ends(outline: Outline, u: float) -> list[tuple[float, float]]:
    return [(cut.v0, cut.v1) for cut in outline.slices(u)]


def roles(outline: Outline, u: float) -> list[tuple[str, str]]:
    return [(cut.lower.role, cut.upper.role) for cut in outline.slices(u)]


def test_a_slice_of_a_rectangle_runs_from_its_bottom_to_its_top():
    wall = Outline(rectangle(0, 0, 100, 50, WALL))
    assert ends(wall, 30) == [(0, 50)]
    assert roles(wall, 30) == [("bottom", "top")]


def test_a_slice_under_a_rake_reaches_it_there_and_knows_its_slope():
    (left,), (right,) = Outline(GABLE).slices(60), Outline(GABLE).slices(180)
    assert (left.v1, right.v1) == (50, 50)
    assert (left.upper.role, left.upper.slope) == ("rake", pytest.approx(2 / 3))
    assert right.upper.slope == pytest.approx(-2 / 3)


def test_a_line_through_a_corner_counts_the_edge_to_its_right():
    gable = Outline(GABLE)
    assert ends(gable, 0) == [(0, 10)]
    (peak,) = gable.slices(120)
    assert (peak.v1, peak.upper.a) == (90, (240, 10))
    assert ends(gable, 240) == []


@pytest.mark.parametrize("u", [-0.001, 240.0, 500.0])
def test_a_line_that_misses_the_outline_has_no_slice(u):
    assert Outline(GABLE).slices(u) == ()


def test_a_hole_parts_a_slice_and_its_edges_say_what_the_parts_end_on():
    wall = Outline(rectangle(0, 0, 100, 50, WALL), (rectangle(20, 15, 60, 40, HOLE),))
    assert ends(wall, 30) == [(0, 15), (40, 50)]
    assert roles(wall, 30) == [("bottom", "sill"), ("header", "top")]
    assert ends(wall, 19.9) == ends(wall, 60) == [(0, 50)]


def test_a_hole_that_reaches_over_the_ring_leaves_only_what_is_above_it():
    wall = Outline(rectangle(0, 0, 100, 50, WALL), (rectangle(20, -1.5, 60, 40, HOLE),))
    assert ends(wall, 30) == [(40, 50)]
    assert roles(wall, 30) == [("header", "top")]


def test_a_hole_from_bottom_to_top_leaves_nothing():
    assert ends(Outline(rectangle(0, 0, 100, 50, WALL), (rectangle(20, -1, 60, 51, HOLE),)), 30) == []


def test_a_hole_beyond_the_ring_takes_nothing():
    wall = Outline(rectangle(0, 0, 100, 50, WALL), (rectangle(20, 50, 60, 70, HOLE),))
    assert ends(wall, 30) == [(0, 50)]


def test_two_holes_over_each_other_part_a_slice_in_three():
    holes = (rectangle(20, 30, 60, 40, HOLE), rectangle(20, 5, 60, 15, HOLE))
    assert ends(Outline(rectangle(0, 0, 100, 50, WALL), holes), 30) == [(0, 5), (15, 30), (40, 50)]


def test_a_notched_outline_gives_two_slices_lowest_first():
    c_shape = ring([(0, 0), (10, 0), (10, 2), (4, 2), (4, 8), (10, 8), (10, 10), (0, 10)], tuple("abcdefgh"))
    assert ends(Outline(c_shape), 7) == [(0, 2), (8, 10)]
    assert ends(Outline(c_shape), 2) == [(0, 10)]


def test_edges_are_found_by_role_in_ring_and_holes():
    wall = Outline(rectangle(0, 0, 100, 50, WALL), (rectangle(20, 15, 60, 40, HOLE),))
    assert wall.edges_with("sill") == (Edge("sill", (20, 15), (60, 15)),)
    assert len(wall.edges_with("end")) == 2
    assert wall.edges_with("ridge") == ()
    assert wall.bounds == (0, 0, 100, 50)


def test_an_edge_along_v_has_no_slope():
    assert Edge("end", (3, 0), (3, 9)).slope == 0.0


@st.composite
def walls(draw: st.DrawFn) -> Outline:
    """A gable or a flat wall with up to three holes, which may touch, overlap or reach over its ring."""
    length, eave = draw(st.integers(8, 16)), draw(st.integers(2, 12))
    peak = eave + draw(st.integers(0, 6))
    points = [(0, 0), (length, 0), (length, eave), (length / 2, peak), (0, eave)]
    holes = []
    for _ in range(draw(st.integers(0, 3))):
        (u0, u1), (v0, v1) = (sorted(draw(st.tuples(coordinates, coordinates))) for _ in "uv")
        assume(u0 < u1 and v0 < v1)
        holes.append(rectangle(u0, v0 - 1, u1, v1, HOLE))
    return Outline(ring(points, ("bottom", "end", "rake", "rake", "end")), tuple(holes))


@given(walls(), st.integers(0, 160).map(lambda n: n / 10 + 0.03))
def test_slices_are_as_long_as_the_layout_line_inside_the_shape(outline, u):
    inside = outline.polygon.intersection(LineString([(u, -5), (u, 30)]))
    assert sum(cut.v1 - cut.v0 for cut in outline.slices(u)) == pytest.approx(inside.length, abs=1e-9)


@given(walls(), st.integers(0, 160).map(lambda n: n / 10 + 0.03))
def test_slices_go_up_and_do_not_overlap(outline, u):
    vs = [v for cut in outline.slices(u) for v in (cut.v0, cut.v1)]
    assert vs == sorted(vs)


@given(walls())
def test_the_shape_is_the_ring_without_the_holes(outline):
    ring_only = Outline(outline.edges).polygon
    holes = [Outline(hole).polygon for hole in outline.holes]
    assert outline.polygon.difference(ring_only).area == pytest.approx(0, abs=1e-9)
    assert all(outline.polygon.intersection(hole).area == pytest.approx(0, abs=1e-9) for hole in holes)
