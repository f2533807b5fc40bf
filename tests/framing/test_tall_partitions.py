"""Partitions taller than ten feet have rows of fire blocks, lower ones none."""

from __future__ import annotations

import pytest
from measured import world_box
from shop import built, gable, with_role

from takeoff.checks.audit import audit
from takeoff.findings import Severity
from takeoff.model.building import FramedBuilding


def parted(*top: list[str]) -> FramedBuilding:
    bath = {"name": "bath", "from": ["10'", 0], "to": ["10'", "20'"], "top": [list(corner) for corner in top]}
    return built(gable(walls={"height": "9'", "partitions": [bath]}))


def test_a_raked_partition_taller_than_ten_feet_is_blocked_at_eight_where_both_studs_pass() -> None:
    hut = parted(["0", "8'"], ["10'", "12'"], ["20'", "8'"])
    blocks = [world_box(m) for m in with_role(hut.members, "fire-block") if m.face == "bath"]
    assert blocks
    # Middle of the row at 96, the block 1-1/2 thick; the studs reach there inside of the low ends only.
    assert {(low[2], high[2]) for low, high in blocks} == {(95.25, 96.75)}
    assert min(low[1] for low, _ in blocks) > 12
    assert [found.severity for found in audit(hut)] == [Severity.NOTE]


@pytest.mark.parametrize("peak", ["9'-6\"", "10'"])
def test_a_partition_no_taller_than_ten_feet_has_no_row(peak: str) -> None:
    hut = parted(["0", "8'"], ["10'", peak], ["20'", "8'"])
    assert [m for m in with_role(hut.members, "fire-block") if m.face == "bath"] == []
