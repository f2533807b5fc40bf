"""Floors and lofts: what is framed, what it bears on, and what stands in what."""

from __future__ import annotations

from typing import Any

import pytest
from shop import built, gable, roofed, with_role

from takeoff.checks.audit import audit, overlaps
from takeoff.findings import Place, PlanError, Severity
from takeoff.framing.frame import frame
from takeoff.model.building import FramedBuilding
from takeoff.order.hardware import count_hardware
from takeoff.plan.floors import Floors
from takeoff.plan.schema import Building

WALLS = {"height": "9'"}
GIRDER = {"from": [0, "10'"], "to": ["30'", "10'"], "size": "3-2x10"}
ELL = [(0, 0), (336, 0), (336, 168), (144, 168), (144, 312), (0, 312)]
SKEW = [(0, 0), (300, 0), (360, 120), (360, 240), (0, 240)]


def main(**floor: Any) -> Building:
    return gable(walls=WALLS, floors={"main": {"joists": {"size": "2x10"}, **floor}})


def loft(**floor: Any) -> Building:
    wanted = {"side": "west", "depth": "8'", "height": "7'", "joists": {"size": "2x8"}, **floor}
    return gable(walls=WALLS, floors={"lofts": [wanted]})


def on(points: list[tuple[int, int]], **floor: Any) -> Building:
    floors = Floors.model_validate({"main": {"joists": {"size": "2x10", "span": "north-south"}, **floor}})
    return roofed(points).model_copy(update={"floors": floors})


def clashes_of_floors(building: FramedBuilding) -> list[str]:
    names = {face.name for face in building.faces if face.kind == "floor"}
    warnings = [found for found in audit(building) if found.severity is Severity.WARNING]
    return [found.message for found in warnings if any(f"({name})" in found.message for name in names)]


PLANS = {
    "lapped, blocked over the girder": main(girders=[GIRDER], splice="lap", blocking={"over_girders": True}),
    "running on over the girder": main(girders=[GIRDER], splice="none", joists={"size": "i-joist-11-7/8"}),
    "hung on the girder": main(girders=[{**GIRDER, "joists": "hang"}]),
    "open-web": main(joists={"size": "open-web-14"}),
    "doubled and opened": main(
        doubled=[{"from": ["10'", "2'"], "to": ["10'", "12'"]}],
        openings=[{"corner": ["4'", "4'"], "size": ["3'", "10'"]}],
    ),
    "rows of blocks": main(joists={"size": "2x14"}),
    "L with a girder to the inside corner": on(
        ELL, girders=[{"from": [0, "14'"], "to": ["12'", "14'"], "size": "4x8"}]
    ),
    "skew": on(SKEW),
    "skew, joists along the other way": on(SKEW, joists={"size": "2x10", "span": "east-west"}),
    "loft bearing on ledger and beam": loft(
        walls="bear", beam={"size": "3-2x10", "joists": "over", "posts": ["2'", "10'"]}
    ),
    "loft hung": loft(
        beam={"size": "3-1/2x11-7/8", "grade": "lvl"}, openings=[{"corner": ["3'", "5'"], "size": [30, 30]}]
    ),
}


@pytest.mark.parametrize("name", PLANS)
def test_no_stick_of_a_floor_stands_in_another(name: str) -> None:
    assert not clashes_of_floors(built(PLANS[name]))


@pytest.mark.parametrize("name", PLANS)
def test_deck_sheets_cover_the_floor_exactly_once(name: str) -> None:
    building = built(PLANS[name])
    for face in building.faces:
        if face.kind == "floor":
            covered = sum(panel.polygon.area for panel in building.panels if panel.face == face.name)
            assert covered == pytest.approx(face.outline.polygon.area)


@pytest.mark.parametrize("name", PLANS)
def test_every_joist_is_carried_at_two_places(name: str) -> None:
    building = built(PLANS[name])
    carried: dict[int, set[int]] = {}
    for joint in building.joints:
        if joint.kind in ("bears", "hangs"):
            carried.setdefault(joint.upper, set()).add(joint.lower)
    joists = ("floor-joist", "tail-joist", "trimmer-joist", "partition-joist")
    for index, member in enumerate(building.members):
        if member.role.name in joists:
            assert len(carried.get(index, ())) >= 2, member.mark


