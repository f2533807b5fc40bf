"""What is lifted: a built-up beam ply by ply or whole."""

from __future__ import annotations

from dataclasses import replace

import pytest
from shop import built, gable

from takeoff.model.takeoff import Takeoff
from takeoff.order.weights import member_weight_lb
from takeoff.sheets.crew.lifting import lifts, wholes

GIRDER = {"from": [0, "10'"], "to": ["30'", "10'"], "size": "3-2x10", "posts": ["10'", "20'"]}


@pytest.fixture
def floored(hand_takeoff: Takeoff) -> Takeoff:
    hut = built(gable(floors={"main": {"joists": {"size": "2x10"}, "girders": [GIRDER]}}))
    return replace(hand_takeoff, buildings=(hut,))


def test_a_built_up_girder_is_weighed_by_the_ply_and_as_a_whole(floored: Takeoff) -> None:
    plies = [m for b in floored.buildings for m in b.members if m.role.name == "girder"]
    weights = [member_weight_lb(ply, floored.settings.species) for ply in plies]
    (whole,) = wholes(floored)
    assert whole.words == "girder"
    assert whole.weight == f"{sum(weights):,.0f} lb"
    assert whole.heaviest == f"{max(weights):,.0f} lb"
    assert sum(int(part.split()[0]) for part in whole.plies.split(", ")) == len(plies)


def test_its_sticks_are_called_plies_and_a_beam_of_one_is_not(floored: Takeoff) -> None:
    words = {row.words for row in lifts(floored)}
    assert words == {"structural ridge beam", "girder ply"}


def test_a_beam_of_one_stick_is_not_built_up(cabin_takeoff: Takeoff) -> None:
    assert wholes(cabin_takeoff) == ()
    assert [(row.mark, row.weight) for row in lifts(cabin_takeoff)] == [("RB1", "561 lb")]
