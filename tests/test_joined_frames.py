"""Frames whose plates were joined for the cheapest boards: joints still tell of sticks that meet, none is lost."""

from __future__ import annotations

from collections import Counter

import pytest
from shop import SAMPLES

from takeoff.checks.audit import solid
from takeoff.model.building import FramedBuilding
from takeoff.pipeline import take_off

PLANS = ("dunlin-studio", "dipper-bunkhouse", "sanderling-saltbox")


@pytest.fixture(scope="module", params=PLANS)
def building(request: pytest.FixtureRequest) -> FramedBuilding:
    return take_off(SAMPLES / f"{request.param}.yaml").buildings[0]


def test_every_joint_is_of_two_sticks_that_touch(building: FramedBuilding) -> None:
    boxes = [solid(member).bounds for member in building.members]
    for joint in building.joints:
        (a0, a1), (b0, b1) = boxes[joint.upper], boxes[joint.lower]
        assert all(a0[k] - b1[k] < 1 / 16 and b0[k] - a1[k] < 1 / 16 for k in range(3)), joint


def test_every_rafter_and_joist_still_bears_or_hangs(building: FramedBuilding) -> None:
    held = Counter(joint.upper for joint in building.joints if joint.kind in ("bears", "hangs"))
    roles = ("common-rafter", "floor-joist", "tail-joist")
    loose = [m.name for k, m in enumerate(building.members) if m.role.name in roles and held[k] < 2]
    assert loose == []
