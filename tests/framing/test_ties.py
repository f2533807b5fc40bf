"""Rafter ties, collar ties, ceiling joists: where they lie, how their ends are cut, what they lap; figures by hand."""

from __future__ import annotations

from math import atan, degrees
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from measured import clashes, outline_points, world_box
from shop import built, gable, only, with_role
from strategies import accepted

from takeoff.findings import Finding, Place, PlanError
from takeoff.framing.frame import frame
from takeoff.framing.tie_spots import chosen
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.schema import Building

PLATE = 97.125
BOARD: dict[str, Any] = {"kind": "board", "size": "2x10"}
BEAM: dict[str, Any] = {"kind": "beam", "size": "5-1/2x14", "material": "glulam"}
TIES = ("rafter-tie", "collar-tie", "ceiling-joist")
STAND = 8.367
"""2x10 at 8/12 on a seat of 4-1/8: over the plate, at the outside of the wall."""


def plan(**roof: Any) -> Building:
    return gable(walls=roof.pop("walls", None), roof={"ridge": BOARD, **roof})


def hut(**roof: Any) -> FramedBuilding:
    return built(plan(**roof))


def ties(building: FramedBuilding) -> tuple[Member, ...]:
    return with_role(building.members, *TIES)


def told(rule: str, **roof: Any) -> tuple[Finding, ...]:
    return tuple(f for f in frame(plan(**roof), lambda path: Place(path=path))[1] if f.rule == rule)


def test_ceiling_joists_lie_on_the_plates_from_block_to_block() -> None:
    joist = only(ties(hut(ceiling={"size": "2x8"})))
    low, high = world_box(joist)
    # 1-1/2 of eave block at either end of 20 feet; its top, 7-1/4, is under the rafters' 9.37 there
    assert (low[1], high[1]) == (1.5, 238.5)
    assert (low[2], high[2]) == (PLATE, PLATE + 7.25)
    assert joist.side.area == pytest.approx(237 * 7.25)
    assert [cut.miter_deg for cut in joist.cuts] == [0, 0]


def test_a_joist_deeper_than_the_rafters_stand_has_its_corners_clipped_to_the_roof() -> None:
    joist = only(ties(hut(ceiling={"size": "2x12"})))
    # the roof over 1-1/2 is 8.367 + 1 = 9.367 up, and 11.25 up at (11.25 - 8.367) x 1.5 = 4.325: 2.825 further in
    points = sorted(outline_points(joist))
    assert [p[1] for p in points[:3]] == pytest.approx([0, 9.367, 11.25], abs=0.001)
    assert points[2][0] == pytest.approx(2.825, abs=0.001)


def test_without_eave_blocks_joists_reach_the_outside_of_the_walls() -> None:
    low, high = world_box(only(ties(hut(ceiling={"size": "2x8"}, blocking={"eave": "none"}))))
    assert (low[1], high[1]) == (0.0, 240.0)


def test_a_tie_in_the_roof_ends_along_the_tops_of_the_rafters() -> None:
    tie = only(ties(hut(ties={"size": "2x6", "height": '24"'})))
    # the roof is 24 up at (24 - 8.367) x 1.5 = 23.449, and 29.5 up at 31.699
    low, high = world_box(tie)
    assert (low[1], high[1]) == (pytest.approx(23.449, abs=0.001), pytest.approx(240 - 23.449, abs=0.001))
    assert low[2] == PLATE + 24
    top = [p[0] for p in outline_points(tie) if p[1] == pytest.approx(5.5)]
    assert min(top) == pytest.approx(5.5 * 1.5)
    # the saw's setting off square is the seat's: the complement of the slope
    assert [cut.miter_deg for cut in tie.cuts] == pytest.approx([90 - degrees(atan(8 / 12))] * 2)


def test_where_pitches_differ_each_end_has_its_own_slope() -> None:
    tie = only(ties(hut(ties={"size": "2x6", "height": '24"'}, pitches={"north": "5/12"})))
    slopes = [90 - degrees(atan(s / 12)) for s in (8, 5)]
    assert [cut.miter_deg for cut in tie.cuts] == pytest.approx(slopes)


def test_collar_ties_left_to_themselves_are_two_thirds_up() -> None:
    collar = only(ties(hut(collar={"size": "2x4"})))
    assert world_box(collar)[0][2] - PLATE == pytest.approx(2 / 3 * (STAND + 80), abs=0.001)


