from __future__ import annotations

from math import inf, nan

import pytest
from roof_outlines import edges, rectangle

from takeoff.geometry.roof_edge import RoofEdge, RoofError
from takeoff.geometry.skeleton import roof_slopes

SQUARE = rectangle(240, 240)


def at_fault(ring: list[RoofEdge]) -> tuple[int, ...]:
    with pytest.raises(RoofError) as caught:
        roof_slopes(ring)
    return caught.value.edges


def test_neighbours_in_one_line_that_differ_in_slope_are_both_named():
    outline = [(0, 0), (100, 0), (240, 0), (240, 240), (0, 240)]
    assert at_fault(edges(outline, [0.5, 0.25, 0.5, 0.5, 0.5])) == (0, 1)
    assert at_fault(edges(outline, [0.5, None, 0.5, 0.5, 0.5])) == (0, 1)


def test_walls_alone_carry_no_roof():
    assert at_fault(edges(SQUARE, [None] * 4)) == (0, 1, 2, 3)


def test_space_that_no_slope_reaches_is_told_by_its_walls():
    # the wall from (240, 120) to (360, 60) stands on over the slope of edge 0 to the west side
    outline = [(0, 0), (240, 0), (240, 120), (360, 60), (360, 360), (0, 360)]
    assert at_fault(edges(outline, [0.5, None, None, None, None, None])) == (2, 3, 4, 5)


@pytest.mark.parametrize("slope", [0.0, -0.5, inf, nan])
def test_a_slope_that_does_not_rise_is_refused(slope):
    assert at_fault(edges(SQUARE, [0.5, slope, 0.5, 0.5])) == (1,)


def test_crossing_edges_are_both_named():
    assert at_fault(edges([(0, 0), (240, 240), (240, 0), (0, 300)], 0.5)) == (0, 2)


def test_an_outline_that_touches_itself_is_refused():
    outline = [(0, 0), (240, 0), (240, 240), (120, 0), (0, 240)]
    assert set(at_fault(edges(outline, 0.5))) <= {0, 2, 3}


def test_a_clockwise_outline_is_refused():
    assert at_fault(edges(SQUARE[::-1], 0.5)) == (0, 1, 2, 3)


def test_an_edge_without_length_is_named():
    assert at_fault(edges([(0, 0), (240, 0), (240, 0), (240, 240)], 0.5)) == (1,)


def test_an_edge_that_runs_back_over_the_last_is_named():
    assert at_fault(edges([(0, 0), (240, 0), (100, 0), (100, 240)], 0.5)) == (0, 1)


def test_an_open_outline_is_refused_where_it_is_open():
    ring = edges(SQUARE, 0.5)
    ring[2] = RoofEdge((240, 239), (0, 240), 0.5)
    assert at_fault(ring) == (1, 2)


def test_a_corner_that_is_no_number_is_named():
    assert at_fault(edges([(0, 0), (240, nan), (240, 240), (0, 240)], 0.5)) == (0,)


def test_two_edges_make_no_outline():
    assert at_fault(edges([(0, 0), (240, 0)], 0.5)) == (0, 1)
