"""Posts inside: under a beam where the plan has them, where it ends inside, and where hips meet without a ridge."""

from __future__ import annotations

from typing import Any

import pytest
from any_roofs import horseshoe, tee
from measured import clashes, world_box
from shop import built, gable, roofed, with_role

from takeoff.findings import Finding, Place, PlanError
from takeoff.framing.frame import frame
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.footprint import footprint
from takeoff.plan.schema import Building

BEAM: dict[str, Any] = {"kind": "beam", "size": "5-1/2x14", "material": "glulam"}


def posts(building: FramedBuilding) -> tuple[Member, ...]:
    return with_role(building.members, "ridge-post")


def told(building: Building) -> tuple[Finding, ...]:
    return tuple(f for f in frame(building, lambda path: Place(path=path))[1] if f.rule == "frame.ridge-post")


def box_of_all(members: tuple[Member, ...]) -> tuple[float, ...]:
    boxes = [world_box(m) for m in members]
    low = (min(b[0][k] for b in boxes) for k in range(3))
    high = (max(b[1][k] for b in boxes) for k in range(3))
    return tuple(round(v, 3) for v in (*low, *high))


def test_a_placed_post_of_studs_is_as_wide_as_the_beam_and_reaches_from_the_deck_to_its_underside() -> None:
    building = built(gable(roof={"ridge": {**BEAM, "posts": ["10'"]}}))
    (beam,) = with_role(building.members, "ridge-beam")
    # four 2x6 side by side are 6 wide for 5-1/2, and 5-1/2 along the ridge
    assert len(posts(building)) == 4
    assert box_of_all(posts(building)) == (117.25, 117.0, 0.0, 122.75, 123.0, round(world_box(beam)[0][2], 3))


def test_the_beam_bears_on_every_ply_over_the_posts_whole_depth() -> None:
    building = built(gable(roof={"ridge": {**BEAM, "posts": ["10'", "20'"]}}))
    joints = [j for j in building.joints if building.members[j.lower].role.name == "ridge-post"]
    assert [(j.kind, j.bearing_in) for j in joints] == [("bears", 5.5)] * 8


def test_a_stated_size_is_one_stick() -> None:
    building = built(gable(roof={"ridge": {**BEAM, "posts": ["10'"], "post": "6x6"}}))
    assert [m.profile.name for m in posts(building)] == ["6x6"]


def test_where_rafters_reach_below_the_beam_a_built_up_post_stands_between_them() -> None:
    # 2x12 at 8/12 is 13.5 plumb, the beam 9-1/4 deep: under the rafters at 10'-8" a post is no wider than its 3-1/2
    ridge = {"kind": "beam", "size": "4x10", "posts": ["10'-8\""]}
    building = built(gable(roof={"ridge": ridge, "rafters": {"size": "2x12"}, "pitch": "8/12"}))
    assert len(posts(building)) == 2
    assert [*clashes(building.members, 1 / 32)] == []


def test_a_stated_post_wider_than_a_shallow_beam_is_refused_in_words() -> None:
    ridge = {"kind": "beam", "size": "4x10", "posts": ["10'-8\""], "post": "6x6"}
    with pytest.raises(PlanError, match="no post has room under the ridge beam"):
        built(gable(roof={"ridge": ridge, "rafters": {"size": "2x12"}}))


def test_posts_are_told_with_where_they_land_and_laid_out_on_the_deck() -> None:
    plan = gable(roof={"ridge": {**BEAM, "posts": ["20'", "10'"]}})
    (finding,) = told(plan)
    assert "10'-0\" from the west end" in finding.message
    assert "a footing of its own" in finding.message
    (line,) = (line for line in built(plan).lines if line.name == "floor deck, under the ridge")
    assert [(mark.position_in, mark.symbol) for mark in line.marks] == [(120.0, "P"), (240.0, "P")]


def test_a_hip_roofs_beam_stands_on_a_post_under_each_of_its_ends() -> None:
    building = built(roofed([(0, 0), (360, 0), (360, 192), (0, 192)], ridge=BEAM))
    (beam,) = with_role(building.members, "ridge-beam")
    (x0, _, low), (x1, _, _) = world_box(beam)
    assert box_of_all(posts(building)) == (round(x0, 3), 93.0, 0.0, round(x1, 3), 99.0, round(low, 3))
    assert len(posts(building)) == 8


