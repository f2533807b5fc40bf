"""Tapes on plates and ridges: a gable's cap plate has its own, hips and valleys are marked, plates match ridges."""

from __future__ import annotations

from math import dist

import pytest
from shop import built, gable, roofed

from takeoff.model.building import FramedBuilding
from takeoff.model.layout import LayoutLine

ELL = [(0, 0), (360, 0), (360, 192), (168, 192), (168, 384), (0, 384)]


def line(building: FramedBuilding, name: str) -> LayoutLine:
    return next(line for line in building.lines if line.name == name)


def platform() -> FramedBuilding:
    openings = [{"side": "west", "center": "4'", "size": "3068", "kind": "door"}]
    return built(gable(walls={"openings": openings}))


def test_studs_of_a_platform_gable_are_on_the_tape_of_its_cap_plate_alone() -> None:
    hut = platform()
    low, high = line(hut, "east wall plates"), line(hut, "east wall, gable on the cap plate")
    assert "G" not in {mark.symbol for mark in low.marks}
    assert {mark.symbol for mark in high.marks} <= {"G", "P"}
    studs = [m for m in hut.members if m.face == "east" and m.role.name == "gable-stud"]
    assert sum(mark.symbol == "G" for mark in high.marks) == len(studs)


def test_the_cap_plates_tape_runs_from_the_end_of_the_cap_plate() -> None:
    hut = platform()
    low, high = line(hut, "east wall plates"), line(hut, "east wall, gable on the cap plate")
    assert high.length_in - low.length_in == pytest.approx(2 * 5.5)  # it laps both walls it butts against
    # The layout is the same: a gable stud 16" from the cap plate's end is over the stud 10-1/2" from the bottom one's.
    assert {round(m.position_in - 5.5, 3) for m in high.marks if m.position_in == 16} <= {
        round(m.position_in, 3) for m in low.marks
    }


def test_no_tape_marks_a_member_twice() -> None:
    for tape in platform().lines:
        marks = [(mark.position_in, mark.symbol, mark.what) for mark in tape.marks]
        assert len(marks) == len(set(marks))


def test_over_a_cap_plate_nothing_is_called_a_king_stud() -> None:
    hut = platform()
    plate = max(m.placement.origin[2] for m in hut.members if m.role.name == "cap-plate")
    kings = [m for m in hut.members if m.role.name == "king-stud"]
    assert kings
    assert all(m.placement.origin[2] < plate for m in kings)


def test_a_balloon_gable_has_one_tape() -> None:
    hut = built(gable(walls={"by_side": {side: {"frame": "balloon"} for side in ("east", "west")}}))
    assert not [line for line in hut.lines if "gable on the cap plate" in line.name]


def test_hips_are_marked_at_the_corners_of_the_plates() -> None:
    hut = built(roofed([(0, 0), (288, 0), (288, 192), (0, 192)]))
    for tape in (each for each in hut.lines if each.name.endswith("top of cap plate")):
        ends = [mark.position_in for mark in tape.marks if mark.symbol == "H"]
        assert ends == pytest.approx([0.0, tape.length_in])


def test_hips_are_marked_at_both_ends_of_the_ridge() -> None:
    hut = built(roofed([(0, 0), (288, 0), (288, 192), (0, 192)]))
    (ridge,) = (each for each in hut.lines if each.name.startswith("ridge"))
    assert [mark.position_in for mark in ridge.marks if mark.symbol == "H"] == pytest.approx([0.0, ridge.length_in])


def test_a_valley_is_marked_in_the_inner_corner_of_both_plates_and_on_a_ridge() -> None:
    hut = built(roofed(ELL, valleys={"size": "2x10"}, hips={"size": "2x10"}))
    # Sides 3 and 4 meet in the inner corner: their plates run from the far ends to it.
    for name, at in (("side 3 wall, top of cap plate", 192.0), ("side 4 wall, top of cap plate", 192.0)):
        tape = line(hut, name)
        spots = [mark.position_in for mark in tape.marks if mark.symbol == "V"]
        assert [min(spot, abs(tape.length_in - spot)) for spot in spots] == pytest.approx([0.0], abs=1e-3)
        assert tape.length_in == pytest.approx(at)
    ridges = [each for each in hut.lines if each.name.startswith("ridge")]
    assert any(mark.symbol == "V" for each in ridges for mark in each.marks)


@pytest.mark.parametrize("side", ["south", "north"])
def test_a_rafters_mark_on_the_plate_is_square_across_from_its_mark_on_the_ridge(side: str) -> None:
    hut = built(gable())
    plate, ridge = line(hut, f"{side} wall, top of cap plate"), line(hut, "ridge, both faces")
    assert plate.tape is not None
    assert ridge.tape is not None
    for low, high in zip(plate.marks, ridge.marks, strict=True):
        a, b = plate.tape.at(low.position_in), ridge.tape.at(high.position_in)
        # The ridge runs east, so that a pair's marks have one x; and half the span lies between them, less 1/2".
        assert a[0] == pytest.approx(b[0])
        assert dist(a[:2], b[:2]) == pytest.approx(119.5)
