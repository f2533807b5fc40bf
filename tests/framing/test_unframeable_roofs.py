"""Roofs that can't be framed are refused in words that name the sides, before anything is framed."""

from __future__ import annotations

import pytest
from any_roofs import GLULAM, ell, horseshoe, rectangle
from shop import built, roofed

from takeoff.findings import PlanError
from takeoff.plan.schema import Building


def refusal(building: Building) -> str:
    """What is said, in one line."""
    with pytest.raises(PlanError) as error:
        built(building)
    (finding,) = error.value.findings
    assert finding.place.path.startswith("roof") or finding.place.path == "walls"
    assert "\n" not in finding.message
    return finding.message


def test_eaves_that_run_into_each_other_over_a_narrow_court_are_named():
    court = horseshoe(300, 200, (140, 140), (80, 80))  # 20 in wide, under two overhangs of 16 in
    message = refusal(roofed(court, overhang={"eave": 16}))
    assert "no roof closes over these sides (side 3, side 6)" in message
    assert "touch or cross" in message


def test_gables_that_leave_a_part_of_the_house_without_a_slope_are_named():
    # A wing whose three sides and the wall beside them are gables: nothing slopes over it.
    points = [(0.0, 0.0), (216.0, 0.0), (216.0, 192.75), (168.0, 192.75)]
    points += [(168.0, 312.75), (48.0, 312.75), (48.0, 192.75), (0.0, 192.75)]
    edges = dict.fromkeys(("side 1", "side 4", "side 7", "side 8"), "gable")
    message = refusal(roofed(points, shape="edges", edges=edges, pitch="14/12"))
    assert "no roof closes over these sides (side 1, side 4, side 7, side 8)" in message
    assert 'side 7 from x 4\'-0", y 16\'-0 3/4" to x 0", y 16\'-0 3/4"' in message
    assert "make a gable or an abutment among them an eave" in message


def test_a_slope_that_meets_no_other_is_refused_with_the_side_it_rises_to_and_how_high():
    roof = roofed(rectangle(288, 192), shape="edges", edges=dict.fromkeys(("side 2", "side 3", "side 4"), "gable"))
    message = refusal(roof)
    assert "a slope rises 10'-8\" to the side 3 gable" in message  # 192 * 8/12 = 128
    assert "make that side an eave" in message


def test_an_eave_and_a_gable_in_one_line_are_named():
    points = [(0.0, 0.0), (144.0, 0.0), (288.0, 0.0), (288.0, 200.0), (0.0, 200.0)]
    message = refusal(roofed(points, shape="edges", edges={"side 1": "gable"}))
    assert "side 1, side 2" in message
    assert "in one line" in message


def test_a_house_too_narrow_for_its_seats_is_refused():
    message = refusal(roofed(rectangle(120, 12), walls={"studs": "2x6"}, rafters={"size": "2x12"}, pitch="2/12"))
    assert "too short" in message


def test_a_roof_with_a_level_valley_is_refused():
    # The flat slopes behind side 5 and the steep one behind side 3 face one way: they meet in a level line.
    points = ell(120, 313, 72, 168)
    message = refusal(
        roofed(points, pitch="15/12", pitches={"side 5": "2/12", "side 6": "2/12"}, overhang={"eave": 12})
    )
    assert "level" in message


def test_two_eaves_in_one_line_with_two_pitches_are_named():
    points = [(0.0, 0.0), (144.0, 0.0), (288.0, 0.0), (288.0, 200.0), (0.0, 200.0)]
    message = refusal(roofed(points, pitches={"side 1": "4/12"}))
    assert "side 1, side 2" in message


@pytest.mark.parametrize("gables", [("side 1", "side 2"), ("side 1", "side 2", "side 3")])
def test_a_slope_that_rises_to_a_gable_is_refused_where_only_a_shed_may(gables):
    assert refusal(roofed(rectangle(288, 200), shape="edges", edges=dict.fromkeys(gables, "gable")))


@pytest.mark.parametrize(
    "building",
    [
        roofed(ell(216, 163, 168, 150.5), pitch="2/12", rafters={"size": "2x6", "spacing": 12}, ridge=GLULAM),
        roofed(ell(360, 168, 167, 160), ridge={**GLULAM, "vent": 1.0}),
    ],
    ids=["one behind the other", "behind a vent"],
)
def test_ridges_that_end_nearer_than_they_are_thick_are_refused_with_the_place(building: Building) -> None:
    message = refusal(building)
    assert "nearer than they are thick" in message
    assert "at x " in message


def test_walls_of_unequal_height_under_a_hip_are_refused_by_name() -> None:
    building = roofed(
        rectangle(288, 200), pitch="4/12", pitches={"side 2": "8/12"}, keep="eave_line", overhang={"eave": 16}
    )
    message = refusal(building)
    assert 'side 2 wall would stand 4 5/8" higher than the side 1 wall' in message
    assert "keep: plate_line" in message


def test_a_steep_eave_without_overhang_ends_lower_than_the_others_and_no_hip_joins_them() -> None:
    own = {"side 2": "14/12"}
    building = roofed(rectangle(288, 200), pitch="2/12", pitches=own, rafters={"size": "2x8", "seat": 4})
    message = refusal(building)
    assert 'the side 1 eave stands 3/16" over the side 2 eave' in message
    assert "more overhang" in message


def test_a_hip_that_ends_over_the_plate_is_refused_with_the_depth_that_reaches_it() -> None:
    said = refusal(
        roofed(rectangle(191.25, 168), pitch="14/12", rafters={"size": "2x12", "seat": 1.5}, overhang={"eave": 3})
    )
    # Rafters stand 11.25 * hypot(1, 14/12) - 1.5 * 14/12 = 15.537 high. The hip rises 14 in 12 * sqrt(2), 0.82496, and
    # is dropped by 0.75 * 0.82496 = 0.619, so 14.918 under its top; 11.25 of it are 11.25 * 1.29640 = 14.584 plumb.
    assert 'the hip rafter: it ends 5/16" over the plate' in said
    # A seat of 1-1/2 takes 1.5 * 0.82496 = 1.237 more: 16.155 / 1.29640 = 12.461, up to the next sixteenth.
    assert 'for a bearing of 1 1/2" write hips: with a size at least 1\'-0 1/2" deep' in said
    assert "longer seat" in said


def test_a_hip_with_less_than_an_eighth_of_a_seat_is_refused_with_what_it_would_have() -> None:
    def said_of(seat: float) -> Building:
        return roofed(rectangle(288, 200), rafters={"size": "2x12", "seat": seat}, hips={"size": "2x10"})

    # The rafters stand 11.25 * hypot(1, 8/12) - seat * 8/12 high, the hip 0.75 * 0.4714 = 0.354 less, and its plumb cut
    # is 9.25 * hypot(1, 0.4714) = 10.226; so a seat of 4.449 leaves the hip 0.025 / 0.4714 = 0.053, one of 4.5 0.125.
    assert 'the hip rafter: it would have a seat of only 1/16" on the plate' in refusal(said_of(4.449))
    assert built(said_of(4.5)).members
