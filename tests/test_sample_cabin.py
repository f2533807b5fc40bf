"""The sample cabin, measured on its placed sticks and worked by hand.

20 ft span, 8 in 12: run 120 in, tangent 2/3, cosine 0.832050, sine 0.554700. A 2x10 is 9-1/4 in deep, a 2x6 5-1/2,
the ridge beam 5-1/2 x 14 with the rafters standing 1 in proud of it, the overhang 16 in, the building 30 ft long.
"""

from __future__ import annotations

import pytest
from rafter_measure import (
    Section,
    gable_stud_tops,
    plate_top,
    ridge_centre,
    section,
    south,
    steps_of,
)
from shop import CABIN, only, with_role

from takeoff.geometry.polygon import corners
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.model.takeoff import Takeoff
from takeoff.pipeline import take_off

HALF_OF_LAST = 0.0005
"""Expected values are worked to a thousandth [in]."""

EAVES = ("south", "north")
GABLES = ("east", "west")


def about(inches: float):
    return pytest.approx(inches, abs=HALF_OF_LAST)


@pytest.fixture(scope="module")
def job() -> Takeoff:
    return take_off(CABIN)


@pytest.fixture(scope="module")
def cabin(job) -> FramedBuilding:
    (building,) = job.buildings
    return building


@pytest.fixture(scope="module")
def rafter(cabin) -> Section:
    return section(cabin)


def test_plates_are_97_1_8_over_the_deck(cabin):
    assert plate_top(cabin) == pytest.approx(97.125, abs=1e-6)


def test_plumb_cuts_are_33_690_deg_and_the_seat_56_310(rafter):
    assert [rafter.off_square(cut) for cut in rafter.plumb_cuts] == pytest.approx([33.690] * 3, abs=0.0005)
    assert rafter.off_square(rafter.seat) == pytest.approx(56.310, abs=0.0005)


def test_seat_is_4_1_8(rafter):
    # d/4 is 2.3125; over the sine that lets the seat be 4.169, and the eighth below is 4-1/8, under the plate's 5-1/2.
    assert rafter.seat.a == pytest.approx((0, 0), abs=1e-6)
    assert rafter.seat.length == pytest.approx(4.125, abs=1e-6)


def test_heel_on_the_stock_is_2_3_4_plumb(rafter):
    # 4-1/8 x 2/3: the underside's line meets the outside of the wall so far under the seat.
    assert -rafter.underside_at(0.0) == pytest.approx(2.75, abs=1e-6)


def test_height_above_plate_is_8_3_8(rafter):
    # 9.25 / 0.832050 is 11.117; less 2.75 is 8.367.
    _, height = rafter.top_at(0.0)
    assert height == about(8.367)
    assert format_length(height) == '8 3/8"'


def test_line_length_is_11_ft_8_15_16(cabin, rafter):
    # (120 - 2.75) / 0.832050
    length = rafter.along(0.0, rafter.ridge_cut.b[0])
    assert length == about(140.917)
    assert format_length(length) == "11'-8 15/16\""
    assert ridge_centre(cabin) - rafter.ridge_cut.b[0] == pytest.approx(2.75, abs=1e-6)


def test_tail_is_19_230_along_the_slope(rafter):
    # 16 / 0.832050
    assert rafter.along(rafter.tail_cut.b[0], 0.0) == about(19.230)


def test_tail_is_a_2x6_ripped_from_the_heel_outward(rafter):
    assert rafter.below_top(rafter.tail_cut.a) == pytest.approx(5.5, abs=1e-6)
    # 8.367 less the tail's 5.5 / 0.832050, which is 6.610: its underside meets the heel line 1.757 above the seat.
    assert rafter.heel.a == pytest.approx((0, 0), abs=1e-6)
    assert rafter.heel.b[1] == about(1.757)


def test_long_point_length_is_13_ft_7_13_16(cabin):
    # 133.25 / 0.832050, tail cut to ridge cut, and the tail's 5.5 x 2/3 that its plumb cut runs back: 163.813.
    lengths = [m.length_in for m in with_role(cabin.members, "common-rafter", "end-rafter")]
    assert lengths == [about(163.813)] * 48
    assert {format_length(length) for length in lengths} == {"13'-7 13/16\""}


