"""Clipped gables: where the wall ends, how hips, barges and outlookers end at the clip, and that nothing collides.

Expected figures are worked by hand in comments; no outside source.
"""

from __future__ import annotations

from math import hypot, sqrt
from typing import Any

import pytest
from any_roofs import ell, horseshoe, rectangle
from shapely import Point as Spot
from shapely import Polygon
from shop import built, gable, roofed, with_role

from takeoff.checks.audit import audit, overlaps
from takeoff.findings import Place, PlanError, Severity
from takeoff.framing.roof_plan import RoofPlan, roof_plan
from takeoff.plan.footprint import footprint
from takeoff.plan.schema import Building

BALLOON = {"by_side": {"east": {"frame": "balloon"}, "west": {"frame": "balloon"}}}
PLATE = 97.125
STAND = 7.25 * hypot(1, 2 / 3) - 3.25 * 2 / 3
"""Of 2x8 at 8/12 over the plate, seated 3-1/4 deep: 6.5467."""


def clipped(
    *, walls: dict[str, Any] | None = None, clip: dict[str, Any] | None = None, length: float = 288, **roof: Any
) -> Building:
    """24 by 16 ft at 8/12, its east gable clipped 3 ft from the outside of its wall."""
    written = {
        "rafters": {"size": "2x8"},
        "ridge": {"kind": "board", "size": "2x10"},
        "overhang": {"eave": 12, "rake": 10},
        "outlookers": {"size": "2x4"},
        "barge": {"size": "2x8"},
        "fascia": {"size": "2x6"},
        "clips": {"east": clip or {"run": 36}},
    }
    return gable(length=length, span=192, walls=BALLOON if walls is None else walls, roof={**written, **roof})


def laid_out(building: Building) -> RoofPlan:
    return roof_plan(building, footprint(building), lambda path: Place(path=path))


def test_the_gable_wall_ends_level_where_the_clip_starts_and_its_plates_between_the_end_rafters() -> None:
    frame = built(clipped())
    plates = with_role(frame.members, "clip-plate")
    # The hips start 36 in from the ridge line, 60 in from the eave walls: 60 * 2/3 = 40 over their plates, both slopes
    # having one stand. They cross the wall's outside there; 1-1/2 in behind it, at the inner face of the end rafters,
    # their outer faces are 1-1/2 in on and 3/4 * sqrt(2) back: 60.4393. The plates are 192 - 2 * 60.4393 long.
    assert {round(m.placement.origin[2] + 0.75, 4) for m in plates} == {PLATE + 40, PLATE + 40 - 1.5}  # their tops
    assert [m.length_in for m in plates] == pytest.approx([192 - 2 * (61.5 - 0.75 * sqrt(2))] * 2)
    middle = [
        m for m in with_role(frame.members, "gable-stud") if m.face == "east" and 62 < m.placement.origin[1] < 130
    ]
    assert {round(m.placement.origin[2] + m.length_in, 4) for m in middle} == {PLATE + 40 - 3}


def test_a_height_places_the_clip_like_the_run_that_goes_with_it() -> None:
    by_run, by_height = (laid_out(clipped(clip=clip)).line("east").clip for clip in ({"run": 36}, {"height": 137.125}))
    assert by_run is not None
    assert by_height is not None
    assert by_run.plate == pytest.approx(by_height.plate) == pytest.approx(137.125)


def test_the_hips_of_a_clip_run_over_the_corner_of_its_plates_to_the_ridge() -> None:
    hips = with_role(built(clipped()).members, "hip")
    assert len(hips) == 2
    for hip in hips:
        assert hip.rafter is not None
        # 36 in level each way is 36 * sqrt(2) along the hip; its side is over the wall half a thickness sooner.
        assert hip.rafter.run == pytest.approx(36 * sqrt(2) + 0.75)
        assert hip.rafter.slope == pytest.approx(2 / 3 / sqrt(2))
        # The tail goes out 10 in square to the wall, the overhang of the rake.
        assert hip.rafter.overhang == pytest.approx(10 * sqrt(2))


def test_the_clips_jacks_stand_on_the_level_plates() -> None:
    frame = built(clipped())
    on = {
        (frame.members[j.upper].role.name, j.kind)
        for j in frame.joints
        if frame.members[j.lower].role.name == "clip-plate"
    }
    assert {("hip-jack", "bears"), ("hip", "bears")} <= on