def test_every_pair_has_a_tie_beside_it_on_the_side_toward_the_middle() -> None:
    building = hut(ties={"size": "2x6"})
    centres = sorted(sum(world_box(m)[k][0] for k in (0, 1)) / 2 for m in ties(building))
    # rafters on multiples of 16 to 352: from 16 to 176 on their right, from 192 on on their left
    assert centres == [16 * k + 1.5 for k in range(1, 12)] + [16 * k - 1.5 for k in range(12, 23)]


def test_a_pair_over_the_end_wall_is_left_out() -> None:
    # 23 feet: the last common rafters, at 272 of 276, stand over the studs of the end wall, 5-1/2 deep
    building = built(gable(length="23'", roof={"ridge": BOARD, "ties": {"size": "2x6"}}))
    assert len(ties(building)) == 276 // 16 - 1
    assert [*clashes(building.members, 1 / 32)] == []


@pytest.mark.parametrize(
    ("spots", "apart", "kept"),
    [
        ((16, 32, 48, 64), None, (16, 32, 48, 64)),
        ((16, 32, 48, 64, 80), 32, (16, 48, 80)),
        ((16, 32, 48, 64), 32, (16, 48, 64)),
        ((16, 80), 32, (16, 80)),
        ((16,), 32, (16,)),
        ((), 32, ()),
    ],
)
def test_the_fewest_that_are_near_enough_are_chosen(
    spots: tuple[float, ...], apart: float | None, kept: tuple[float, ...]
) -> None:
    assert chosen(spots, apart) == kept


def test_each_tie_laps_both_rafters_of_its_pair() -> None:
    building = hut(ties={"size": "2x6", "height": '24"'})
    for index in (k for k, m in enumerate(building.members) if m.role.name == "rafter-tie"):
        joints = [j for j in building.joints if j.upper == index]
        lapped = [building.members[j.lower] for j in joints]
        assert {j.kind for j in joints} == {"laps"}
        assert sorted(m.face for m in lapped) == ["north slope", "south slope"]
        # from the lower corner in to where the rafter's underside passes the tie's top: (11.117 + 5.5) x 1.5
        assert [j.bearing_in for j in joints] == pytest.approx([(11.117 + 5.5) * 1.5] * 2, abs=0.001)


def test_joists_bear_on_both_plates_behind_the_blocks() -> None:
    building = hut(ceiling={"size": "2x8"})
    first = next(k for k, m in enumerate(building.members) if m.role.name == "ceiling-joist")
    joints = [j for j in building.joints if j.upper == first and j.kind == "bears"]
    assert [(building.members[j.lower].face, j.bearing_in) for j in joints] == [("south", 4.0), ("north", 4.0)]


def test_joists_are_laid_out_beside_the_rafters_on_both_plates() -> None:
    lines = {line.name: line for line in hut(ceiling={"size": "2x8"}).lines}
    for side in ("south", "north"):
        marks = [m for m in lines[f"{side} wall, top of cap plate"].marks if m.what == "ceiling joist"]
        assert [m.position_in for m in marks][:2] == [17.5, 33.5]
        assert len(marks) == 22
    high = hut(ties={"size": "2x6", "height": '24"'}).lines
    assert all(m.what != "rafter tie" for line in high for m in line.marks)


def test_a_pair_over_a_post_has_no_tie() -> None:
    # the post at 20' is right under the rafters on the layout's 240
    with_post = hut(ridge={**BEAM, "posts": ["20'"]}, ties={"size": "2x6"})
    assert len(ties(with_post)) == len(ties(hut(ridge=BEAM, ties={"size": "2x6"}))) - 1
    assert [*clashes(with_post.members, 1 / 32)] == []


REFUSED: list[tuple[dict[str, Any], str]] = [
    ({"collar": {"size": "2x6", "height": "6'-6\""}}, "into the ridge: put them"),
    ({"collar": {"size": "2x6", "height": "8'"}}, "no room between the slopes"),
    ({"collar": {"size": "2x6", "height": '10"'}, "ceiling": {"size": "2x12"}}, "stand in the ceiling joists"),
    ({"ties": {"size": "2x4", "grade": "stud"}}, "which is made 10'-0\" long at most"),
]


