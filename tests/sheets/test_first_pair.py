"""What is cut first: a pair where two alike meet, one with its fellow, or one alone."""

from __future__ import annotations

import pytest
from shop import built, gable

from takeoff.model.building import FramedBuilding
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.first_pair import LONGEST_FIRST, ONE_ALONE, ONE_FIRST, PAIR_FIRST, first_of_series, first_words
from takeoff.sheets.crew.jack_series import jack_series
from takeoff.sheets.crew.marked import by_mark
from takeoff.sheets.crew.rafter_sheet import rafter_sheet, sheet_marks

BALLOON = {side: {"frame": "balloon"} for side in ("east", "west")}


def first(building: FramedBuilding, role: str) -> list[str]:
    marks = by_mark((building,), lambda member: member.role.name == role)
    return [first_words(marked, (building,)) for marked in marks]


def test_rafters_that_meet_their_like_are_tried_as_a_pair() -> None:
    assert first(built(gable()), "common-rafter") == [PAIR_FIRST]


def test_rafters_of_unequal_slopes_are_tried_with_those_they_meet() -> None:
    saltbox = built(gable(walls={"by_side": {"north": {"height": "6'-1 1/8\""}, **BALLOON}}))
    words = first(saltbox, "common-rafter")
    assert sorted(words) == [
        f"Cut one, and one {other} that it meets, and try them as a pair before cutting the rest."
        for other in ("R1", "R2")
    ]


def test_a_shed_roofs_rafters_meet_nothing() -> None:
    hut = built(gable(roof={"shape": "shed", "low": "south", "ridge": None, "gables": None}))
    assert first(hut, "common-rafter") == [ONE_FIRST]


def test_a_valley_that_is_alone_has_no_pair(ell_takeoff: Takeoff) -> None:
    assert first(ell_takeoff.buildings[0], "valley") == [ONE_ALONE]


def test_jacks_of_both_hands_are_a_pair_and_those_of_one_are_not(hip_takeoff: Takeoff) -> None:
    series = jack_series(hip_takeoff.buildings)[0]
    assert first_of_series(series, [("4 J1", "4 J2")]) == PAIR_FIRST
    assert first_of_series(series, [("4 J1", "")]) == LONGEST_FIRST


@pytest.mark.parametrize("role", ["hip"])
def test_four_hips_alike_are_pairs(hip_takeoff: Takeoff, role: str) -> None:
    assert first(hip_takeoff.buildings[0], role) == [PAIR_FIRST]


def test_hips_that_differ_are_no_pair_though_they_meet(ell_takeoff: Takeoff) -> None:
    hips = by_mark(ell_takeoff.buildings, lambda member: member.role.name == "hip")
    alone = [marked for marked in hips if marked.count == 1]
    assert alone
    assert {first_words(marked, ell_takeoff.buildings) for marked in alone} == {ONE_ALONE}


def test_the_pattern_is_proved_by_its_diagonal(cabin_takeoff: Takeoff) -> None:
    # From the seat's corner to the ridge's face 120 - 2-3/4 = 117.25 level; up 8.367 + 117.25 * 2/3 = 86.534:
    # sqrt(117.25^2 + 86.534^2) = 145.73
    sheet = rafter_sheet(sheet_marks(cabin_takeoff)[0], cabin_takeoff, "")
    assert sheet.proof[-1].endswith("to the top of the ridge cut 12'-1 3/4\".")
