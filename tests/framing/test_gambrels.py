"""Gambrel roofs: where the slopes break, how both rafters meet the purlin, and what the gable walls make of it.

Expected figures are worked by hand in comments; no outside source.
"""

from __future__ import annotations

from math import hypot
from typing import Any

import pytest
from shop import built, gable, with_role

from takeoff.checks.audit import overlaps
from takeoff.findings import PlanError
from takeoff.geometry.rafter import RafterGeometry
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.schema import Building

PURLIN = {"size": "3-1/2x9-1/2", "material": "lvl"}
PLATE = 97.125
BALLOON = {"frame": "balloon"}


def gambrel(*, walls: dict[str, Any] | None = None, upper: dict[str, Any] | None = None, **roof: Any) -> Building:
    """20 by 16 ft, lower slopes 20/12 that break 42 in inside the walls, upper ones 6/12, of 2x8."""
    told = {"pitch": "6/12", "run": 42, "purlin": PURLIN, **(upper or {})}
    if "height" in told:
        del told["run"]
    written = {"shape": "gambrel", "pitch": "20/12", "rafters": {"size": "2x8"}, "upper": told}
    return gable(length="20'", span="16'", walls=walls, roof={**written, **roof})


def cuts(frame: FramedBuilding, face: str) -> RafterGeometry:
    """The common rafter of a face."""
    found = {m.rafter for m in with_role(frame.members, "common-rafter") if m.face == face}
    (cut,) = found
    assert cut is not None
    return cut


def top(member: Member) -> float:
    """Height of the upper side of a level stick."""
    return member.placement.origin[2] + member.profile.depth_in


def test_both_rafters_of_a_gambrel_meet_over_the_outer_face_of_the_purlin() -> None:
    frame = built(gambrel())
    lower, upper = cuts(frame, "south slope"), cuts(frame, "south upper slope")
    # Lower: 7.25 deep at 20/12, plumb 7.25 * sqrt(1 + (5/3)^2) = 14.0915, seat 2 (a notch of 1.715, under 1-13/16),
    # so 14.0915 - 2 * 5/3 = 10.7581 over the plate; 42 in of run rise 70: the break is 177.8831 over the deck.
    assert lower.height_above_plate == pytest.approx(10.7581, abs=1e-4)
    assert lower.line_length == pytest.approx(42 * hypot(1, 5 / 3))
    assert PLATE + lower.top_at(lower.run) == pytest.approx(177.8831, abs=1e-4)
    # Upper: plumb 7.25 * sqrt(1.25) = 8.1057, seat the purlin's 3-1/2: 8.1057 - 1.75 = 6.3557 over its top. It runs
    # from the break to the middle, 96 - 42 = 54, and rises 27.
    (south,) = {m for m in with_role(frame.members, "purlin-beam") if m.face == "south purlin"}
    assert top(south) == pytest.approx(177.8831 - 6.3557, abs=1e-4)
    assert (upper.seat, upper.run, upper.rise, upper.overhang) == pytest.approx((3.5, 54, 27, 0))
    assert south.placement.origin[1] - 1.75 == pytest.approx(42)  # its outer face is plumb under the break
    assert south.length_in == pytest.approx(240)


def test_the_upper_rafters_bear_on_the_purlin_and_the_lower_ones_hang_on_it() -> None:
    frame = built(gambrel())
    on = {(frame.members[j.upper].face, j.kind) for j in frame.joints if frame.members[j.lower].face == "south purlin"}
    assert on == {("south upper slope", "bears"), ("south slope", "hangs")}
    hung = [
        j.bearing_in for j in frame.joints if j.kind == "hangs" and frame.members[j.lower].role.name == "purlin-beam"
    ]
    # Of the 14.0915 plumb cut, what is below the purlin's top.
    assert hung == pytest.approx([14.0915 - 6.3557] * len(hung), abs=1e-3)


def test_posts_in_both_gables_stand_under_the_ends_of_ridge_and_purlins() -> None:
    frame = built(gambrel())
    carried = {frame.members[j.upper].role.name for j in frame.joints if frame.members[j.lower].role.name == "post"}
    assert carried == {"ridge-beam", "purlin-beam"}
    under = [j for j in frame.joints if frame.members[j.upper].role.name == "purlin-beam"]
    assert len({j.upper for j in under}) == 2


def test_a_gambrel_has_two_barges_a_rake_and_sheathing_up_both_slopes() -> None:
    frame = built(gambrel(overhang={"eave": 8, "rake": 10}, barge={"size": "2x8"}, outlookers={"size": "2x4"}))
    assert len(with_role(frame.members, "barge")) == 8
    faces = {face.name: face for face in frame.faces if face.kind == "slope"}
    assert set(faces) == {"south slope", "south upper slope", "north slope", "north upper slope"}
    # 240 + 2 * 10 long; 8 + 42 of run at 20/12, 54 at 6/12.
    assert faces["south slope"].outline.polygon.area == pytest.approx(260 * 50 * hypot(1, 5 / 3))
    assert faces["south upper slope"].outline.polygon.area == pytest.approx(260 * 54 * hypot(1, 0.5))


def test_the_gable_is_sheathed_to_the_tops_of_both_rafters() -> None:
    west = next(face for face in built(gambrel()).faces if face.name == "west")
    # 192 wide; 107.8831 at the corners, 177.8831 at the breaks, 204.8831 at the peak.
    area = 192 * 107.8831 + 2 * 42 * 35 + 108 * 70 + 54 * 27
    assert west.outline.polygon.area == pytest.approx(area, abs=0.1)


def test_a_break_told_by_its_height_is_where_the_rafters_reach_it() -> None:
    assert cuts(built(gambrel(upper={"height": 177.8831})), "south slope").run == pytest.approx(42, abs=1e-3)


def test_a_break_below_the_eave_is_refused_with_both_heights() -> None:
    with pytest.raises(PlanError) as error:
        built(gambrel(upper={"height": 100}))
    assert "8'-4\" over the deck" in error.value.findings[0].message


@pytest.mark.parametrize(
    "changed",
    [
        {},
        {"overhang": {"eave": 8, "rake": 10}, "barge": {"size": "2x8"}, "outlookers": {"size": "2x4"}},
        {
            "overhang": {"eave": 8, "rake": 10},
            "barge": {"size": "2x8"},
            "outlookers": {"size": "2x4", "method": "dropped"},
            "fascia": {"size": "2x6"},
            "rafters": {"size": "2x10"},
        },
        {"overhang": {"rake": 8}, "barge": {"size": "2x6"}, "outlookers": {"method": "ladder"}},
        {"pitches": {"north": "14/12"}, "upper": {"pitch": "4/12", "run": 30, "purlin": {"size": "4x12"}}},
        {"walls": {"by_side": {"north": {"height": 84}, "east": BALLOON, "west": BALLOON}}},
        {"walls": {"by_side": {"east": {"frame": "balloon"}}}, "upper": {"purlin": {"size": "6x10"}}},
        {"pitch": "12/12", "upper": {"pitch": "4/12"}},
        {"pitch": "24/12", "upper": {"pitch": "2/12", "run": 24}, "blocking": {"eave": "solid"}},
        {"ridge": {"kind": "beam", "size": "4x12", "vent": 1}},
    ],
    ids=lambda changed: " ".join(changed) or "plain",
)
def test_no_two_sticks_of_a_gambrel_stand_in_each_other(changed: dict[str, Any]) -> None:
    assert [(a.name, b.name, s.depth) for a, b, s in overlaps(built(gambrel(**changed)).members)] == []
