"""Which walls of a hip roof run through: those with which the plates cost less, unless the plan says so."""

from __future__ import annotations

import pytest
from shop import gable, roofed, with_role

from takeoff.catalog.price_reader import builtin_prices
from takeoff.checks.audit import overlaps
from takeoff.cutting.corners import framed_at_corners
from takeoff.findings import Finding, Place
from takeoff.model.building import FramedBuilding
from takeoff.plan.schema import Building

KERF_IN = 1 / 8


def chosen(building: Building) -> tuple[FramedBuilding, list[Finding]]:
    _, (framed, found) = framed_at_corners(building, lambda path: Place(path=path), builtin_prices(), KERF_IN)
    return framed, [finding for finding in found if finding.rule == "frame.through"]


def hip(length: float, width: float, through: tuple[str, ...] = ()) -> Building:
    ring = [(0, 0), (length, 0), (length, width), (0, width)]
    return roofed(ring, walls={"through": list(through)})


def long_plates(framed: FramedBuilding) -> dict[str, float]:
    found: dict[str, float] = {}
    for plate in with_role(framed.members, "bottom-plate"):
        found[plate.face] = found.get(plate.face, 0.0) + plate.length_in
    return found


def test_the_short_walls_run_through_where_that_saves_a_board() -> None:
    """24' x 16': the short walls' plates are 16' boards whole, or 15'-1"; the long ones' 24', or 23'-1"."""
    framed, told = chosen(hip(288, 192))
    assert long_plates(framed)["side 2"] == pytest.approx(192)
    assert long_plates(framed)["side 1"] == pytest.approx(288 - 2 * 5.5)
    assert "side 2 and side 4 run through at the corners, which saves about $" in told[0].message
    assert not list(overlaps(framed.members))


def test_the_usual_way_is_kept_where_the_other_saves_nothing() -> None:
    framed, told = chosen(hip(240, 168))
    assert long_plates(framed)["side 1"] == pytest.approx(240)
    assert not told


def test_what_the_plan_says_and_walls_beside_gables_are_left_as_they_are() -> None:
    framed, told = chosen(hip(288, 192, through=("side 1", "side 3")))
    assert long_plates(framed)["side 1"] == pytest.approx(288)
    assert not told
    assert not chosen(gable(length="24'", span="16'"))[1]
