"""Porches: a small roof at a wall, framed by the same engine, on beams and posts."""

from __future__ import annotations

import itertools
from collections import Counter
from math import hypot
from typing import Any

import pytest
from shop import built, gable, with_role

from takeoff.checks.audit import overlaps
from takeoff.checks.screen import screen
from takeoff.findings import Place, PlanError
from takeoff.framing.frame import frame
from takeoff.model.building import FramedBuilding
from takeoff.order.hardware import count_hardware
from takeoff.plan.schema import Building

TALL = 109.125
SHEATHING_IN = 7 / 16
SHED = {
    "side": "south",
    "left": "3'",
    "width": "16'",
    "depth": "6'",
    "shape": "shed",
    "pitch": "3/12",
    "roof_height": "8'-4\"",
    "rafters": {"size": "2x6"},
    "overhang": {"eave": '10"', "rake": '8"'},
    "beam": {"size": "3-2x8"},
    "posts": {"size": "6x6"},
}
GABLE = {
    **SHED,
    "side": "east",
    "left": "6'",
    "width": "8'",
    "shape": "gable",
    "pitch": "6/12",
    "roof_height": None,
    "beam_height": "7'-6\"",
    "ridge": {"kind": "board", "size": "2x8"},
}


def house(*porches: dict[str, Any], walls: dict[str, Any] | None = None, **roof: Any) -> Building:
    """A tall house with porches, its gables on east and west."""
    trim = {"overhang": {"eave": '12"', "rake": '10"'}, "fascia": {"size": "2x6"}, "barge": {"size": "2x8"}}
    sheets = {"field": "cdx-5/8", "exposed": "sanded-5/8"}
    tall = {"east": {"frame": "balloon"}, "west": {"frame": "balloon"}}
    return gable(
        walls={"height": TALL, "by_side": tall, **(walls or {})},
        roof={**trim, "outlookers": {}, "sheathing": sheets, "porches": list(porches), **roof},
    )


def refusal(*porches: dict[str, Any], **walls: Any) -> str:
    """What is said of a house that can't be framed."""
    with pytest.raises(PlanError) as caught:
        frame(house(*porches, walls=walls), lambda path: Place(path=path))
    (finding,) = caught.value.findings
    assert finding.place.path.startswith("roof.porches[0]")
    return finding.message


def joints_of(made: FramedBuilding, kind: str, upper: str, lower: str) -> list[float]:
    """Bearings of the joints between two roles [in]."""
    return [
        joint.bearing_in
        for joint in made.joints
        if (joint.kind, made.members[joint.upper].role.name, made.members[joint.lower].role.name)
        == (kind, upper, lower)
    ]


def test_rafters_of_a_shed_porch_stand_on_its_beam_and_hang_on_its_ledger() -> None:
    made = built(house(SHED))
    count = sum(m.face == "south porch front slope" and m.rafter is not None for m in made.members)
    for role in ("common-rafter", "end-rafter"):
        assert set(joints_of(made, "bears", role, "porch-beam")) == {4.5}
    assert len(joints_of(made, "hangs", "common-rafter", "ledger")) + 2 == count
    assert all(
        m.placement.to_world((0, 0, 0))[1] == pytest.approx(-SHEATHING_IN - 0.75)
        for m in with_role(made.members, "ledger")
    )


def test_the_beam_and_its_posts_follow_from_where_the_roof_meets_the_wall() -> None:
    made = built(house({**SHED, "deck_height": '-7"'}))
    slope, run = 3 / 12, 72 - SHEATHING_IN
    beam_top = 100 - run * slope - (5.5 * hypot(1, slope) - 4.5 * slope)
    beam = with_role(made.members, "porch-beam")[0]
    assert beam.placement.to_world((0, beam.profile.depth_in, 0))[2] == pytest.approx(beam_top)
    for post in with_role(made.members, "porch-post"):
        assert post.placement.origin[2] == pytest.approx(-7)
        assert post.length_in == pytest.approx(beam_top - 7.25 + 7)


def test_either_height_leads_to_the_same_porch() -> None:
    by_roof = built(house(SHED))
    top = with_role(by_roof.members, "porch-beam")[0].placement.origin[2] + 7.25
    by_beam = built(house({**SHED, "roof_height": None, "beam_height": top}))
    assert Counter(m.mark for m in by_beam.members) == Counter(m.mark for m in by_roof.members)


