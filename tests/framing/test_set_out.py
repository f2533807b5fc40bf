"""What is chalked inside: faces of partitions from the walls beside them, heights of backing."""

from __future__ import annotations

import pytest
from shop import built, gable

from takeoff.model.layout import LayoutLine

BATH = {"name": "bath", "from": ["10'", 0], "to": ["10'", "20'"]}
HALL = {"name": "hall", "from": ["10'", "8'"], "to": ["30'", "8'"]}


def across(*partitions: dict[str, object]) -> list[LayoutLine]:
    return [line for line in built(gable(walls={"partitions": list(partitions)})).lines if "across" in line.name]


def test_a_partition_is_set_out_from_the_inside_of_the_nearer_wall_it_stands_between() -> None:
    (line,) = across(BATH)
    assert (line.name, line.start) == ("floor deck, across bath from the west wall", "face of the west wall")
    # The line is 120 from the outside, 2x6 studs take 5-1/2, half a 2x4 is 1-3/4; 30' less both walls are in all.
    assert [mark.position_in for mark in line.marks] == pytest.approx([112.75, 116.25])
    assert line.length_in == pytest.approx(360 - 11)


def test_a_partition_that_ends_on_another_is_measured_between_the_walls_parallel_to_it() -> None:
    _, line = across(BATH, HALL)
    assert line.start == "face of the south wall"
    assert [mark.position_in for mark in line.marks] == pytest.approx([96 - 5.5 - 1.75, 96 - 5.5 + 1.75])


def test_a_partition_with_other_walls_beside_its_ends_is_told_at_each() -> None:
    store = {"name": "store", "from": ["5'", 0], "to": ["5'", "8'"]}
    names = [line.name for line in across(BATH, store) if "across bath" in line.name]
    assert names == [
        "floor deck, across bath from the store wall, south end",
        "floor deck, across bath from the west wall, north end",
    ]


def test_a_partition_askew_to_all_walls_has_no_tape_across_it() -> None:
    assert across({"name": "askew", "from": ["10'", 0], "to": ["14'", "20'"]}) == []


def test_backing_is_told_by_its_lower_and_upper_edges_over_the_floor() -> None:
    asked = [{"wall": "south", "height": '34"', "from": "4'", "to": "8'", "size": "2x8"}]
    (line,) = (line for line in built(gable(walls={"backing": asked})).lines if "backing" in line.name)
    assert line.name == "south wall, heights of backing"
    # A 2x8 is 7-1/4 deep, its middle asked for at 34.
    assert [(mark.position_in, mark.symbol) for mark in line.marks] == [(30.375, "_"), (37.625, "^")]
