"""Two hundred random roofs of every kind, the same on every run, built as solids: no stick stands in another.

``TAKEOFF_RANDOM_ROOFS=100`` asks so many of each kind instead.
"""

from __future__ import annotations

import os
from typing import Any

import pytest
from hypothesis import Phase, assume, given, seed, settings
from more_roofs import MANY

from takeoff.checks.audit import overlaps
from takeoff.findings import Place, PlanError, Severity
from takeoff.framing.frame import frame
from takeoff.model.member import Member
from takeoff.plan.schema import Building
from takeoff.plan.verify import building_flaws

EACH = 23
"""Of nine kinds: 207 roofs."""


def sticks(written: dict[str, Any]) -> tuple[Member, ...]:
    """Of a plan; one that is refused in words is passed over, and another taken."""
    building = Building.model_validate(written)
    assume(all(flaw.severity is not Severity.ERROR for flaw in building_flaws(building)))
    try:
        return frame(building, lambda path: Place(path=path))[0].members
    except PlanError:
        assume(False)
        raise


@pytest.mark.parametrize("kind", MANY)
def test_no_two_sticks_of_random_roofs_stand_in_each_other(kind: str) -> None:
    roofs = int(os.environ.get("TAKEOFF_RANDOM_ROOFS", EACH))
    audited = 0

    @seed(1)
    @settings(max_examples=roofs, phases=[Phase.generate], derandomize=False)
    @given(MANY[kind])
    def asked(written: dict[str, Any]) -> None:
        nonlocal audited
        members = sticks(written)
        assert [(a.role.name, b.role.name, shared.depth) for a, b, shared in overlaps(members)] == []
        audited += 1

    asked()
    assert audited >= roofs