@pytest.mark.parametrize(("width", "count"), [("8'", 2), ("16'", 3), ("24'", 4)])
def test_posts_stand_at_both_ends_and_evenly_between(width: str, count: int) -> None:
    made = built(house({**SHED, "width": width}))
    places = sorted(m.placement.origin[0] - 36 for m in with_role(made.members, "porch-post"))
    apart = {round(b - a, 6) for a, b in itertools.pairwise(places)}
    assert len(places) == count
    assert len(apart) == 1
    assert places[0] == pytest.approx(2.75)
    assert max(apart) <= 96


def test_plies_are_joined_over_posts_and_neighbours_over_different_ones() -> None:
    made = built(house({**SHED, "left": 0, "width": "28'", "depth": "4'", "beam": {"size": "3-2x6"}}))
    posts = sorted(m.placement.origin[0] for m in with_role(made.members, "porch-post"))
    plies: dict[float, list[float]] = {}
    for m in with_role(made.members, "porch-beam"):
        plies.setdefault(round(m.placement.origin[1], 3), []).append(m.placement.origin[0])
    joints = [max(starts) for starts in plies.values()]
    assert len(joints) == 3
    for joint in joints:
        assert min(abs(joint - post) for post in posts) < 1e-6
    assert all(abs(a - b) > 12 for a, b in itertools.pairwise(joints))


def test_a_joint_of_the_beam_without_a_post_is_refused_in_words() -> None:
    far = {"size": "6x6", "places": ['3"', "27'-6\""]}
    said = refusal({**SHED, "left": 0, "width": "28'", "depth": "4'", "beam": {"size": "3-2x6"}, "posts": far})
    assert "28'-0\" long, stock 20'-0\"" in said
    assert "no post under it" in said


def test_rafters_stand_on_the_beam_as_they_hang_on_the_ledger() -> None:
    lines = {line.name: line for line in built(house(SHED)).lines}
    ledger = [m for m in lines["south porch ledger"].marks if m.symbol != "S"]
    assert [m.position_in for m in ledger] == [m.position_in for m in lines["south porch front beam, top"].marks]
    assert lines["south porch front beam, underside"].marks[0].position_in == pytest.approx(2.75)


def test_a_gabled_porch_hangs_its_front_beam_between_side_beams_that_run_over_the_corners() -> None:
    made = built(house(GABLE))
    assert joints_of(made, "hangs", "porch-beam", "porch-beam") == [7.25] * 6
    hardware = {count.name: count.qty for count in count_hardware([made])}
    assert hardware["beam-hanger"] == 2
    assert hardware["post-cap"] == hardware["post-base"] == len(with_role(made.members, "porch-post"))
    against = [m for m in made.members if m.face.startswith("east porch") and m.rafter is not None]
    assert min(m.placement.origin[0] for m in against) == pytest.approx(360 + SHEATHING_IN + 0.75)


def test_a_ridge_beam_of_a_porch_stands_on_a_king_post_over_its_front_beam() -> None:
    ridge = {"kind": "beam", "size": "3-1/2x9-1/2", "material": "lvl"}
    made = built(house({**GABLE, "ridge": ridge}))
    kings = with_role(made.members, "king-post")
    assert len(kings) == 2
    assert joints_of(made, "bears", "ridge-beam", "king-post") == [3.5, 3.5]
    assert {m.placement.origin[2] for m in kings} == {90.0}
    # In the east wall 3 studs, 4-1/2" for 3-1/2", stand behind it: the porch runs from 6' to 14', its middle is at 10'.
    # The wall's own ridge beam has a post there already; to one side of it there is none yet.
    aside = built(house({**GABLE, "ridge": ridge, "left": "3'"}))
    behind = sorted(m.placement.origin[1] for m in with_role(aside.members, "post") if m.face == "east")
    assert [u for u in behind if u < 100] == pytest.approx([82.5, 84.0, 85.5])
    assert list(overlaps(aside.members)) == []
    assert len(behind) == 3 + len([m for m in with_role(made.members, "post") if m.face == "east"])
    assert list(overlaps(made.members)) == []