def test_the_clips_jacks_are_laid_out_on_the_level_top_over_the_studs() -> None:
    (line,) = (line for line in built(clipped()).lines if line.name == "east wall, level top under the clip")
    assert line.start == "south corner of the wall"
    assert [mark.position_in for mark in line.marks if mark.symbol == "J"] == [80, 96, 112]
    # The hips come over the wall where its level top ends, 5 feet from the corners.
    assert [mark.position_in for mark in line.marks if mark.symbol == "H"] == [60, 132]


def test_barges_end_at_the_clip_and_outlookers_lie_below_it() -> None:
    frame = built(clipped())
    # The hips cross the outside of the barges 10 in sooner than the wall's outside, 50 in from the eave walls. At the
    # back of a barge, 1-1/2 in further in, their outer faces are at 51.5 - 3/4 * sqrt(2) = 50.4393; tails are at -12.
    longest = 62.4393 * hypot(1, 2 / 3)
    barges = [m for m in with_role(frame.members, "barge") if m.placement.origin[0] > 200]
    assert len(barges) == 2
    for barge in barges:
        assert barge.rafter is not None
        assert barge.rafter.top_edge == pytest.approx(longest, abs=1e-3)
    outlookers = [m for m in with_role(frame.members, "outlooker") if m.placement.origin[0] > 200]
    heights = [m.placement.origin[2] for m in outlookers]
    # The tops of the rafters are 50 * 2/3 over those at the wall where the barges end.
    assert max(heights) < PLATE + STAND + 50 * 2 / 3


CLIPS = ({"run": 36}, {"run": 36, "pitch": "12/12"}, {"run": 50, "pitch": "5/12"}, {"run": 24, "pitch": "20/12"})


@pytest.mark.parametrize("clip", CLIPS, ids=str)
def test_the_slopes_of_a_clipped_roof_are_the_lower_envelope_of_their_planes(clip: dict[str, Any]) -> None:
    plan = laid_out(clipped(clip=clip))
    planes, grounds = [], []
    for slope in plan.slopes:
        rise = slope.common.slope
        at = slope.bench.placement
        inward = (at.y[0] / hypot(*at.y[:2]), at.y[1] / hypot(*at.y[:2]))
        planes.append((at.origin, inward, rise))
        grounds.append(Polygon([at.to_world((*edge.a, 0.0))[:2] for edge in slope.outline.edges]))

    def height(k: int, x: float, y: float) -> float:
        (ox, oy, oz), (ix, iy), rise = planes[k]
        return oz + rise * ((x - ox) * ix + (y - oy) * iy)

    # The clip's plane by hand: at its peak, `run` in from the wall, it is as high as the ridge.
    pitch = float(str(clip.get("pitch", "8/12")).split("/")[0]) / 12
    east = next(k for k, slope in enumerate(plan.slopes) if slope.side == "east")
    assert height(east, 288 - clip["run"], 96) == pytest.approx(PLATE + STAND + 64)
    assert planes[east][2] == pytest.approx(pitch)
    assert sum(ground.area for ground in grounds) == pytest.approx((288 + 20) * (192 + 24))
    for x in range(-9, 298, 7):
        for y in range(-11, 204, 7):
            lowest = min(height(k, x, y) for k in range(len(planes)))
            own = [k for k, ground in enumerate(grounds) if ground.buffer(1e-6).contains(Spot(x, y))]
            assert own
            assert height(own[0], x, y) == pytest.approx(lowest, abs=1e-6)


@pytest.mark.parametrize(
    "told",
    [
        {},
        {"walls": {}},
        {"clips": {"east": {"run": 36}, "west": {"height": 130}}},
        {"clip": {"run": 24, "pitch": "20/12"}},
        {"clip": {"run": 60, "pitch": "3/12"}},
        {"length": 292},  # a jack stands beside the end rafter, over the wall
        {"pitches": {"south": "10/12", "north": "6/12"}},
        {"outlookers": {"size": "2x4", "method": "ladder"}},
        {"tail": {"cut": "level"}, "soffit": {"kind": "boxed"}},
        {"ties": {"size": "2x6"}, "collar": {"size": "2x4"}},
        {"overhang": {}, "outlookers": None, "barge": None, "fascia": None},
    ],
    ids=str,
)
def test_no_stick_of_a_clipped_roof_stands_in_another(told: dict[str, Any]) -> None:
    assert [(a.name, b.name) for a, b, _ in overlaps(built(clipped(**told)).members)] == []


