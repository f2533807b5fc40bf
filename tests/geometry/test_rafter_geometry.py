from __future__ import annotations

from math import atan, cos, hypot, radians, sin, tan

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from takeoff.geometry.polygon import corners
from takeoff.geometry.rafter import Pocket, RafterGeometry, automatic_seat

NEAR = 1e-6
"""Outlines are put on a fine grid and cleaned; corners stand within this of where the formulas put them [in]."""

slopes = st.integers(4, 96).map(lambda quarters: quarters / 48) | st.floats(1 / 12, 2)
depths = st.sampled_from([3.5, 5.5, 7.25, 9.25, 11.25, 14.0])


@st.composite
def rafters(draw: st.DrawFn, *, least_overhang: float = 0.0) -> RafterGeometry:
    """Rafters with a bird's mouth of up to half the depth, full or ripped tails, at any ridge."""
    slope, depth = draw(slopes), draw(depths)
    run = draw(st.floats(40, 240))
    deepest = min(0.5 * depth / sin(atan(slope)), 12.0)
    return RafterGeometry(
        slope=slope,
        depth=depth,
        run=run,
        overhang=draw(st.just(least_overhang) | st.floats(max(least_overhang, 1.0), 36)),
        ridge_half=draw(st.sampled_from([0.0, 0.75, 1.75, 2.75])),
        seat=draw(st.floats(0.5, deepest)),
        tail_depth=draw(st.none() | st.floats(0.3, 1.0).map(lambda share: share * depth)),
    )


def in_section(rafter: RafterGeometry, point: tuple[float, float]) -> tuple[float, float]:
    """From the stick back to the vertical plane: level from the outside of the wall, height above the plate.

    The stick's origin is one depth, square, under the top of the tail cut; its x axis climbs with the slope.
    """
    c, s = 1 / hypot(1, rafter.slope), rafter.slope / hypot(1, rafter.slope)
    x, y = point[0], point[1] - rafter.depth
    top = rafter.height_above_plate - rafter.overhang * rafter.slope
    return (-rafter.overhang + x * c - y * s, top + x * s + y * c)


def section_of(rafter: RafterGeometry) -> list[tuple[float, float]]:
    return [in_section(rafter, point) for point in corners(rafter.side())]


def has_corner(rafter: RafterGeometry, h: float, z: float) -> bool:
    return any(hypot(h - a, z - b) < NEAR for a, b in section_of(rafter))


def wood_of(rafter: RafterGeometry) -> float:
    """Area between the plumb cuts, added up in upright strips: outside the wall, over the seat, inside it [sq in].

    Outside, the tail's own plumb depth; inside, the full plumb depth, less the triangle that the plate takes.
    """
    plumb = rafter.depth * hypot(1, rafter.slope)
    tail = min(rafter.tail_depth or rafter.depth, rafter.depth) * hypot(1, rafter.slope)
    inside = (rafter.run - rafter.ridge_half) * plumb - rafter.seat * rafter.seat * rafter.slope / 2
    return rafter.overhang * tail + inside


@given(rafters())
def test_the_outline_lies_within_the_depth_of_its_stick_and_has_its_whole_top_edge(rafter):
    x0, y0, x1, y1 = rafter.side().bounds
    assert y0 >= -NEAR
    assert y1 == pytest.approx(rafter.depth, abs=NEAR)
    assert x1 == pytest.approx(rafter.top_edge, abs=NEAR)
    assert x0 <= NEAR


@given(rafters())
def test_its_area_is_that_of_its_upright_strips(rafter):
    assert rafter.side().area == pytest.approx(wood_of(rafter), rel=1e-7)


@given(rafters())
def test_the_seat_is_level_on_the_plate_from_the_outside_of_the_wall_inward(rafter):
    assert has_corner(rafter, 0.0, 0.0)
    assert has_corner(rafter, rafter.seat, 0.0)


@given(rafters())
def test_nothing_of_it_is_in_the_wall(rafter):
    assert not any(h > NEAR and z < -NEAR for h, z in section_of(rafter))


@given(rafters())
def test_the_ridge_cut_is_plumb_half_the_ridge_short_of_its_centre_line(rafter):
    h = rafter.run - rafter.ridge_half
    top = rafter.height_above_plate + h * rafter.slope
    assert has_corner(rafter, h, top)
    assert has_corner(rafter, h, top - rafter.depth * hypot(1, rafter.slope))
    assert max(at for at, _ in section_of(rafter)) == pytest.approx(h, abs=NEAR)


@given(rafters(least_overhang=1.0))
def test_the_tail_cut_is_plumb_at_the_overhang_and_as_deep_as_the_tail(rafter):
    top = rafter.height_above_plate - rafter.overhang * rafter.slope
    assert has_corner(rafter, -rafter.overhang, top)
    assert has_corner(rafter, -rafter.overhang, top - rafter.tail_depth_cut * hypot(1, rafter.slope))
    assert min(at for at, _ in section_of(rafter)) == pytest.approx(-rafter.overhang, abs=NEAR)


@given(rafters(least_overhang=1.0))
def test_the_tails_underside_meets_the_heel_line_where_it_says(rafter):
    assert has_corner(rafter, 0.0, rafter.tail_underside_at_heel)


@given(rafters(least_overhang=1.0))
def test_overall_length_is_the_top_edge_and_what_reaches_back_beyond_it(rafter):
    """The foot of the tail's plumb cut, or, under a short tail ripped thin, the heel of the bird's mouth."""
    foot_of_tail = rafter.tail_depth_cut * rafter.slope
    heel = rafter.height_above_plate * sin(atan(rafter.slope)) - rafter.overhang * hypot(1, rafter.slope)
    assert rafter.overall == pytest.approx(rafter.top_edge + max(foot_of_tail, heel), abs=NEAR)


