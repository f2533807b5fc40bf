"""Squash blocks: under what they stand, how long they are, and what is said where none can or need stand."""

from __future__ import annotations

from typing import Any

import pytest
from shop import built, gable, with_role

from takeoff.checks.audit import audit
from takeoff.findings import Place, Severity
from takeoff.framing.frame import frame
from takeoff.framing.point_loads import plan_box
from takeoff.geometry.placement import Placement
from takeoff.plan.schema import Building

GIRDER = {"from": [0, "10'"], "to": ["30'", "10'"], "size": "3-2x10"}
WORLD = Placement((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


def floored(walls: dict[str, Any] | None = None, **floor: Any) -> Building:
    """A hut with a beam on a post in its middle, over a framed floor."""
    ridge = {"kind": "beam", "size": "5-1/2x14", "material": "glulam", "posts": ["15'"]}
    main = {"joists": {"size": "2x10"}, **floor}
    return gable(walls={"height": "9'", **(walls or {})}, roof={"ridge": ridge}, floors={"main": main})


def told(building: Building) -> list[tuple[Severity, str]]:
    _, findings = frame(building, lambda path: Place(path=path))
    return [(f.severity, f.message) for f in findings if f.rule == "frame.squash-block"]


FLOORS = {
    "joists over a girder": floored(girders=[GIRDER]),
    "lapped and blocked over it": floored(girders=[GIRDER], splice="lap", blocking={"over_girders": True}),
    "hung on it": floored(girders=[{**GIRDER, "joists": "hang"}]),
    "doubled under the post": floored(girders=[GIRDER], doubled=[{"from": ["15'", "2'"], "to": ["15'", "12'"]}]),
    "balloon gable": floored(walls={"by_side": {"east": {"frame": "balloon"}}}, girders=[GIRDER]),
}


@pytest.mark.parametrize("plan", FLOORS.values(), ids=FLOORS)
def test_squash_blocks_stand_in_nothing_and_are_a_sixteenth_longer_than_the_joists_are_deep(plan: Building) -> None:
    hut = built(plan)
    blocks = with_role(hut.members, "squash-block")
    assert blocks
    assert {block.length_in for block in blocks} == {9.25 + 1 / 16}
    assert {block.face for block in blocks} == {"main floor"}
    assert {round(block.centre_line[0][2], 6) for block in blocks} == {-0.71875 - 9.25}
    assert [found.severity for found in audit(hut)] == [Severity.NOTE]


def test_blocks_under_a_post_on_a_girder_lie_within_half_an_inch_of_its_outline() -> None:
    hut = built(FLOORS["joists over a girder"])
    posts = [plan_box(m, WORLD)[0] for m in with_role(hut.members, "ridge-post")]
    blocks = [plan_box(m, WORLD)[0] for m in with_role(hut.members, "squash-block")]
    under = [b for b in blocks if any(b.meets(post) for post in posts)]
    # 5-1/2 of the post's depth in blocks of 1-1/2, and 6 of its four plies in a 2x6.
    assert sum(b.area for b in under) == pytest.approx(4 * 1.5 * 5.5)
    assert min(b.u[0] for b in under) > min(p.u[0] for p in posts) - 0.5
    assert max(b.u[1] for b in under) < max(p.u[1] for p in posts) + 0.5


def test_a_post_over_no_girder_is_warned_and_has_no_block() -> None:
    plan = floored()
    (message,) = [message for severity, message in told(plan) if severity is Severity.WARNING]
    assert "ridge post at [15'-0\", 10'-0\"]" in message
    assert "put a girder or a post with a footing under it" in message
    blocks = [plan_box(m, WORLD)[0] for m in with_role(built(plan).members, "squash-block")]
    assert all(min(b.u[0], 360 - b.u[1]) < 12 for b in blocks)


def test_a_post_on_a_girder_between_the_joists_needs_no_block_and_a_note_says_so() -> None:
    notes = [m for severity, m in told(FLOORS["hung on it"]) if severity is Severity.NOTE]
    assert any(m.startswith("no squash block under the ridge post") and "a girder fill" in m for m in notes)


def test_a_post_on_a_header_comes_down_on_blocks_under_its_jacks() -> None:
    opening = {"side": "east", "center": "10'", "size": 3040}
    plan = floored(walls={"openings": [opening], "by_side": {"east": {"frame": "balloon"}}}, girders=[GIRDER])
    hut = built(plan)
    jacks = [plan_box(m, WORLD)[0] for m in with_role(hut.members, "jack-stud") if m.face == "east"]
    blocks = [plan_box(m, WORLD)[0] for m in with_role(hut.members, "squash-block")]
    assert jacks
    assert all(any(block.meets(jack) for block in blocks) for jack in jacks)


def test_a_floor_that_isn_t_framed_has_none() -> None:
    ridge = {"kind": "beam", "size": "5-1/2x14", "material": "glulam", "posts": ["15'"]}
    hut = built(gable(roof={"ridge": ridge}))
    assert with_role(hut.members, "squash-block") == ()