def test_the_sheathing_of_a_clipped_gable_stops_at_the_plates_and_beside_the_hips() -> None:
    (face,) = (face for face in built(clipped()).faces if face.name == "east")
    level = [e for e in face.outline.edges if e.a[1] == e.b[1] and e.a[1] > 1]
    (top,) = level
    # Level with the plates' top, between the outer faces of the hips: 60 in less 3/4 * sqrt(2).
    assert top.a[1] == pytest.approx(137.125)
    assert sorted((top.a[0], top.b[0])) == pytest.approx([60 - 0.75 * sqrt(2), 132 + 0.75 * sqrt(2)])


@pytest.mark.parametrize("clip", [{"run": 10}, {"run": 90}, {"height": 97}, {"height": 168}], ids=str)
def test_a_clip_outside_the_gable_is_refused_with_the_room_there_is(clip: dict[str, Any]) -> None:
    with pytest.raises(PlanError) as caught:
        built(clipped(clip=clip))
    (finding,) = caught.value.findings
    # 12 in over the plates to 18 in of run: 109-1/8 to 97-1/8 + (96 - 18) * 2/3 = 149-1/8.
    assert "from 9'-1 1/8\" to 12'-5 1/8\", or a run from 1'-6\" to 6'-6\"" in finding.message
    assert finding.place.path == "roof.clips.east"


def test_clips_that_leave_no_ridge_are_refused() -> None:
    with pytest.raises(PlanError, match="no ridge between them"):
        built(clipped(clips={"east": {"run": 70}, "west": {"run": 70}}, length=132))


TRIM = {
    "ridge": {"kind": "board", "size": "2x10"},
    "overhang": {"eave": 12, "rake": 10},
    "outlookers": {"size": "2x4"},
    "barge": {"size": "2x8"},
    "fascia": {"size": "2x6"},
}


def test_a_clip_of_a_roof_told_side_by_side_is_that_of_a_gable_roof() -> None:
    told = roofed(
        rectangle(288, 192),
        walls={"by_side": {"side 2": {"frame": "balloon"}, "side 4": {"frame": "balloon"}}},
        shape="edges",
        edges={"side 2": "gable", "side 4": "gable"},
        clips={"side 2": {"run": 36}},
        **TRIM,
    )
    one, other = built(clipped()).members, built(told).members
    assert sorted((m.role.name, m.placement.origin, m.length_in) for m in one) == sorted(
        (m.role.name, m.placement.origin, m.length_in) for m in other
    )


@pytest.mark.parametrize(
    ("ground", "gables", "clips"),
    [
        (ell(360, 240, 168, 160), ("side 3", "side 6"), {"side 3": {"run": 36}}),
        (
            ell(360, 240, 168, 160),
            ("side 3", "side 6"),
            {"side 3": {"run": 36}, "side 6": {"run": 30, "pitch": "12/12"}},
        ),
        (horseshoe(480, 192, (144, 144), (120, 120)), ("side 3", "side 7"), {"side 7": {"run": 36}}),
    ],
    ids=["ell", "ell twice", "one of two gables in a line"],
)
def test_clips_on_wings_leave_the_rest_of_the_roof_as_it_is(
    ground: list[tuple[float, float]], gables: tuple[str, ...], clips: dict[str, Any]
) -> None:
    whole = roofed(ground, shape="edges", edges=dict.fromkeys(gables, "gable"), **TRIM)
    cut = roofed(ground, shape="edges", edges=dict.fromkeys(gables, "gable"), clips=clips, **TRIM)
    one, other = built(whole).members, built(cut).members
    assert len(with_role(other, "hip")) == len(with_role(one, "hip")) + 2 * len(clips)
    assert {m.placement.origin for m in with_role(one, "valley")} == {
        m.placement.origin for m in with_role(other, "valley")
    }
    assert list(overlaps(other)) == []


@pytest.mark.parametrize("over", [0.0, 0.25, 0.625, 1.25])
def test_a_jack_half_off_the_clipped_wall_is_moved_in_beside_it_so_that_the_hips_keep_their_seats(over: float) -> None:
    # The last layout line lies ``over`` short of the wall's inner face: 2x6 walls are 5-1/2 through.
    building = clipped(length=240 + 5.5 - over, rafters={"size": "2x8", "spacing": 24})
    frame = built(building)
    jacks = [m.centre_line[0][0] for m in with_role(frame.members, "hip-jack", "common-rafter") if "south" in m.face]
    assert max(jacks) == pytest.approx(240 - over - 0.75)
    assert [str(found) for found in audit(frame) if found.severity is not Severity.NOTE] == []
