"""Tail joists too short to nail are told; those left out, or long enough, aren't."""

from __future__ import annotations

import pytest
from shop import built, gable

from takeoff.checks.floors import short_tails


@pytest.mark.parametrize(
    ("from_wall", "told"),
    # A rim and a header take 1-1/2 each: 7 leaves tails of 4, and 9 of 6.
    [('7"', ['4"']), ('9"', []), ("4'", [])],
)
def test_tails_shorter_than_half_a_foot_are_told(from_wall: str, told: list[str]) -> None:
    hatch = {"corner": ["8'", from_wall], "size": ["4'", "4'"], "plies": 1}
    floor = {"joists": {"size": "2x10", "span": "north-south"}, "openings": [hatch]}
    plan = gable(walls={"height": "9'"}, floors={"main": floor})
    found = [*short_tails(built(plan), plan)]
    assert [each.found for each in found] == told
    assert all("widen the opening" in each.message for each in found)
