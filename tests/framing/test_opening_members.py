"""What frames an opening: kings, jacks, header, sill, and cripples on the wall's layout."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from measured import world_box
from shop import built, gable, with_role
from strategies import accepted

from takeoff.model.member import Member

HEAD = "6'-10 1/2\""


def south(*openings: dict[str, Any], studs: str = "2x6") -> tuple[Member, ...]:
    """The sticks of a south wall 30 feet long; its left end is the world's origin, so u is x and v is z."""
    written = [{"side": "south", **opening} for opening in openings]
    members = built(gable(walls={"studs": studs, "openings": written})).members
    return tuple(member for member in members if member.face == "south")


def across(members: tuple[Member, ...]) -> list[tuple[float, float]]:
    return sorted((world_box(m)[0][0], world_box(m)[1][0]) for m in members)


def upright(members: tuple[Member, ...]) -> list[tuple[float, float]]:
    return sorted((world_box(m)[0][2], world_box(m)[1][2]) for m in members)


def test_a_window_has_a_jack_and_a_king_at_each_side_of_its_rough_width() -> None:
    # 3'-0" and half an inch about 7 feet: 65.75 to 102.25
    wall = south({"center": "7'", "size": 3040, "head": HEAD})
    assert across(with_role(wall, "jack-stud")) == [(64.25, 65.75), (102.25, 103.75)]
    assert across(with_role(wall, "king-stud")) == [(62.75, 64.25), (103.75, 105.25)]
    assert {m.length_in for m in with_role(wall, "king-stud")} == {92.625}  # 97-1/8 less three plates
    assert {m.length_in for m in with_role(wall, "jack-stud")} == {81.0}  # 82-1/2 less the bottom plate


def test_a_header_bears_on_the_jacks_and_its_plies_are_flush_with_both_sides_of_the_wall() -> None:
    wall = south({"center": "7'", "size": 3040, "head": HEAD})
    plies = with_role(wall, "header")
    assert across(plies) == [(64.25, 103.75)] * 2
    assert upright(plies) == [(82.5, 88.0)] * 2  # a 2x6 is 5-1/2 deep
    assert sorted((world_box(m)[0][1], world_box(m)[1][1]) for m in plies) == [(0.0, 1.5), (4.0, 5.5)]


def test_a_sill_lies_between_the_jacks_under_the_rough_height() -> None:
    (sill,) = with_role(south({"center": "7'", "size": 3040, "head": HEAD}), "sill")
    # 82-1/2 less 4'-0 1/2" is 34
    assert across((sill,)) == [(65.75, 102.25)]
    assert upright((sill,)) == [(32.5, 34.0)]


def test_cripples_keep_to_the_wall_s_layout_under_the_sill_and_over_the_header() -> None:
    cripples = with_role(south({"center": "7'", "size": 3040, "head": HEAD}), "cripple")
    middles = sorted(((low + high) / 2, v) for m in cripples for low, high in across((m,)) for v in upright((m,)))
    assert [middle for middle, _ in middles] == [80.0, 80.0, 96.0, 96.0]
    assert {v for _, v in middles} == {(1.5, 32.5), (88.0, 94.125)}


def test_a_header_close_under_the_plates_leaves_no_room_for_cripples_over_it() -> None:
    # head at 82-1/2 and a 2x12: 93-3/4, and the top plate's underside at 94-1/8
    cripples = with_role(south({"center": "7'", "size": 3040, "head": HEAD, "header": "2-2x12"}), "cripple")
    assert {v for m in cripples for v in upright((m,))} == {(1.5, 32.5)}


def test_a_door_cuts_the_bottom_plate_and_has_neither_sill_nor_cripples_under_it() -> None:
    # 3'-0" and two inches from 13 feet: 156 to 194; 6'-8" and 2-1/2 inches high
    wall = south({"left": "13'", "size": 3068, "kind": "door"})
    assert across(with_role(wall, "bottom-plate")) == [(0.0, 156.0), (194.0, 360.0)]
    assert with_role(wall, "sill") == ()
    assert min(v for m in with_role(wall, "cripple") for v, _ in upright((m,))) > 82.5
    assert {m.length_in for m in with_role(wall, "jack-stud")} == {81.0}


def test_jacks_asked_for_stand_side_by_side_and_the_header_reaches_over_them() -> None:
    wall = south({"left": "13'", "size": 3068, "kind": "door", "jacks": 2})
    assert across(with_role(wall, "jack-stud")) == [(153.0, 154.5), (154.5, 156.0), (194.0, 195.5), (195.5, 197.0)]
    assert across(with_role(wall, "header")) == [(153.0, 197.0)] * 2


@pytest.mark.parametrize(
    ("size", "header"), [(3040, "2x6"), (5040, "2x8"), (7040, "2x10")], ids=["48 wide", "72 wide", "96 wide"]
)
def test_headers_left_out_are_the_usual_ones_for_the_width(size: int, header: str) -> None:
    plies = with_role(south({"center": "10'", "size": size, "head": "6'-8\""}), "header")
    assert [ply.profile.name for ply in plies] == [header] * 2


def test_the_plies_of_a_header_have_room_beside_each_other_in_the_wall_or_are_refused() -> None:
    # three plies of 1-1/2 are 4-1/2, a 2x4 wall is 3-1/2
    opening = {"side": "south", "center": "7'", "size": 3040, "header": "3-2x8"}
    plan = gable(walls={"studs": "2x4", "openings": [opening]})
    plies = with_role(built(plan).members, "header")
    depths = sorted((world_box(m)[0][1], world_box(m)[1][1]) for m in plies)
    assert not accepted(plan) or all(a[1] <= b[0] + 1e-6 for a, b in pairwise(depths)), depths
