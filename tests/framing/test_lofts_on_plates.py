"""Lofts whose joists lie on the plates of walls and partitions: where they stand, what they bear on, what is told."""

from __future__ import annotations

from typing import Any

import pytest
from shop import built, gable, with_role

from takeoff.checks.audit import audit
from takeoff.findings import Place, PlanError, Severity
from takeoff.framing.frame import frame
from takeoff.model.building import FramedBuilding
from takeoff.plan.schema import Building

HALF = 0.75


def on_plates(height: str = "8'-9 1/16\"", **walls: Any) -> Building:
    """A loft over the west third, 2x8 joists from wall to wall with a partition under their middle."""
    bath = {"name": "bath", "from": [0, "10'"], "to": ["10'", "10'"], "bearing": True}
    loft = {
        "side": "west",
        "depth": "10'",
        "height": height,
        "walls": "plates",
        "joists": {"size": "2x8", "span": "north-south"},
    }
    frames = {side: {"frame": "balloon"} for side in ("east", "west")}
    return gable(walls={"partitions": [bath], "by_side": frames, **walls}, floors={"lofts": [loft]})


def told(building: Building, rule: str) -> list[str]:
    _, findings = frame(building, lambda path: Place("loft.yaml", 1, 1, path))
    return [found.message for found in findings if found.rule == rule]


@pytest.fixture(scope="module")
def house() -> FramedBuilding:
    return built(on_plates())


def test_no_joist_on_plates_stands_in_a_rafter_a_block_or_a_stud(house: FramedBuilding) -> None:
    warnings = [found.message for found in audit(house) if found.severity is Severity.WARNING]
    assert not [message for message in warnings if "(loft)" in message]


def test_each_joist_bears_on_the_plates_of_its_wall_and_of_the_partition(house: FramedBuilding) -> None:
    joists = {k for k, member in enumerate(house.members) if member.role.name == "floor-joist"}
    on: dict[int, set[str]] = {k: set() for k in joists}
    for joint in house.joints:
        if joint.upper in joists and joint.kind == "bears":
            on[joint.upper].add(house.members[joint.lower].face)
            assert joint.bearing_in >= 1.5
    assert on
    assert all("bath" in faces and faces & {"south", "north"} for faces in on.values())


def test_joists_as_far_apart_as_the_rafters_lie_against_them(house: FramedBuilding) -> None:
    joists = {round(j.placement.origin[0], 3) for j in with_role(house.members, "floor-joist")}
    rafters = {round(r.placement.origin[0], 3) for r in with_role(house.members, "common-rafter")}
    beside = [x for x in joists if {round(x - 2 * HALF, 3), round(x + 2 * HALF, 3)} & rafters]
    assert len(beside) == len(joists) > 3


def test_a_height_whose_joists_miss_the_plates_is_refused_with_the_one_that_fits() -> None:
    with pytest.raises(PlanError, match=r"north wall.*2\" (over|under) them; write height"):
        built(on_plates("8'-11 1/16\""))


def test_heights_of_the_loft_are_pulled_up_from_the_floor(house: FramedBuilding) -> None:
    line = next(line for line in house.lines if line.name == "loft, heights")
    marks = {mark.what: mark.position_in for mark in line.marks}
    # the walls are 8'-1 1/8" high, a 2x8 is 7-1/4" deep
    assert marks["bottom of joists"] == pytest.approx(97.125)
    assert marks["top of joists"] == pytest.approx(97.125 + 7.25)


def test_headroom_under_and_over_a_loft_is_told() -> None:
    (message,) = told(on_plates(), "frame.loft-headroom")
    assert "8'-1 1/8\" under the joists" in message
    assert "over the deck" in message
