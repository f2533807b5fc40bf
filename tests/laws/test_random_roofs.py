"""Two hundred random roofs of every kind, the same on every run, built as solids and audited.

No stick stands in another, each rafter ends on wood, each seat is carried, each top edge lies in its slope.

``TAKEOFF_RANDOM_ROOFS=100`` asks so many of each kind instead.
"""

from __future__ import annotations

import os
from typing import Any

import pytest
from hypothesis import Phase, assume, given, seed, settings
from more_roofs import MANY

from takeoff.checks.audit import audit
from takeoff.findings import Place, PlanError, Severity
from takeoff.framing.frame import frame
from takeoff.model.building import FramedBuilding
from takeoff.plan.schema import Building
from takeoff.plan.verify import building_flaws

EACH = 20
"""Of ten kinds: 200 roofs."""


def framed(written: dict[str, Any]) -> FramedBuilding:
    """A plan framed; one that is refused in words is passed over, and another taken."""
    building = Building.model_validate(written)
    assume(all(flaw.severity is not Severity.ERROR for flaw in building_flaws(building)))
    try:
        return frame(building, lambda path: Place(path=path))[0]
    except PlanError:
        assume(False)
        raise


@pytest.mark.parametrize("kind", MANY)
def test_the_audit_finds_nothing_in_random_roofs(kind: str) -> None:
    roofs = int(os.environ.get("TAKEOFF_RANDOM_ROOFS", EACH))
    audited = 0

    @seed(1)
    @settings(max_examples=roofs, phases=[Phase.generate], derandomize=False)
    @given(MANY[kind])
    def asked(written: dict[str, Any]) -> None:
        nonlocal audited
        findings = audit(framed(written))
        assert [str(finding) for finding in findings if finding.severity is not Severity.NOTE] == []
        audited += 1

    asked()
    assert audited >= roofs