def test_the_main_floors_joists_lie_under_the_deck_and_its_walls_stay() -> None:
    with_floor, without = built(main()), built(gable(walls=WALLS))
    (joist, *_) = with_role(with_floor.members, "floor-joist")
    # 23/32 of deck, then 9-1/4 of joist
    assert joist.placement.origin[2] == pytest.approx(-23 / 32 - 9.25)
    walls = [m.placement for m in without.members]
    assert [m.placement for m in with_floor.members[: len(walls)]] == walls


def test_joists_lap_by_the_girders_width_and_stand_side_by_side() -> None:
    building = built(PLANS["lapped, blocked over the girder"])
    laps = [joint for joint in building.joints if joint.kind == "laps"]
    assert len(laps) == 22
    assert {joint.bearing_in for joint in laps} == {4.5}


def test_a_loft_hung_between_ledger_and_beam_counts_a_hanger_at_each_end() -> None:
    building = built(loft(beam={"size": "3-1/2x11-7/8", "grade": "lvl"}))
    ends = 2 * len(with_role(building.members, "floor-joist", "rim-joist"))
    assert {(c.name, c.profile): c.qty for c in count_hardware([building])}["joist-hanger", "2x8"] == ends


def test_a_partition_line_puts_two_joists_side_by_side_in_its_spans_only() -> None:
    building = built(main(girders=[GIRDER], doubled=[{"from": ["10'-4\"", "1'"], "to": ["10'-4\"", "8'"]}]))
    pair = with_role(building.members, "partition-joist")
    assert sorted(m.placement.origin[0] for m in pair) == [123.25, 124.75]
    assert max(m.placement.origin[1] + m.length_in for m in pair) == pytest.approx(120)


def test_an_opening_has_doubled_headers_and_trimmers_and_tails_on_the_layout() -> None:
    building = built(PLANS["doubled and opened"])
    assert len(with_role(building.members, "floor-header")) == 4
    assert len(with_role(building.members, "trimmer-joist")) == 4
    tails = with_role(building.members, "tail-joist")
    assert {m.placement.origin[0] for m in tails} == {64.0, 80.0}


def test_a_joist_deeper_than_six_times_its_thickness_is_bridged_at_most_8_feet_apart() -> None:
    building = built(PLANS["rows of blocks"])
    rows = {round(m.placement.origin[1] / 12) for m in with_role(building.members, "floor-block")}
    assert len(rows) == 2  # 20 ft in three parts
    assert not with_role(built(main()).members, "floor-block")


def test_layout_of_joists_is_on_both_rims_and_the_girder() -> None:
    building = built(main(girders=[GIRDER]))
    lines = {line.name: line for line in building.lines if line.name.startswith("main floor")}
    assert set(lines) == {"main floor, south rim", "main floor, north rim", "main floor, girder 1"}
    marks = [[m.position_in for m in line.marks] for line in lines.values()]
    assert marks[0] == marks[1] == marks[2]
    assert all(line.load == 1 for line in lines.values())


def with_partition(start: list[Any], end: list[Any]) -> Building:
    walls = {**WALLS, "partitions": [{"name": "bath", "from": start, "to": end}]}
    return gable(walls=walls, floors={"main": {"joists": {"size": "2x10"}, "girders": [GIRDER]}})


def test_a_partition_along_the_joists_stands_on_two_of_them_and_one_across_on_none_of_its_own() -> None:
    building = built(with_partition(["10'-4\"", "0'"], ["10'-4\"", "8'"]))
    pair = with_role(building.members, "partition-joist")
    assert sorted(m.placement.origin[0] for m in pair) == [123.25, 124.75]
    assert not clashes_of_floors(building)
    across = built(with_partition(["2'", "5'"], ["12'", "5'"]))
    assert not with_role(across.members, "partition-joist")


def told(building: Building) -> list[str]:
    return [finding.message for finding in frame(building, lambda path: Place(path=path))[1]]


def test_a_beam_of_one_ply_is_called_by_its_size_alone() -> None:
    messages = told(loft(beam={"size": "3-1/2x11-7/8", "grade": "lvl"}))
    assert any(message.startswith("beam of 3-1/2x11-7/8 is") for message in messages)


RIDGE_POST = {"ridge": {"kind": "beam", "size": "5-1/2x14", "material": "glulam", "posts": ["6'"]}}


