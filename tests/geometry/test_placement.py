from __future__ import annotations

from math import cos, dist, hypot, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from takeoff.geometry.placement import Placement
from takeoff.geometry.vec import UP, Vec, add, cross, dot, scale, unit

numbers = st.floats(-500, 500)
points = st.tuples(numbers, numbers, numbers)
angles = st.floats(0, 6.283)


@st.composite
def placements(draw: st.DrawFn) -> Placement:
    """Anywhere, turned about the plumb line, then tilted about the level axis that this gives, then rolled."""
    turn, tilt, roll = draw(angles), draw(angles), draw(angles)
    along: Vec = (cos(turn), sin(turn), 0.0)
    across: Vec = (-sin(turn) * cos(tilt), cos(turn) * cos(tilt), sin(tilt))
    x = add(scale(along, cos(roll)), scale(across, sin(roll)))
    y = add(scale(along, -sin(roll)), scale(across, cos(roll)))
    return Placement(draw(points), x, y)


@given(placements(), points)
def test_to_world_and_back_is_where_it_was(placement, local):
    assert placement.from_world(placement.to_world(local)) == pytest.approx(local, abs=1e-8)


@given(placements(), points)
def test_from_world_and_back_is_where_it_was(placement, world):
    assert placement.to_world(placement.from_world(world)) == pytest.approx(world, abs=1e-8)


@given(placements(), points, points)
def test_distances_stay(placement, a, b):
    assert dist(placement.to_world(a), placement.to_world(b)) == pytest.approx(dist(a, b), abs=1e-8)


@given(placements())
def test_the_axes_are_square_to_each_other_and_right_handed(placement):
    x, y, z = placement.x, placement.y, placement.z
    assert [dot(x, y), dot(y, z), dot(z, x)] == pytest.approx([0, 0, 0], abs=1e-12)
    assert dot(cross(x, y), z) == pytest.approx(1)


@given(placements(), points, points)
def test_a_direction_is_the_same_from_any_point(placement, start, direction):
    ends = placement.to_world(add(start, direction)), placement.to_world(start)
    away = add(ends[0], scale(ends[1], -1.0))
    assert placement.direction_to_world(direction) == pytest.approx(away, abs=1e-8)


def test_a_wall_seen_from_outside_has_its_third_axis_toward_the_viewer():
    # The south side runs east, its faces stand up: what is to its right and above, seen from the south.
    south = Placement((10.0, 20.0, 0.0), (1.0, 0.0, 0.0), UP)
    assert south.z == (0.0, -1.0, 0.0)
    assert south.to_world((3.0, 4.0, 5.0)) == (13.0, 15.0, 4.0)
    assert south.from_world((13.0, 15.0, 4.0)) == (3.0, 4.0, 5.0)


@given(points)
def test_a_unit_keeps_its_direction_and_has_length_1(vector):
    assume(hypot(*vector) > 1e-3)
    one = unit(vector)
    assert hypot(*one) == pytest.approx(1)
    assert scale(one, hypot(*vector)) == pytest.approx(vector, rel=1e-12, abs=1e-12)


@given(points, points)
def test_a_cross_product_is_square_to_both_and_turns_over_with_them(a, b):
    product = cross(a, b)
    assert [dot(product, a), dot(product, b)] == pytest.approx([0, 0], abs=1e-5)  # products of three lengths to 500
    assert cross(b, a) == pytest.approx(scale(product, -1.0))
