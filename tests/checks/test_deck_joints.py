"""End joints of a deck: those that miss the joists are told by sheet and place, with the scabs they want."""

from __future__ import annotations

from typing import Any

import pytest
from shop import built, gable

from takeoff.checks.deck_joints import deck_joints
from takeoff.plan.schema import Building

GIRDER = {"from": [0, "10'"], "to": ["30'", "10'"], "size": "3-2x10"}


def floored(**floor: Any) -> Building:
    return gable(walls={"height": "9'"}, floors={"main": {"joists": {"size": "2x10"}, "girders": [GIRDER], **floor}})


def test_lapped_joists_leave_the_end_joints_beyond_the_girder_bare_from_their_laps_on() -> None:
    plan = floored(splice="lap")
    hut = built(plan)
    (found,) = deck_joints(hut, plan)
    # Joists of the first bay end 2-1/4 past the girder's middle at 10': from there to the edge of the course at 12'.
    assert "at 8'-0\" from 10'-2 1/4\" to 12'-0\"" in found.message
    assert "scab of 2x10" in found.message
    assert "splice: butt" in found.message


@pytest.mark.parametrize(
    "floor",
    [{}, {"splice": "none", "joists": {"size": "i-joist-11-7/8"}}, {"girders": [{**GIRDER, "joists": "hang"}]}],
    ids=["butted", "running on", "hung"],
)
def test_joists_in_line_from_side_to_side_carry_every_end_joint(floor: dict[str, Any]) -> None:
    plan = floored(**floor)
    assert [*deck_joints(built(plan), plan)] == []


def test_scabs_add_up_to_what_is_told() -> None:
    plan = floored(splice="lap")
    (found,) = deck_joints(built(plan), plan)
    # Three of 21-3/4 in the course over the girder, four of 48 in the next, three of 46-1/2 up to the rim: 396-3/4.
    assert "33'-0 3/4\" in all" in found.message
    assert "and 4 more" in found.message
