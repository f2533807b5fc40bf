"""What a tape reads on a dormer's sticks, hooked on their own ends. Worked by hand; common practice, no source.

A dormer 5'-0" wide and 4'-0" high on a slope of 12/12, its front 14" in from the wall; studs 2x6; plates 2x6 on 5/8"
sheathing, so that their tops are 2-1/8" square over the main rafters.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from math import sqrt

import pytest
from shop import built, gable

from takeoff.model.building import FramedBuilding
from takeoff.model.layout import LayoutLine

LAYER_IN = 5 / 8 + 1.5
REACH_IN = 48 - LAYER_IN * sqrt(2)
"""Level, from the front to where the plates' tops run into the soles' plane: 4'-0" less its plumb height, at 12/12."""


@cache
def house() -> FramedBuilding:
    dormer = {
        "side": "south",
        "shape": "gable",
        "center": "10'",
        "width": "5'",
        "front": 14,
        "height": "4'",
        "pitch": "10/12",
        "rafters": {"size": "2x6"},
        "overhang": {"eave": 6},
        "windows": [{"size": "2620"}],
    }
    return built(
        gable(roof={"pitch": "12/12", "overhang": {"eave": 12}, "fascia": {"size": "2x6"}, "dormers": [dormer]})
    )


def line(name: str) -> LayoutLine:
    (found,) = (one for one in house().lines if one.name == name)
    return found


def positions(name: str, symbol: str) -> list[float]:
    return [mark.position_in for mark in line(name).marks if mark.symbol == symbol]


@pytest.mark.parametrize("cheek", ["left", "right"])
def test_a_cheeks_sole_is_pulled_along_the_slope_from_the_front(cheek: str) -> None:
    """Studs 16 in apart on the level are 16 times root 2 apart on a slope of 12/12, the first at 3/4 in."""
    sole = line(f"south dormer {cheek} cheek sole, up the slope along its outer edge")
    assert sole.start == "lower end, at the front"
    found = positions(sole.name, "X")
    assert found == pytest.approx([at * sqrt(2) for at in (0.75, 16, 32)])
    # It ends on the valley plate, a little before the wall's plates run into its plane.
    assert sole.length_in < REACH_IN * sqrt(2)
    assert all(at < sole.length_in for at in found)


@pytest.mark.parametrize("cheek", ["left", "right"])
def test_a_cheeks_plates_are_pulled_level_from_the_front_and_end_on_the_slope(cheek: str) -> None:
    top = line(f"south dormer {cheek} cheek top plate")
    assert top.start == "front end"
    assert positions(top.name, "X") == pytest.approx([0.75, 16, 32])
    # The top plate's upper face is 1-1/2 lower than the cap's: that much shorter at 12/12.
    assert top.length_in == pytest.approx(REACH_IN - 1.5)
    cap = line(f"south dormer {cheek} cheek wall, top of cap plate")
    assert cap.start == "south dormer front end"
    assert cap.length_in == pytest.approx(REACH_IN)
    assert all(mark.position_in < cap.length_in for mark in cap.marks)


def test_soles_and_valley_plates_start_where_the_tape_says() -> None:
    name = "south dormer soles and valley plates on the main sheathing"
    up = line(f"{name}, up the slope")
    assert up.start == "lower edge of the main sheathing"
    # The sheathing starts 1-1/2 before the tails, 12 + 1.5 level before the wall; the soles' upper edge outside stands
    # plumb over the front's outside, 14 in, which square to a slope of 12/12 is 2-1/8 further up.
    low = (12 + 1.5 + 14) * sqrt(2) + LAYER_IN
    assert [m.position_in for m in up.marks if m.symbol == "["] == pytest.approx([low])
    assert low + 5.5 in [pytest.approx(m.position_in) for m in up.marks]
    along = line(f"{name}, along the eave")
    assert along.start == "west end of the south wall"
    assert [m.position_in for m in along.marks if m.symbol in "[]"] == [90, 150]


def test_jacks_stand_on_valley_plates_where_the_tape_says() -> None:
    for cheek in ("left", "right"):
        plate = line(f"valley plate under the south dormer {cheek} cheek slope")
        assert plate.start.startswith("lower tip")
        jacks = positions(plate.name, "J")
        # Level along the ridge, jacks are 16 apart; the valley of 12/12 and 10/12 goes 1 that way and 12/10 across,
        # rising 1: 1.8547 along it for one inch.
        steps = [b - a for a, b in pairwise(jacks)]
        assert steps == pytest.approx([16 * sqrt(1 + 1.2**2 + 1)] * len(steps))
        assert len(jacks) >= 2
        assert 0 < jacks[0] < jacks[-1] < plate.length_in
