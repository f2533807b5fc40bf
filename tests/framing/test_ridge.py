"""The ridge: height, length, joints, and the stubs beyond the end walls that catch the barges."""

from __future__ import annotations

from typing import Any

import pytest
from measured import world_box
from shop import built, gable, with_role

from takeoff.model.building import FramedBuilding

PLATE = 97.125
RAKED: dict[str, Any] = {"overhang": {"eave": '16"', "rake": '12"'}, "barge": {"size": "2x10"}, "outlookers": {}}


def hut(length: str = "30'", **roof: Any) -> FramedBuilding:
    return built(gable(length=length, roof=roof))


@pytest.mark.parametrize(("vent", "top"), [(0, 86.534), (1, 85.534)], ids=["flush", "an inch of air"])
def test_the_top_of_a_beam_is_where_the_rafters_meet_its_face_less_the_gap(vent: float, top: float) -> None:
    # 8.367 of rafter over the plate and (120 - 2-3/4) x 8/12 of rise
    ridge = {"kind": "beam", "size": "5-1/2x14", "material": "glulam", "vent": vent}
    (beam,) = with_role(hut(ridge=ridge, tail={"size": "2x6"}).members, "ridge-beam")
    low, high = world_box(beam)
    assert high[2] - PLATE == pytest.approx(top, abs=0.0005)
    assert high[2] - low[2] == 14


def test_a_beam_is_one_piece_from_end_wall_to_end_wall_on_its_posts() -> None:
    building = hut("60'")
    (beam,) = with_role(building.members, "ridge-beam")
    assert (world_box(beam)[0][0], world_box(beam)[1][0]) == (0.0, 720.0)
    index = building.members.index(beam)
    posts = [building.members[j.lower] for j in building.joints if j.upper == index]
    assert [post.role.name for post in posts] == ["post"] * 8
    assert {post.face for post in posts} == {"east", "west"}


def test_a_board_longer_than_stock_is_joined_on_rafters() -> None:
    board = {"kind": "board", "size": "2x12"}
    runs = sorted(
        (world_box(m)[0][0], world_box(m)[1][0]) for m in with_role(hut("60'", ridge=board).members, "ridge-board")
    )
    # 24-foot boards of wide lumber: joints at 288 and 576, both multiples of 16
    assert runs == [(0.0, 288.0), (288.0, 576.0), (576.0, 720.0)]


def test_rafters_hang_on_a_beam_and_butt_a_board_with_their_whole_plumb_cut_if_it_is_deep_enough() -> None:
    # 2x10 at 8/12: 11.117 plumb
    hung = {round(j.bearing_in, 3) for j in hut().joints if j.kind == "hangs"}
    assert hung == {11.117}
    butted = {round(j.bearing_in, 3) for j in hut(ridge={"kind": "board", "size": "2x10"}).joints if j.kind == "butts"}
    assert butted == {9.25}


def test_false_ridges_run_from_the_end_walls_to_the_backs_of_the_barges() -> None:
    stubs = with_role(hut(**RAKED).members, "false-ridge")
    runs = sorted((world_box(m)[0][0], world_box(m)[1][0]) for m in stubs)
    assert runs == [(-10.5, 0.0), (360.0, 370.5)]  # 12 less the barge's 1-1/2


def test_the_top_corners_of_a_false_ridge_lie_in_the_slopes() -> None:
    building = hut(**RAKED)
    stub = with_role(building.members, "false-ridge")[0]
    barge = with_role(building.members, "barge")[0]
    # the barges meet on the centre line; 3/4 beside it the slope is 3/4 x 8/12 lower
    assert world_box(barge)[1][2] - world_box(stub)[1][2] == pytest.approx(0.75 * 8 / 12)


@pytest.mark.parametrize("roof", [{}, {"overhang": {"rake": '12"'}}], ids=["no rake", "no barge"])
def test_without_barges_there_is_no_false_ridge(roof: dict[str, Any]) -> None:
    assert with_role(hut(**roof).members, "false-ridge", "barge") == ()