@pytest.mark.parametrize(("roof", "words"), REFUSED, ids=["ridge", "peak", "joists", "too long"])
def test_ties_that_have_no_room_are_refused_in_words(roof: dict[str, Any], words: str) -> None:
    with pytest.raises(PlanError, match=words):
        hut(**roof)


def test_how_many_there_are_and_where_is_told() -> None:
    (finding,) = told("frame.ties", ties={"size": "2x6", "height": '24"', "spacing": '48"'})
    assert finding.message.startswith("8 rafter ties of 2x6 are lapped beside the rafters")
    assert "2'-0\" over the plates" in finding.message


RAKED: dict[str, Any] = {
    "overhang": {"eave": '16"', "rake": '12"'},
    "barge": {"size": "2x10"},
    "outlookers": {"spacing": '32"'},
}
SOUND: list[dict[str, Any]] = [
    {"ceiling": {"size": "2x8"}, "collar": {"size": "1x6", "spacing": '48"'}},
    {"ties": {"size": "2x6"}, "collar": {"size": "2x4"}, **RAKED},
    {"ceiling": {"size": "2x10"}, "pitches": {"north": "5/12"}, **RAKED},
    {"ties": {"size": "2x6", "height": '12"'}, "blocking": {"eave": "solid"}},
    {"ties": {"size": "2x6", "height": '7"'}, "rafters": {"size": "2x8", "spacing": '24"'}},
    {"ceiling": {"size": "2x8"}, "ridge": {**BEAM, "support": "over", "posts": ["10'-8\""], "post": "6x6"}},
    {
        "ties": {"size": "2x6"},
        "walls": {"by_side": {s: {"frame": "balloon"} for s in ("east", "west")} | {"north": {"height": "7'"}}},
    },
    {
        "ceiling": {"size": "2x8"},
        "skylights": [{"side": "south", "center": "10'", "up": "4'", "width": '30"', "height": '46"'}],
    },
]


@pytest.mark.parametrize("roof", SOUND, ids=range(len(SOUND)))
def test_ties_stand_in_nothing(roof: dict[str, Any]) -> None:
    building = hut(**roof)
    assert ties(building)
    assert [(a.name, b.name, b.face, round(v, 2)) for a, b, v in clashes(building.members, 1 / 32)] == []


roofs = st.fixed_dictionaries(
    {
        "pitch": st.sampled_from(["4/12", "6/12", "8/12", "12/12"]),
        "pitches": st.sampled_from([{}, {}, {"north": "5/12"}, {"south": "10/12"}]),
        "rafters": st.fixed_dictionaries(
            {"size": st.sampled_from(["2x6", "2x8", "2x10"]), "spacing": st.sampled_from([12.0, 16.0, 24.0])}
        ),
        "ridge": st.sampled_from([BOARD, BEAM, {**BEAM, "support": "over"}, {**BEAM, "posts": ["10'", "12'"]}]),
        "blocking": st.sampled_from([{}, {"eave": "solid"}, {"eave": "none"}]),
        "overhang": st.sampled_from([{}, {"eave": 12.0, "rake": 12.0}]),
    },
    optional={
        "ties": st.fixed_dictionaries(
            {"size": st.sampled_from(["2x4", "2x6"]), "height": st.floats(0, 24), "spacing": st.sampled_from([24, 48])}
        ),
        "collar": st.fixed_dictionaries({"size": st.sampled_from(["1x4", "2x4", "2x6"])}),
    },
)


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow])
@given(roof=roofs, length=st.floats(180, 400), span=st.floats(120, 288))
def test_ties_of_any_gable_roof_stand_in_nothing_and_lap_what_they_tie(
    roof: dict[str, Any], length: float, span: float
) -> None:
    building = gable(
        length=length, span=span, walls={"by_side": {s: {"frame": "balloon"} for s in ("east", "west")}}, roof=roof
    )
    assume(accepted(building))
    framed = built(building)
    assert [(a.name, b.name, round(v, 2)) for a, b, v in clashes(framed.members, 1 / 32)] == []
    for index in (k for k, m in enumerate(framed.members) if m.role.name in TIES):
        assert sum(j.kind == "laps" and j.upper == index for j in framed.joints) == 2