def test_all_rafters_come_out_of_14_ft_one_each(job):
    marks = {piece.mark for piece in job.pieces if piece.role in ("common-rafter", "end-rafter")}
    boards = [board for board in job.lumber.boards if marks & {cut.mark for cut in board.cuts}]
    assert [board.stock_length_in for board in boards] == [168] * 48


def test_24_rafters_a_side_of_which_2_are_end_rafters(cabin):
    # 360 / 16 is 22.5: 22 inside on multiples of 16, and the two flush with the ends.
    for side in EAVES:
        found = [m for m in cabin.members if m.face == f"{side} slope" and m.rafter is not None]
        ends = with_role(found, "end-rafter")
        assert (len(found), len(ends)) == (24, 2)
        inner = sorted(m.placement.origin[0] for m in with_role(found, "common-rafter"))
        assert inner == pytest.approx([16 * k for k in range(1, 23)], abs=1e-6)
        assert sorted(m.placement.origin[0] for m in ends) == pytest.approx([0.75, 359.25], abs=1e-6)


def test_rafters_of_the_two_slopes_stand_opposite_each_other(cabin):
    rows = [
        sorted(m.placement.origin[0] for m in cabin.members if m.face == f"{side} slope" and m.rafter) for side in EAVES
    ]
    assert rows[0] == pytest.approx(rows[1], abs=1e-6)


def test_the_four_end_rafters_are_alike_and_have_six_pockets(cabin):
    # Pockets 3-1/2 wide, 1-1/2 deep. Top edge 160.147: the first at 5.25, the last at 154.897, every 32 in between.
    ends = with_role(cabin.members, "end-rafter")
    assert len(ends) == 4
    floor = 9.25 - 1.5
    bottoms = sorted(x for x, y in corners(only(ends).side) if abs(y - floor) < 1e-6)
    centres = [5.25, 37.25, 69.25, 101.25, 133.25, 154.897]
    assert bottoms == pytest.approx([c + half for c in centres for half in (-1.75, 1.75)], abs=0.001)


def test_common_rafters_are_of_one_mark_and_lie_under_the_same_line_as_the_end_rafters(cabin, rafter):
    assert only(with_role(cabin.members, "common-rafter")).rafter is not None
    y, z = rafter.tail_cut.b
    for end in south(cabin, "end-rafter"):
        top_of_tail_cut = end.placement.to_world((0.0, end.profile.depth_in, 0.0))
        assert top_of_tail_cut[1:] == pytest.approx((y, z + plate_top(cabin)), abs=1e-6)


def test_gable_studs_step_by_10_667(cabin):
    for face in GABLES:
        # 16 x 2/3. On the layout from 16 to 112; the next would stand in the post's place.
        steps = steps_of(gable_stud_tops(cabin, face), 16, peak=120.0)
        assert steps == pytest.approx([10.667] * 6, abs=HALF_OF_LAST)


def test_gable_studs_run_from_the_bottom_plate_to_the_underside_of_the_end_rafter(cabin, rafter):
    studs = [m for m in with_role(cabin.members, "gable-stud") if m.face == "west" and m.placement.origin[1] < 110]
    for stud in studs:
        y, z = stud.placement.origin[1:]
        assert z == pytest.approx(1.5, abs=1e-6)
        long_point = y + 0.75  # the side toward the ridge
        assert z + stud.length_in == pytest.approx(plate_top(cabin) + rafter.underside_at(long_point), abs=1e-6)


def test_top_of_the_beam_is_85_534_above_the_plate(cabin):
    # Top of the rafters at the beam's face, 8.367 + 117.25 x 2/3, which is 86.534, less the gap of 1.
    (beam,) = with_role(cabin.members, "ridge-beam")
    top = beam.placement.origin[2] + beam.profile.depth_in
    assert top - plate_top(cabin) == about(85.534)


def test_posts_stand_under_the_beam(cabin):
    (beam,) = with_role(cabin.members, "ridge-beam")
    posts = with_role(cabin.members, "post")
    # 5-1/2 of beam on four studs of 1-1/2 in each gable.
    assert len(posts) == 8
    heads = [m.placement.to_world((m.length_in, 0.0, 0.0))[2] for m in posts]
    assert heads == pytest.approx([beam.placement.origin[2]] * 8, abs=1e-6)