@given(rafters())
def test_heel_and_height_above_plate_make_the_plumb_depth(rafter):
    assert rafter.heel + rafter.height_above_plate == pytest.approx(rafter.plumb_depth)
    assert rafter.heel_square == pytest.approx(rafter.heel * cos(radians(rafter.plumb_deg)))
    assert rafter.plumb_deg + rafter.seat_deg == 90


@given(rafters(), st.floats(-40, 240), st.floats(-40, 240))
def test_to_stick_and_back_again_is_where_it_was(rafter, h, z):
    assert in_section(rafter, rafter.to_stick(h, z)) == pytest.approx((h, z), abs=1e-9)


@given(rafters(), st.integers(1, 4))
def test_each_pocket_takes_its_width_times_its_depth(rafter, count):
    pockets = tuple(Pocket(centre=6.0 + 7.0 * k, width=3.5, depth=0.4) for k in range(count))
    cut = RafterGeometry(
        slope=rafter.slope, depth=rafter.depth, run=rafter.run, overhang=0.0, seat=rafter.seat, pockets=pockets
    )
    whole = RafterGeometry(slope=rafter.slope, depth=rafter.depth, run=rafter.run, overhang=0.0, seat=rafter.seat)
    assert whole.side().area - cut.side().area == pytest.approx(count * 3.5 * 0.4, abs=NEAR)


@given(slopes, st.floats(60, 240), st.floats(0, 24), st.floats(0.3, 0.95))
def test_a_level_cut_takes_the_triangle_under_it(slope, run, overhang, share):
    plumb = 9.25 * hypot(1, slope)
    barge = RafterGeometry(
        slope=slope, depth=9.25, run=run, overhang=overhang, stand=8.0, tail_level_drop=share * plumb
    )
    hanging = plumb * (1 - share)
    assume(hanging / slope < run + overhang)
    triangle = hanging * hanging / slope / 2
    assert barge.side().area == pytest.approx((run + overhang) * plumb - triangle, rel=1e-7)


def test_a_barge_has_no_birds_mouth_and_stands_as_high_as_it_is_told():
    barge = RafterGeometry(slope=2 / 3, depth=9.25, run=120.0, overhang=16.0, stand=8.367)
    assert (barge.height_above_plate, barge.heel, barge.heel_square) == (8.367, 0.0, 0.0)
    assert len(corners(barge.side())) == 4


def test_a_tail_as_deep_as_the_rafter_is_not_ripped():
    whole, same = (
        RafterGeometry(slope=0.5, depth=7.25, run=96.0, overhang=12.0, seat=3.5, tail_depth=tail)
        for tail in (None, 7.25)
    )
    assert whole.side().equals(same.side())


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"slope": 0.0}, "a slope and a depth over 0"),
        ({"slope": -0.5}, "a slope and a depth over 0"),
        ({"depth": 0.0}, "a slope and a depth over 0"),
        ({"seat": 15.0}, "cuts through the top edge"),  # 15 x sin 33.69 deg is 8.32 of 7.25
        ({"run": 3.5, "seat": 3.5}, "the seat reaches the ridge cut"),
        ({"run": 4.0, "ridge_half": 0.75, "seat": 3.5}, "the seat reaches the ridge cut"),
    ],
)
def test_what_no_saw_can_make_is_refused(wrong, words):
    usual = {"slope": 2 / 3, "depth": 7.25, "run": 96.0, "overhang": 12.0, "seat": 3.0}
    with pytest.raises(ValueError, match=words):
        RafterGeometry(**{**usual, **wrong})


def test_pockets_that_cut_the_stick_in_two_are_refused():
    rafter = RafterGeometry(slope=0.5, depth=7.25, run=96.0, overhang=12.0, seat=3.0, pockets=(Pocket(60.0, 3.5, 8.0),))
    with pytest.raises(ValueError, match="no stick in one piece"):
        rafter.side()


plates = st.sampled_from([3.5, 5.5, 7.25])


@given(slopes, depths, plates)
def test_an_automatic_seat_is_the_plate_or_the_longest_step_the_notch_allows(slope, depth, plate):
    seat = automatic_seat(depth=depth, plate_width=plate, slope=slope, notch_share=1 / 4, least=1.5)
    square = sin(atan(slope))
    if seat == plate:
        assert seat * square <= depth / 4 + 1e-5
    elif seat == 1.5:
        assert (seat + 1 / 8) * square > depth / 4 - 1e-5
    else:
        assert seat % (1 / 8) == 0
        assert seat * square <= depth / 4 + 1e-5
        assert min(seat + 1 / 8, plate) * square > depth / 4 - 1e-5


@given(slopes, slopes, depths, plates)
def test_a_steeper_rafter_never_gets_the_longer_seat(a, b, depth, plate):
    flat, steep = (
        automatic_seat(depth=depth, plate_width=plate, slope=slope, notch_share=1 / 4, least=1.5)
        for slope in sorted((a, b))
    )
    assert steep <= flat


def test_the_least_bearing_is_kept_where_the_share_is_gone_over():
    # 3.5 / 4 over sin 45 deg is 1.237.
    assert automatic_seat(depth=3.5, plate_width=3.5, slope=tan(radians(45)), notch_share=1 / 4, least=1.5) == 1.5
