"""Roofs over outlines whose ridges, hips and valleys can be told by hand. Plane geometry, no source."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, dist, hypot, pi, sin

import pytest
from roof_outlines import Point, edges, moved, rectangle, tee

from takeoff.geometry.skeleton import RoofSlope, roof_slopes

PITCH = 8 / 12


def slope_of(slopes: Sequence[RoofSlope], edge: int) -> RoofSlope:
    return next(slope for slope in slopes if edge in slope.edges)


def sides(slope: RoofSlope) -> list[tuple[str, int]]:
    return [(side.kind, side.across) for side in slope.sides]


def ring(slope: RoofSlope) -> list[Point]:
    return [pytest.approx(place) for place, _ in slope.ring]


def ridges(slopes: Sequence[RoofSlope]) -> list[float]:
    """Lengths of all ridges, each seen from its first slope."""
    found = [(slope.edge, side) for slope in slopes for side in slope.sides if side.kind == "ridge"]
    return [dist(side.start, side.end) for edge, side in found if edge < side.across]


@pytest.mark.parametrize("rise", range(2, 25))
def test_hip_ridge_is_length_less_width_at_every_pitch(rise):
    slopes = roof_slopes(edges(rectangle(480, 288), rise / 12))
    assert ridges(slopes) == [pytest.approx(480 - 288)]
    assert slope_of(slopes, 0).sides[2].start == pytest.approx((336, 144, 144 * rise / 12))


def test_a_hipped_side_runs_eave_hip_ridge_hip_from_its_left_end():
    slopes = roof_slopes(edges(rectangle(480, 288), PITCH))
    assert [slope.edge for slope in slopes] == [0, 1, 2, 3]
    assert sides(slopes[0]) == [("eave", 0), ("hip", 1), ("ridge", 2), ("hip", 3)]
    assert sides(slopes[1]) == [("eave", 1), ("hip", 2), ("hip", 0)]
    assert slopes[1].ring[0] == ((480, 0), 0)


@pytest.mark.parametrize("count", [3, 4, 5, 6, 8, 12, 60])
def test_regular_outlines_of_one_pitch_meet_in_one_apex(count):
    corners = [(300 * cos(2 * pi * k / count), 300 * sin(2 * pi * k / count)) for k in range(count)]
    slopes = roof_slopes(edges(moved(corners, 0.3, (500, 70)), PITCH))
    tops = [place for slope in slopes for place, height in slope.ring if height > 0]
    assert len(slopes) == len(tops) == count
    assert all(dist(top, (500, 70)) < 1e-6 for top in tops)


def test_a_gable_roof_of_unequal_pitches_has_its_ridge_off_centre():
    south, north = roof_slopes(edges(rectangle(480, 240), [4 / 12, None, 8 / 12, None]))
    # 4/12 * y = 8/12 * (240 - y) at y = 160
    assert ring(south) == [(0, 0), (480, 0), (480, 160), (0, 160)]
    assert sides(south) == [("eave", 0), ("gable", 1), ("ridge", 2), ("gable", 3)]
    assert north.sides[2].start == pytest.approx((0, 160, 160 / 3))


def test_a_shed_rises_to_its_far_wall():
    (shed,) = roof_slopes(edges(rectangle(480, 240), [None, None, 3 / 12, None]))
    assert sides(shed) == [("eave", 2), ("gable", 3), ("gable", 0), ("gable", 1)]
    assert [height for _, height in shed.ring] == pytest.approx([0, 0, 60, 60])


def test_a_shed_runs_on_over_the_head_of_a_wall_in_its_way():
    outline = [(0, 0), (240, 0), (240, 24), (360, 24), (360, 240), (0, 240)]
    (shed,) = roof_slopes(edges(outline, [6 / 12, None, None, None, None, None]))
    assert shed.area == pytest.approx(240 * 240 + 120 * 216)
    assert sides(shed)[:4] == [("eave", 0), ("gable", 1), ("eave", 2), ("gable", 3)]
    assert shed.sides[2].start == pytest.approx((240, 24, 12))


def test_one_hip_end_and_one_gable_end():
    slopes = roof_slopes(edges(rectangle(480, 240), [PITCH, None, PITCH, PITCH]))
    assert sides(slopes[0]) == [("eave", 0), ("gable", 1), ("ridge", 2), ("hip", 3)]
    assert ridges(slopes) == [pytest.approx(480 - 120)]


def test_an_ell_has_one_valley_from_its_inner_corner_to_the_crossing_of_the_ridges():
    outline = [(0, 0), (480, 0), (480, 240), (240, 240), (240, 480), (0, 480)]
    slopes = roof_slopes(edges(outline, PITCH))
    valleys = [(slope.edge, side) for slope in slopes for side in slope.sides if side.kind == "valley"]
    assert [(edge, side.across) for edge, side in valleys] == [(2, 3), (3, 2)]
    assert valleys[0][1].start == pytest.approx((240, 240, 0))
    assert valleys[0][1].end == pytest.approx((120, 120, 80))
    assert sorted(ridges(slopes)) == pytest.approx([240, 240])


def test_a_tee_of_equal_spans_has_two_valleys_that_meet_on_the_main_ridge():
    slopes = roof_slopes(edges(tee(wing=240), [None, PITCH, PITCH, None, PITCH, None, PITCH, PITCH]))
    assert sides(slope_of(slopes, 1)) == [("eave", 1), ("valley", 2), ("ridge", 7), ("gable", 0)]
    assert ring(slope_of(slopes, 1)) == [(360, -180), (360, 0), (240, 120), (240, -180)]
    assert slope_of(slopes, 2).edges == (2,)
    assert [s for s in sides(slope_of(slopes, 4)) if s[0] == "ridge"] == [("ridge", 6), ("ridge", 2)]


def test_a_main_slope_on_both_sides_of_a_narrow_wing_is_one_slope():
    slopes = roof_slopes(edges(tee(wing=120), [None, PITCH, PITCH, None, PITCH, None, PITCH, PITCH]))
    main = slope_of(slopes, 6)
    assert main.edges == (2, 6)
    assert ring(main) == [(300, 0), (480, 0), (480, 120), (0, 120), (0, 0), (180, 0), (240, 60)]
    kinds = ["eave", "gable", "ridge", "gable", "eave", "valley", "valley"]
    assert [side.kind for side in main.sides] == kinds
    assert [side.across for side in main.sides] == [2, 3, 4, 5, 6, 7, 1]


def test_a_u_of_equal_spans_has_two_valleys_and_ridges_at_one_height():
    outline = [(0, 0), (720, 0), (720, 480), (480, 480), (480, 240), (240, 240), (240, 480), (0, 480)]
    slopes = roof_slopes(edges(outline, PITCH))
    valleys = [side for slope in slopes for side in slope.sides if side.kind == "valley"]
    assert [hypot(v.end[0] - v.start[0], v.end[1] - v.start[1]) for v in valleys] == pytest.approx([120 * 2**0.5] * 4)
    assert {round(side.start[2], 9) for slope in slopes for side in slope.sides if side.kind == "ridge"} == {80}


def test_a_wing_roof_stops_at_a_wall_that_stands_on_into_the_roof():
    # a shed with its high side on the line y = 0; the wing's two slopes die into that wall
    slopes = roof_slopes(edges(tee(wing=240), [None, PITCH, None, None, PITCH, None, None, PITCH]))
    assert ring(slope_of(slopes, 1)) == [(360, -180), (360, 0), (240, 0), (240, -180)]
    assert sides(slope_of(slopes, 1)) == [("eave", 1), ("gable", 2), ("ridge", 7), ("gable", 0)]
    assert slope_of(slopes, 4).area == pytest.approx(480 * 240)


def test_a_flatter_porch_slope_ends_in_a_level_valley_under_the_main_slope():
    # 3/12 from y = -48 and 6/12 from y = 0 are both 24 high at y = 48
    slopes = roof_slopes(edges(tee(wing=240, depth=48), [3 / 12, None, 0.5, None, 0.5, None, 0.5, None]))
    porch, main = slope_of(slopes, 0), slope_of(slopes, 2)
    assert sides(porch) == [("eave", 0), ("gable", 1), ("valley", 2), ("gable", 7)]
    assert porch.sides[2].start == pytest.approx((360, 48, 24))
    assert main.edges == (2, 6)
    assert ("valley", 0) in sides(main)


def test_a_porch_slope_in_front_of_a_gable_wall_ends_at_the_wall():
    slopes = roof_slopes(edges(tee(wing=240, depth=48), [3 / 12, None, None, 0.5, None, 0.5, None, None]))
    porch = slope_of(slopes, 0)
    assert ring(porch) == [(120, -48), (360, -48), (360, 0), (120, 0)]
    assert {side.kind for side in porch.sides[1:]} == {"gable"}


def test_an_eave_named_in_two_parts_carries_one_slope():
    slopes = roof_slopes(edges([(0, 0), (200, 0), (480, 0), (480, 240), (0, 240)], PITCH))
    assert slopes[0].edges == (0, 1)
    assert sides(slopes[0]) == [("eave", 0), ("eave", 1), ("hip", 2), ("ridge", 3), ("hip", 4)]


@pytest.mark.parametrize("jog", [1 / 16, 1 / 2, 4, -1 / 16, -1 / 2, -4])
@pytest.mark.parametrize("side_slope", [None, PITCH])
def test_a_jog_in_an_eave_keeps_the_roof_closed(jog, side_slope):
    outline = [(0, 0), (200, 0), (200, jog), (480, jog), (480, 240), (0, 240)]
    slopes = roof_slopes(edges(outline, [PITCH, side_slope, PITCH, PITCH, PITCH, PITCH]))
    assert sum(slope.area for slope in slopes) == pytest.approx(480 * 240 - 280 * jog)


def test_a_hip_a_sixteenth_out_of_square_still_has_a_ridge():
    slopes = roof_slopes(edges([(0, 0), (480, 0), (480, 240 + 1 / 16), (0, 240)], PITCH))
    assert ridges(slopes) == [pytest.approx(240, abs=0.1)]


def test_corners_rounded_as_files_round_them_give_the_same_slopes():
    turned = moved(tee(wing=240), 0.7, (812.3, -55.1))
    rounded = [(round(x, 6), round(y, 6)) for x, y in turned]
    slopes = [PITCH] * 8
    exact, read = roof_slopes(edges(turned, slopes)), roof_slopes(edges(rounded, slopes))
    assert [sides(slope) for slope in read] == [sides(slope) for slope in exact]
