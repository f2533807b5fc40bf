from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import GeometryCollection, LineString, MultiPolygon, Point, Polygon, box

from takeoff.geometry.polygon import cleaned, corners

STICK = [(0.0, 0.0), (10.0, 0.0), (12.0, 3.0), (12.0, 5.0), (1.0, 5.0), (-1.0, 2.0)]
"""Six corners, none on a straight line, the lowest left one first."""


def test_a_clean_shape_stays_as_it_is():
    (tidy,) = cleaned(Polygon(STICK))
    assert corners(tidy) == tuple(STICK)


@given(st.integers(0, 5), st.booleans())
def test_corners_do_not_depend_on_where_the_ring_starts_or_which_way_it_runs(start, backwards):
    turned = STICK[start:] + STICK[:start]
    (tidy,) = cleaned(Polygon(turned[::-1] if backwards else turned))
    assert corners(tidy) == tuple(STICK)


@given(st.lists(st.floats(0.1, 9.9), min_size=1, max_size=4, unique=True))
def test_corners_on_a_straight_line_go(between):
    (tidy,) = cleaned(Polygon([(0, 0), *((x, 0) for x in sorted(between)), (10, 0), (10, 4), (0, 4)]))
    assert corners(tidy) == ((0, 0), (10, 0), (10, 4), (0, 4))


def test_doubled_corners_and_float_noise_go():
    (tidy,) = cleaned(Polygon([(0, 0), (10, 0), (10, 1e-11), (10, 4), (5, 4 + 1e-10), (0, 4), (0, 4)]))
    assert corners(tidy) == ((0, 0), (10, 0), (10, 4), (0, 4))


@given(st.permutations([box(0, 0, 2, 2), box(5, 0, 6, 1), box(0, 8, 3, 9)]))
def test_parts_come_in_one_order_whatever_order_they_were_in(parts):
    tidy = cleaned(MultiPolygon(parts))
    assert tidy == cleaned(MultiPolygon([box(0, 0, 2, 2), box(5, 0, 6, 1), box(0, 8, 3, 9)]))
    assert sum(part.area for part in tidy) == pytest.approx(8)


def test_slivers_lines_and_points_go():
    sliver = box(20, 0, 20 + 1e-8, 10)
    mixed = GeometryCollection([box(0, 0, 2, 2), sliver, LineString([(5, 5), (9, 9)]), Point(30, 30)])
    assert [part.area for part in cleaned(mixed)] == [4.0]


def test_nothing_gives_nothing():
    assert cleaned(Polygon()) == ()


def test_what_a_difference_leaves_along_a_shared_edge_goes():
    # The second box misses the first one's edge by float noise only.
    left = box(0, 0, 10, 4).difference(box(3 * 0.1, -1, 10 - 1e-12, 5))
    (tidy,) = cleaned(left)
    assert tidy.bounds == pytest.approx((0, 0, 0.3, 4), abs=1e-9)
