"""Partitions whose top is stepped or raked, and plates up the rake of a balloon-framed gable."""

from __future__ import annotations

from math import hypot
from typing import Any

import pytest
from shop import built, gable, with_role

from takeoff.checks.audit import audit
from takeoff.findings import PlanError, Severity
from takeoff.plan.schema import Building


def parted(top: list[list[str]], **partition: Any) -> Building:
    line = {"name": "mid", "from": ["16'", 0], "to": ["16'", "16'"], "top": top, **partition}
    return gable(length="24'", span="16'", walls={"partitions": [line]})


def sound(building: Building) -> bool:
    return all(finding.severity is Severity.NOTE for finding in audit(built(building)))


def test_studs_of_a_raked_partition_end_under_two_plates_square_to_its_slope() -> None:
    building = parted([["0", "6'"], ["8'", "9'"], ["16'", "6'"]])
    studs = [m for m in built(building).members if m.face == "mid" and m.role.name == "gable-stud"]
    slope = 36 / 96
    for stud in studs:
        along = stud.placement.origin[1]
        if along < 90:  # on the left slope, clear of the peak
            top = 72 + slope * along - 2 * 1.5 * hypot(1, slope) + slope * 0.75  # its long point
            assert stud.placement.origin[2] + stud.length_in == pytest.approx(top)
    assert sound(building)


def test_raked_plates_are_cut_plumb_at_the_slope() -> None:
    building = parted([["0", "6'"], ["8'", "9'"], ["16'", "6'"]])
    plates = with_role(built(building).members, "rake-plate")
    assert len(plates) == 4
    assert {round(abs(cut.bevel_deg), 2) for plate in plates for cut in plate.cuts} == {20.56}  # atan(4.5/12)


def test_at_a_step_plates_end_and_a_stud_stands_at_each_side() -> None:
    building = parted([["0", "4'"], ["6'", "4'"], ["6'", "7'"], ["16'", "7'"]])
    mid = [m for m in built(building).members if m.face == "mid"]
    middles = {round(m.placement.origin[1], 3) for m in with_role(mid, "stud")}
    tops = sorted(round(p.placement.origin[2] + 0.75, 3) for p in with_role(mid, "cap-plate"))
    assert tops == [48.0, 84.0]
    lengths = {round(m.length_in, 3) for m in with_role(mid, "stud")}
    assert lengths == {48 - 4.5, 84 - 4.5}
    assert {72 - 0.75, 72 + 0.75} <= middles
    assert sound(building)


def test_a_raked_top_that_reaches_the_roof_is_refused() -> None:
    with pytest.raises(PlanError, match=r"reaches .* into the roof"):
        built(parted([["0", "8'"], ["8'", "14'"], ["16'", "8'"]]))


def test_a_rake_plate_shortens_the_studs_of_a_balloon_gable_by_its_plumb_depth() -> None:
    plain = gable(walls={"by_side": {"east": {"frame": "balloon"}}})
    plated = gable(walls={"by_side": {"east": {"frame": "balloon", "rake_plates": True}}})
    before, after = (
        {
            round(m.placement.origin[1], 3): m.length_in
            for m in with_role(built(b).members, "gable-stud")
            if m.face == "east"
        }
        for b in (plain, plated)
    )
    plumb = 1.5 * hypot(12, 8) / 12
    same = [u for u in before if u in after]
    assert len(same) > 6
    assert all(before[u] - after[u] == pytest.approx(plumb) for u in same)
    assert len(with_role(built(plated).members, "rake-plate")) == 2
    assert sound(plated)