@pytest.mark.parametrize("ceiling", ["open", "closed"])
def test_an_open_ceiling_shows_the_premium_grade_all_over(ceiling: str) -> None:
    made = built(house({**SHED, "ceiling": ceiling}))
    zones = {panel.zone for panel in made.panels if panel.face == "south porch front slope"}
    assert zones == ({"exposed"} if ceiling == "open" else {"exposed", "field"})


@pytest.mark.parametrize(
    "porch",
    [
        SHED,
        {**SHED, "pitch": "6/12", "depth": "4'", "beam": {"size": "6x8"}, "ceiling": "closed"},
        {**SHED, "side": "west", "left": "7'", "width": "6'", "rafters": {"size": "2x8", "spacing": '24"'}},
        {**SHED, "posts": {"size": "4x4", "places": ["1'", "8'", "15'"]}, "beam": {"size": "2-2x10"}, "barge": "2x6"},
        GABLE,
        {**GABLE, "depth": "12'", "pitch": "9/12", "beam": {"size": "6x10"}, "ceiling": "closed"},
    ],
)
def test_the_sticks_of_a_porch_and_its_house_leave_each_other_room(porch: dict[str, Any]) -> None:
    assert list(overlaps(built(house(porch)).members)) == []


def test_a_porch_leaves_the_house_and_what_is_said_of_it_as_they_were() -> None:
    alone, with_porch = house(), house(SHED, GABLE)
    bare, made = built(alone), built(with_porch)
    assert made.members[: len(bare.members)] == bare.members
    assert made.vent_area_sqin == bare.vent_area_sqin
    own = [f for f in screen(made, with_porch) if "porch" not in f.where]
    assert own == list(screen(bare, alone))


def test_two_porches_of_a_side_are_told_apart_by_number() -> None:
    small = {**SHED, "width": "8'"}
    made = built(house(small, {**small, "left": "16'"}))
    names = {face.name for face in made.faces if "porch" in face.name}
    assert names == {"south porch 1 front slope", "south porch 2 front slope"}


def test_a_porch_under_the_main_eave_says_how_far_it_stands_into_it() -> None:
    said = refusal({**SHED, "roof_height": "9'-0\""})
    assert "into the main roof's" in said
    assert "lower roof_height or beam_height" in said


def test_a_ledger_over_the_walls_plates_is_refused_in_words() -> None:
    said = refusal({**SHED, "roof_height": "10'"})
    assert "over the top of the south wall's framing there (9'-1 1/8\")" in said


def test_a_ledger_across_a_window_is_refused_in_words() -> None:
    window = {"side": "south", "center": "8'", "size": "3040", "head": "8'-0\""}
    assert "crosses the window 3040" in refusal(SHED, openings=[window])


def test_heights_that_disagree_are_both_told() -> None:
    said = refusal({**SHED, "beam_height": "7'"})
    assert "beam_height 7'-0\"" in said
    assert "roof_height says 8'-4\"" in said


def test_posts_without_height_are_refused_in_words() -> None:
    assert "raise the beams, or lower deck_height" in refusal({**SHED, "deck_height": "6'"})


@pytest.mark.parametrize(("spacing", "told"), [("8'", True), ("16'", False)])
def test_a_post_before_a_door_is_told(spacing: str, told: bool) -> None:
    door = {"side": "south", "center": "11'", "size": "3068", "kind": "door"}
    posts = {"size": "6x6", "spacing": spacing}
    _, found = frame(house({**SHED, "posts": posts}, walls={"openings": [door]}), lambda path: Place(path=path))
    assert told == any(finding.rule == "frame.porch-post" for finding in found)


def test_beams_that_nobody_walks_under_are_warned_of_with_their_height() -> None:
    def told(deck_height: str) -> list[str]:
        porch = {**SHED, "roof_height": None, "beam_height": "6'-6\"", "deck_height": deck_height}
        found = frame(house(porch), lambda path: Place(path=path))[1]
        return [one.message for one in found if one.rule == "frame.porch-headroom"]

    # 6'-6" less a beam of 2x8 is 5'-10 3/4", and a foot more over a deck that lies a foot lower
    (message,) = told("0")
    assert "5'-10 3/4\"" in message
    assert told('-12"') == []
