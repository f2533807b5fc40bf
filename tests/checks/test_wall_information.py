"""Lists of the walls for information: full-height panels, studs under rafters; and plates too short for their bolts."""

from __future__ import annotations

from shop import built, gable

from takeoff.checks.wall_information import braced_panels, studs_under_rafters
from takeoff.checks.walls import short_sills, tall_studs
from takeoff.findings import Place
from takeoff.framing.frame import frame

DOOR = {"side": "south", "center": "3'", "size": "3068", "kind": "door"}


def test_panels_are_what_openings_leave_of_a_side() -> None:
    building = gable(walls={"openings": [DOOR]})
    south = next(f for f in braced_panels(built(building), building) if f.where == "south wall")
    # 36" unit and 2" of allowance, its middle at 36": 17" at the left, which is none, and 305" at the right
    assert "1 (25'-5\")" in south.message


def test_rafters_of_a_plain_side_stand_over_studs_and_those_over_a_door_are_told() -> None:
    plain, holed = gable(), gable(walls={"openings": [{**DOOR, "center": "14'-8\""}]})
    whole = next(f for f in studs_under_rafters(built(plain), plain) if f.where == "south wall")
    parted = next(f for f in studs_under_rafters(built(holed), holed) if f.where == "south wall")
    assert whole.message == "24 of 24 rafters stand over a stud"
    assert "14'-8\"," in parted.message


def test_a_sill_piece_with_room_for_one_bolt_is_told() -> None:
    near = gable(walls={"sill": "treated", "openings": [{**DOOR, "center": "2'-5\""}]})
    (found,) = short_sills(built(near), near)
    assert "room for one" in found.message


def test_a_partition_that_carries_nothing_is_not_held_to_the_height_of_bearing_studs() -> None:
    line = {"name": "mid", "from": ["10'", 0], "to": ["10'", "20'"]}
    for bearing in (False, True):
        building = gable(walls={"partitions": [{**line, "bearing": bearing}]})
        told = [f for f in tall_studs(built(building), building) if f.where.startswith("mid")]
        assert len(told) == bearing


def test_a_round_top_is_said_to_be_framed_square() -> None:
    window = {"side": "south", "center": "8'", "size": "3040", "top": "round"}
    _, findings = frame(gable(walls={"openings": [window]}), lambda path: Place(path=path))
    assert any("round top is framed square" in f.message for f in findings)
