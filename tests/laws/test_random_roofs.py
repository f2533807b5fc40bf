"""Random roofs, the same on every run, built stick by stick as solids: none stands in another.

A run asks ``FEW`` roofs of each family; ``TAKEOFF_RANDOM_ROOFS=67`` asks so many of each, 201 in all (about 40 s).
"""

from __future__ import annotations

import os

import pytest
from any_roofs import FAMILIES
from hypothesis import Phase, given, seed, settings

from takeoff.checks.audit import overlaps
from takeoff.findings import Place
from takeoff.framing.frame import frame
from takeoff.plan.schema import Building

FEW = 8


@pytest.mark.parametrize("family", FAMILIES)
def test_no_two_sticks_of_random_roofs_stand_in_each_other(family: str) -> None:
    roofs = int(os.environ.get("TAKEOFF_RANDOM_ROOFS", FEW))

    @seed(1)
    @settings(max_examples=roofs, phases=[Phase.generate], derandomize=False)
    @given(FAMILIES[family])
    def audited(building: Building) -> None:
        members = frame(building, lambda path: Place(path=path))[0].members
        assert [(a.role.name, b.role.name, shared.depth) for a, b, shared in overlaps(members)] == []

    audited()
