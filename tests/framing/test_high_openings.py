"""Openings high in a balloon-framed gable: framed like any other, kings running on to the rake; refused over it."""

from __future__ import annotations

from typing import Any

import pytest
from measured import world_box
from shop import built, gable, with_role

from takeoff.checks.audit import overlaps
from takeoff.findings import PlanError
from takeoff.plan.schema import Building

BALLOON = {"west": {"frame": "balloon"}, "east": {"frame": "balloon"}}


def hut(*openings: dict[str, Any], **roof: Any) -> Building:
    return gable(
        span="24'", walls={"by_side": BALLOON, "openings": [{"side": "east", **o} for o in openings]}, roof=roof
    )


@pytest.mark.parametrize("size", [2020, 3020, 4030])
@pytest.mark.parametrize("center", ["8'", "15'-6\""])
def test_a_window_over_the_plates_stands_clear_of_every_stick_and_its_kings_run_to_the_rake(size, center):
    frame = built(hut({"center": center, "size": size, "head": "11'"}))
    assert list(overlaps(frame.members)) == []
    headers = [m for m in with_role(frame.members, "header") if m.face == "east"]
    assert {world_box(m)[0][2] for m in headers} == {132.0}
    kings = [m for m in with_role(frame.members, "king-stud") if m.face == "east"]
    assert len(kings) == 2
    assert all(world_box(m)[1][2] > 132 + 5.5 for m in kings)
    assert all(m.cuts[1].bevel_deg for m in kings)


def test_a_window_right_under_the_ridge_carries_the_post_on_its_header():
    frame = built(hut({"center": "12'", "size": 4030, "head": "12'"}))
    assert list(overlaps(frame.members)) == []
    above = [m for m in with_role(frame.members, "post") if m.face == "east" and world_box(m)[0][2] > 144]
    assert len(above) == 4


def test_a_window_whose_header_rises_over_the_rake_is_refused_by_how_much():
    # 2'-0" and 1/2" about 3'-0": left side 23-3/4, jack and king 20-3/4. Rafters of 2x10 at 8/12, a seat of 4-1/8.
    with pytest.raises(PlanError) as refused:
        built(hut({"center": "3'", "size": 2020, "head": "11'"}))
    (finding,) = refused.value.findings
    assert finding.place.path == "walls.openings[0]"
    assert "2020 window" in finding.message
    assert "above the rake of the east gable" in finding.message


def test_moved_down_by_what_the_finding_says_it_is_framed():
    from takeoff.measure import parse_length

    with pytest.raises(PlanError) as refused:
        built(hut({"center": "3'", "size": 2020, "head": "11'"}))
    lower = refused.value.findings[0].message.split(" rise ")[1].split(" above ")[0]
    frame = built(hut({"center": "3'", "size": 2020, "head": 132 - parse_length(lower) - 1 / 16}))
    assert list(overlaps(frame.members)) == []