def test_a_ridge_board_stands_on_nothing() -> None:
    assert posts(built(roofed([(0, 0), (360, 0), (360, 192), (0, 192)]))) == ()


def test_hips_that_meet_without_a_ridge_stand_on_one_post() -> None:
    building = built(roofed([(0, 0), (192, 0), (192, 192), (0, 192)], ridge=BEAM))
    assert with_role(building.members, "ridge-beam") == ()
    assert box_of_all(posts(building))[:2] == (93.25, 93.0)
    hips = with_role(building.members, "hip")
    assert box_of_all(posts(building))[5] < max(world_box(hip)[1][2] for hip in hips)


@pytest.mark.parametrize(
    ("roof", "count"),
    [
        (roofed([(0, 0), (360, 0), (360, 192), (168, 192), (168, 384), (0, 384)], ridge=BEAM), 4),
        (
            roofed(
                tee(432, 192, 192, 168, 120),
                ridge=BEAM,
                shape="edges",
                edges={"side 2": "gable", "side 5": "gable", "side 8": "gable"},
            ),
            1,
        ),
        (roofed([(0, 0), (192, 0), (192, 192), (0, 192)], ridge=BEAM), 1),
        (roofed([(0, 0), (360, 0), (360, 192), (0, 192)], ridge={"kind": "beam", "size": "4x8"}), 2),
        (gable(roof={"ridge": {**BEAM, "posts": ["8'", "16'", "24'"]}}), 3),
    ],
    ids=["ell", "tee", "pyramid", "shallow beam", "gable"],
)
def test_posts_stand_in_nothing(roof: Building, count: int) -> None:
    building = built(roof)
    assert [(a.name, b.name, round(v, 2)) for a, b, v in clashes(building.members, 1 / 32)] == []
    spots = {m.placement.origin[:2] for m in posts(building)}
    (finding,) = told(roof)
    assert f"{count} posts" in finding.message or (count == 1 and "a post" in finding.message)
    assert len(spots) == len(posts(building))


def saltbox(left_in: float) -> Building:
    """Its ridge stands off the middle: the north wall is 4' lower, and a door stands in the east gable."""
    door = {"side": "east", "left": left_in, "size": "3068", "kind": "door"}
    by_side = {"north": {"height": "4'-1 1/8\""}, "east": {"frame": "balloon"}, "west": {"frame": "balloon"}}
    return gable(
        walls={"openings": [door], "by_side": by_side},
        roof={"pitch": "8/12", "rafters": {"size": "2x8"}, "ridge": BEAM},
    )


def test_an_opening_that_cuts_the_post_of_a_ridge_off_the_middle_is_refused() -> None:
    depth = footprint(saltbox(0)).side("east").length_in
    # 48" of height at 8 in 12 are 72" level, half of it from the middle towards the higher wall.
    middle = depth / 2 - 36
    with pytest.raises(PlanError) as caught:
        built(saltbox(middle - 2))
    assert "into the post under the ridge beam" in str(caught.value)
    # At the middle of the wall nothing stands: a door there is no matter.
    clear = built(saltbox(depth / 2 + 6))
    assert not list(clashes(clear.members, deeper_than=1 / 32))
    # Its post is 6" wide, 3" of it to each side; its kings and jacks are 3" wide, and a king may stand at the post.
    assert with_role(built(saltbox(middle + 6)).members, "post")
    with pytest.raises(PlanError):
        built(saltbox(middle + 5.9))
    under = built(saltbox(middle - 19))  # 38" of rough opening right under the post
    assert with_role(under.members, "post")


def test_of_two_gables_in_one_line_each_has_the_post_of_its_own_ridge() -> None:
    wings = horseshoe(480, 192, (144, 144), (120, 120))
    beam = {"kind": "beam", "size": "5-1/2x14", "material": "glulam"}
    frame = built(roofed(wings, shape="edges", edges={"side 3": "gable", "side 7": "gable"}, ridge=beam))
    over = {m.face for m in frame.members if m.role.name.startswith("post") and m.placement.origin[1] > 300}
    assert over == {"side 3", "side 7"}