@pytest.mark.parametrize(
    ("changes", "party"),
    [
        ({"roof": RIDGE_POST}, "ridge post"),
        ({"walls": {**WALLS, "partitions": [{"name": "bath", "from": ["4'", 0], "to": ["4'", "20'"]}]}}, "'bath'"),
    ],
    ids=["a ridge post", "a partition as high as the walls"],
)
def test_a_loft_that_meets_what_stands_inside_is_refused_with_both_named(changes: dict[str, Any], party: str) -> None:
    lofts = [{"side": "west", "depth": "8'", "height": "7'", "joists": {"size": "2x8"}}]
    with pytest.raises(PlanError) as refused:
        built(gable(**{"walls": WALLS, "floors": {"lofts": lofts}, **changes}))
    [finding] = refused.value.findings
    assert finding.rule == "frame.loft"
    assert "'loft'" in finding.message
    assert party in finding.message


def hardware(building: Building) -> dict[str, int]:
    return {counted.name: counted.qty for counted in count_hardware([built(building)])}


def test_cross_bridging_is_counted_by_the_pair_in_each_bay_of_each_row_in_place_of_blocks() -> None:
    blocks = with_role(built(PLANS["rows of blocks"]).members, "floor-block")
    crossed = main(joists={"size": "2x14"}, blocking={"bridging": "cross"})
    assert not with_role(built(crossed).members, "floor-block")
    assert hardware(crossed)["bridging-pair"] == len(blocks)


def test_glue_is_counted_along_all_that_the_deck_lies_on() -> None:
    # 24 joists of 20' less two rims, and two rims of 30'
    joists = with_role(built(main()).members, "floor-joist", "rim-joist")
    feet = (len(joists) * (240 - 3) + 2 * 360) / 12
    assert hardware(main())["deck-glue"] == pytest.approx(feet, abs=1)
    assert "deck-glue" not in hardware(main(glue=False))


def test_a_partition_that_bears_nothing_may_stand_on_blocks_between_two_joists() -> None:
    walls = {**WALLS, "partitions": [{"name": "bath", "from": ["10'-4\"", "2'"], "to": ["10'-4\"", "10'"]}]}
    floors = {"main": {"joists": {"size": "2x10"}, "blocking": {"under_partitions": "blocks"}}}
    building = built(gable(walls=walls, floors=floors))
    placed = [m.placement.origin for m in with_role(building.members, "floor-block")]
    assert not with_role(building.members, "partition-joist")
    # 8' in six parts of 16" or less, so seven blocks, the outer two flush with the partition's ends
    ends = sorted(y for _, y, _ in placed)
    assert (len(ends), ends[0], ends[-1]) == (7, 24.75, 119.25)
    assert not clashes_of_floors(building)
    bearing = {**walls, "partitions": [{**walls["partitions"][0], "bearing": True}]}
    assert with_role(built(gable(walls=bearing, floors=floors)).members, "partition-joist")


@pytest.mark.parametrize("corner", [238.3, 239.4, 240.0, 240.7])
@pytest.mark.parametrize("drop", [30, 60])
def test_a_joist_at_the_corner_of_a_slanted_side_stands_in_neither_rim(corner: float, drop: int) -> None:
    points = [(0, 0), (300, 0), (300, 240 - drop), (corner, 240), (0, 240)]
    floors = {"main": {"joists": {"size": "2x10", "span": "north-south"}}}
    plan = roofed(points).model_copy(update={"floors": Floors.model_validate(floors)})
    framed, _ = frame(plan, lambda path: Place(path=path))
    assert [*overlaps([m for m in framed.members if m.face == "main floor"])] == []


def test_blocks_of_partitions_side_by_side_stand_in_no_other() -> None:
    beside = [{"name": f"p{k}", "from": [x, "3'"], "to": [x, y]} for k, x, y in ((1, 102, 140), (2, 107, 141))]
    plan = gable(
        walls={**WALLS, "partitions": beside},
        floors={"main": {"joists": {"size": "2x10"}, "blocking": {"under_partitions": "blocks"}}},
    )
    framed, _ = frame(plan, lambda path: Place(path=path))
    assert with_role(framed.members, "floor-block")
    assert [*overlaps(framed.members)] == []
