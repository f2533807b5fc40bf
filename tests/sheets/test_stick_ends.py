"""Ends of sticks from their planes: which face is longer, by how much; checked by hand on a hip roof of 6/12.

On a hip at 45 degrees in plan the cheek of a jack crosses the stick one inch along for one across; measured up a slope
of 6/12 an inch of run is sqrt(1.25) = 1.1180 inches.
"""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest

from takeoff.model.member import EndCut, Member
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.folds import facts_in
from takeoff.sheets.stick_end import has_cheeks, side_cut_deg, stick_ends, top_lengths

ALONG = sqrt(1.25)
THICK = 1.5


def first(takeoff: Takeoff, *roles: str) -> Member:
    return next(m for b in takeoff.buildings for m in b.members if m.role.name in roles)


def jacks(takeoff: Takeoff) -> list[Member]:
    """Jacks with a single cheek."""
    found = (m for b in takeoff.buildings for m in b.members if m.role.name == "hip-jack")
    return [member for member in found if not any(member.cheeks)]


def test_a_jacks_shorter_face_is_set_back_by_the_thickness_up_the_slope(hip_takeoff: Takeoff) -> None:
    for member in jacks(hip_takeoff):
        assert stick_ends(member)[1].set_back == pytest.approx(THICK * ALONG)


def test_the_centre_line_of_a_jack_lies_midway_between_its_long_and_short_points(hip_takeoff: Takeoff) -> None:
    for member in jacks(hip_takeoff):
        lengths = top_lengths(member)
        assert lengths.centre_line == pytest.approx((lengths.long_point + lengths.short_point) / 2)


def test_jacks_on_both_sides_of_a_hip_are_of_opposite_hands(hip_takeoff: Takeoff) -> None:
    # The south slope's left hip leaves the right faces longer, its right hip the left ones.
    hands = {
        (member.placement.origin[0] < 144, stick_ends(member)[1].hand)
        for member in jacks(hip_takeoff)
        if member.face == "south slope"
    }
    assert hands == {(True, "right"), (False, "left")}


def test_the_side_cut_of_a_jack_is_that_of_12_and_13_42_on_the_square(hip_takeoff: Takeoff) -> None:
    # tan of the angle off square is 13.42 / 12, the length of the common rafter for a foot of run over the foot
    (cut,) = stick_ends(jacks(hip_takeoff)[0])[1].cheek_cuts
    assert abs(side_cut_deg(cut)) == pytest.approx(48.19, abs=0.005)
    assert abs(cut.bevel_deg) == pytest.approx(45)


def test_a_double_cheek_is_longest_in_the_middle_and_of_no_hand(hip_takeoff: Takeoff) -> None:
    upper = stick_ends(first(hip_takeoff, "hip"))[1]
    assert upper.hand == ""
    assert upper.long_point == pytest.approx(upper.at(0.0))
    # up a hip an inch of run along it is sqrt(1 + (6 / 16.97)**2) = 1.0607 inches
    assert upper.set_back == pytest.approx(THICK / 2 * sqrt(1 + 0.125))


def test_a_square_end_has_no_cheek_and_one_length(hip_takeoff: Takeoff) -> None:
    common = first(hip_takeoff, "common-rafter")
    lengths = top_lengths(common)
    assert not has_cheeks(common)
    assert lengths.long_point == pytest.approx(lengths.short_point)


def test_a_plane_without_a_point_passes_through_the_tip_on_the_face_it_leaves_longest(hip_takeoff: Takeoff) -> None:
    common = first(hip_takeoff, "common-rafter")
    half = sqrt(0.5)
    bevelled = replace(common, cuts=(common.cuts[0], EndCut((half * 1.0, 0.0, half))), cheeks=((), ()))
    upper = stick_ends(bevelled)[1]
    assert upper.hand == "left"
    assert upper.at(-THICK / 2) == pytest.approx(common.side.bounds[2])
    assert upper.set_back == pytest.approx(THICK)


def test_a_hip_of_equal_pitches_steps_16_97_and_drops_by_the_fall_over_half_its_thickness(hip_takeoff: Takeoff) -> None:
    facts = facts_in(hip_takeoff.buildings, first(hip_takeoff, "hip"))
    assert facts is not None
    assert facts.rises == pytest.approx((0.5, 0.5))
    assert facts.step_in == pytest.approx(16.9706, abs=5e-5)
    assert facts.slope * facts.step_in == pytest.approx(6)
    # 3/4 square to the hip is 3/4 * sin 45 down a slope of 6/12: 0.265
    assert facts.drop_in == pytest.approx(0.2652, abs=5e-5)
    # tan of the backing angle: the same fall, square to a hip that rises 4.243 in 12: 0.3536 / 1.0607
    assert facts.backing_deg == pytest.approx((18.435, 18.435), abs=5e-4)


def test_a_valley_lies_in_its_slopes_without_a_drop(ell_takeoff: Takeoff) -> None:
    facts = facts_in(ell_takeoff.buildings, first(ell_takeoff, "valley"))
    assert facts is not None
    assert facts.drop_in == pytest.approx(0, abs=1e-9)
    assert facts.step_in == pytest.approx(16.9706, abs=5e-5)


def test_only_hips_and_valleys_have_slopes_on_both_sides(hip_takeoff: Takeoff) -> None:
    assert facts_in(hip_takeoff.buildings, first(hip_takeoff, "common-rafter")) is None
