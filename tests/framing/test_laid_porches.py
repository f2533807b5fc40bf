"""Porch roofs that run on over the main eave and are laid on the main slope."""

from __future__ import annotations

import itertools
from math import hypot
from typing import Any

import pytest
from shop import built, gable, with_role

from takeoff.checks.audit import overlaps
from takeoff.findings import Place, PlanError
from takeoff.framing.frame import frame
from takeoff.plan.schema import Building

SHED = {
    "side": "south",
    "center": "13'",
    "width": "12'",
    "depth": "8'",
    "shape": "shed",
    "meets": "roof",
    "pitch": "2/12",
    "beam_height": "8'",
    "rafters": {"size": "2x8"},
    "overhang": {"eave": '10"', "rake": '8"'},
    "beam": {"size": "3-2x8"},
    "posts": {"size": "6x6"},
}
GABLE = {
    **SHED,
    "shape": "gable",
    "pitch": "6/12",
    "beam_height": "7'-9\"",
    "ridge": {"kind": "board", "size": "2x10"},
}
MAIN = 9 / 12


def house(porch: dict[str, Any], **roof: Any) -> Building:
    """A steep house with a porch on its south side."""
    trim = {"overhang": {"eave": '14"', "rake": '10"'}, "fascia": {"size": "2x6"}, "barge": {"size": "2x8"}}
    return gable(
        length="26'",
        roof={**trim, "pitch": "9/12", "tail": {"size": "2x6"}, "outlookers": {}, "porches": [porch], **roof},
    )


def refusal(porch: dict[str, Any], **roof: Any) -> str:
    """What is said of a house that can't be framed."""
    with pytest.raises(PlanError) as caught:
        frame(house(porch, **roof), lambda path: Place(path=path))
    (finding,) = caught.value.findings
    return finding.message


def test_rafters_of_a_laid_porch_end_where_the_two_roofs_cross() -> None:
    made = built(house(SHED))
    main = next(m for m in with_role(made.members, "common-rafter") if m.face == "south slope")
    own = next(m for m in with_role(made.members, "common-rafter") if m.face == "south porch front slope")
    assert main.rafter is not None
    # By hand, both over the outside of the wall: tops of the sleepers, and tops of the porch's rafters.
    sleepers = 97.125 + main.rafter.height_above_plate + (5 / 8 + 1.5) * hypot(1, MAIN)
    tops = 96 + 7.25 * hypot(1, 2 / 12) - 4.5 * 2 / 12 + 96 * 2 / 12
    inward = (tops - sleepers) / (MAIN - 2 / 12)
    tip = own.placement.to_world((own.length_in + own.side.bounds[0], own.profile.depth_in, 0.0))
    assert tip[1] == pytest.approx(inward, abs=1e-6)
    assert tip[2] == pytest.approx(sleepers + inward * MAIN, abs=1e-6)


@pytest.mark.parametrize("porch", [SHED, {**SHED, "pitch": "4/12"}, GABLE, {**GABLE, "pitch": "9/12"}])
def test_the_sticks_of_a_laid_porch_leave_each_other_room_and_lie_on_sleepers(porch: dict[str, Any]) -> None:
    made = built(house(porch))
    assert list(overlaps(made.members)) == []
    flat = with_role(made.members, "sleeper")
    assert {round(m.placement.z[2], 6) ** 2 for m in flat} == {round(1 / hypot(1, MAIN), 6) ** 2}


def test_every_seat_of_a_laid_gable_has_a_side_beam_under_it() -> None:
    made = built(house(GABLE))
    bearing = {joint.upper for joint in made.joints if made.members[joint.lower].role.name == "porch-beam"}
    seated = {
        index
        for index, m in enumerate(made.members)
        if m.face.startswith("south porch") and m.rafter is not None and m.rafter.stands_on_plate
    }
    assert seated
    assert seated <= bearing


def test_a_porch_that_hits_the_main_eave_says_where_and_by_how_much() -> None:
    said = refusal({**SHED, "beam_height": "6'-9\""})
    assert "over the main eave, 1'-3 1/2\" out from the wall" in said
    assert "raise beam_height" in said


def test_a_porch_as_steep_as_the_main_slope_never_meets_it() -> None:
    assert "never meets the main slope of 9/12" in refusal({**SHED, "pitch": "9/12"})


def test_a_porch_over_the_main_ridge_or_a_skylight_is_refused() -> None:
    skylight = {"side": "south", "center": "13'", "from_wall": '10"', "width": "2'", "height": "2'"}
    assert "past the main slope" in refusal({**SHED, "beam_height": "13'"})
    assert "an opening in it" in refusal(SHED, skylights=[skylight])


def test_a_laid_porch_needs_a_slope_on_its_side() -> None:
    assert "no slope of the main roof starts on the east side" in refusal({**SHED, "side": "east", "center": "10'"})


def test_side_beams_that_end_before_the_roofs_meet_are_told() -> None:
    assert "past the end of the side beams" in refusal({**GABLE, "beam_height": "8'-4\""})


@pytest.mark.parametrize("porch", [SHED, GABLE])
def test_of_an_open_laid_porch_only_what_shows_from_below_is_of_the_exposed_grade(porch: dict[str, Any]) -> None:
    made = built(house({**porch, "ceiling": "open"}, sheathing={"field": "cdx-5/8", "exposed": "sanded-5/8"}))
    faces = {f.name: f for f in made.faces if f.kind == "slope" and f.part}
    fascia_in = 14 + 1.5  # the main eave, out from the south wall, which is y = 0
    hidden = 0
    for panel in (p for p in made.panels if p.face in faces):
        at = faces[panel.face].placement
        corners = [at.to_world((x, y, 0.0)) for x, y in panel.polygon.exterior.coords]
        before = min(y for _, y, _ in corners) < -fascia_in - 1e-6
        assert panel.zone == "exposed" or not before
        hidden += panel.zone == "field"
    assert hidden


def test_sleepers_longer_than_stock_are_joined_over_the_main_rafters() -> None:
    made = built(house({**SHED, "width": "24'"}, rafters={"size": "2x10", "grade": "no2"}))
    over = {round(m.placement.origin[0], 4) for m in made.members if m.face == "south slope" and m.rafter}
    pieces = sorted(
        m.placement.to_world((x, 0, 0))[0] for m in with_role(made.members, "sleeper") for x in m.side.bounds[::2]
    )
    joints = [a for a, b in itertools.pairwise(pieces) if b - a < 1e-6]
    # 24' and two rakes of 8" are 304", and the longest 2x8 is 288": one joint.
    assert pieces[-1] - pieces[0] == pytest.approx(304)
    assert len(joints) == 1
    assert {round(u, 4) for u in joints} <= over
    assert max(m.length_in for m in with_role(made.members, "sleeper")) <= 288
