"""200 random buildings, the same on every run, built stick by stick: walls, floors and roof together.

None of their sticks stands in another, and every upright stands on something and ends under something.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest
from any_buildings import Drawn, building_number
from standing import beyond, boxed, filled

from takeoff.checks.audit import overlaps
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member

BUILDINGS = 200
AT_ONCE = 20
"""Buildings of one test, so that they are spread over the cores."""

UPRIGHTS = ("stud", "king-stud", "jack-stud", "cripple", "corner-stud", "gable-stud", "post", "tee-stud", "ridge-post")
NEAR_IN = 24.0
"""What carries an upright is looked for among the sticks so near it [in]."""

BEYOND_IN = 1 / 16
"""So far beyond its end [in]: a stud cut square under a rafter meets it with one edge."""


@cache
def some(first: int) -> tuple[Drawn, ...]:
    return tuple(building_number(k) for k in range(first, first + AT_ONCE))


@pytest.mark.parametrize("first", range(0, BUILDINGS, AT_ONCE))
def test_no_stick_of_random_buildings_stands_in_another_and_every_upright_bears(first: int) -> None:
    drawn = some(first)
    assert [
        (first + k, a.role.name, a.face, b.role.name, b.face, shared.depth)
        for k, one in enumerate(drawn)
        for a, b, shared in overlaps(one.framed.members)
    ] == []
    assert [(first + k, *loose) for k, one in enumerate(drawn) for loose in unsupported(one.framed)] == []
    # Not all that is drawn was refused: two of openings, partitions, lofts and porches a building at least.
    assert sum(one.kept for one in drawn) >= 2 * AT_ONCE


def unsupported(frame: FramedBuilding) -> Iterator[tuple[str, str, int]]:
    """Uprights with nothing at one of their ends: 0 below, 1 above."""
    boxes = boxed(frame.members)
    for upright in frame.members:
        if upright.role.name not in UPRIGHTS:
            continue
        x, y, _ = upright.placement.origin
        near = [
            (other, (low, high))
            for other, (low, high) in boxes
            if other is not upright
            and low[0] - NEAR_IN <= x <= high[0] + NEAR_IN
            and low[1] - NEAR_IN <= y <= high[1] + NEAR_IN
        ]
        for end in (0, 1):
            if not (end and held(upright)) and not any(filled(near, spot) for spot in beyond(upright, end, BEYOND_IN)):
                yield upright.role.name, upright.face, end


def held(upright: Member) -> bool:
    """The flat stud behind a low partition ends with that, nailed to the studs beside it."""
    return upright.role.name == "tee-stud"
