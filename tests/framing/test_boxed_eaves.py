"""Boxed eaves: level lookouts from a ledger on the sheathing to the tail cuts, and the sheathing over them.

Common practice, no source; the figures are worked out beside the checks.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from measured import clashes, world_box
from shop import Written, built, gable, roofed, with_role

from takeoff.findings import Place, PlanError
from takeoff.framing.frame import frame
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member

THIRTY_SECOND_IN = 1 / 32
BOXED: Written = {
    "overhang": {"eave": '16"'},
    "fascia": {"size": "2x6"},
    "tail": {"cut": "level"},
    "soffit": {"kind": "boxed"},
}
RAKED: Written = {"overhang": {"eave": '16"', "rake": '12"'}, "barge": {"size": "2x6"}}
ELL = [(0, 0), (360, 0), (360, 192), (168, 192), (168, 384), (0, 384)]


def boxed(**roof: object) -> FramedBuilding:
    return built(gable(roof={**BOXED, **roof}))


def south(building: FramedBuilding, role: str) -> list[Member]:
    found = [m for m in with_role(building.members, role) if m.face == "south soffit"]
    return sorted(found, key=lambda m: world_box(m)[0][0])


def test_lookouts_and_ledger_lie_on_the_level_of_the_fascia_s_lower_edge() -> None:
    building = boxed()
    low = min(world_box(m)[0][2] for m in with_role(building.members, "fascia"))
    sticks = with_role(building.members, "lookout", "soffit-ledger")
    assert {round(world_box(m)[0][2], 6) for m in sticks} == {round(low, 6)}


def test_lookouts_reach_from_the_ledger_on_the_sheathing_to_the_back_of_the_fascia() -> None:
    # 7/16 of sheathing and 1-1/2 of ledger: 16 - 1-15/16 = 14-1/16
    building = boxed()
    (length,) = {round(m.length_in, 6) for m in with_role(building.members, "lookout")}
    assert length == 14.0625
    assert {round(world_box(m)[0][1], 6) for m in south(building, "lookout")} == {-16}
    ledgers = {tuple(round(world_box(m)[k][1], 6) for k in (0, 1)) for m in south(building, "soffit-ledger")}
    assert ledgers == {(-1.9375, -0.4375)}


def test_a_lookout_is_beside_every_rafter() -> None:
    building = boxed()
    rafters = [m for m in with_role(building.members, "common-rafter", "end-rafter") if m.face == "south slope"]
    lookouts = south(building, "lookout")
    assert len(lookouts) == len(rafters)
    sides = {round(world_box(m)[0][0], 6) for m in rafters} | {round(world_box(m)[1][0], 6) for m in rafters}
    for lookout in lookouts:
        x = world_box(lookout)
        assert len({round(x[0][0], 6), round(x[1][0], 6)} & sides) == 1


def test_a_ledger_under_deep_tails_is_cut_in_between_them_and_runs_through_under_ripped_ones() -> None:
    # A 2x10 at 3/12, its tail full, comes down to the soffit right at the wall; a 2x4 tail does not.
    deep = south(boxed(pitch="3/12"), "soffit-ledger")
    ripped = south(boxed(pitch="3/12", tail={"cut": "level", "size": "2x4"}), "soffit-ledger")
    assert len(deep) == 23
    assert all(world_box(a)[1][0] + 1.5 <= world_box(b)[0][0] + 1e-6 for a, b in pairwise(deep))
    ends = [(world_box(m)[0][0], world_box(m)[1][0]) for m in ripped]
    assert (ends[0][0], ends[-1][1]) == (0, 360)
    assert all(a[1] == pytest.approx(b[0]) for a, b in pairwise(ends))


def test_no_premium_sheets_are_laid_over_a_boxed_eave_and_they_still_are_at_the_rakes() -> None:
    sheets: Written = {"sheathing": {"field": "cdx-5/8", "exposed": "sanded-5/8"}}
    plain = boxed(**sheets)
    assert {p.zone for p in plain.panels if p.face.endswith("slope")} == {"field"}
    raked = boxed(**{**RAKED, **sheets, "outlookers": {}})
    shown = [p for p in raked.panels if p.zone == "exposed"]
    assert shown
    # from the barge, 12 inches out, to one of the first two rafters that are a bay or more inside
    assert all(p.length_in <= 12 + 2.5 * 16 for p in shown)
    assert all(p.polygon.bounds[0] <= -12 or p.polygon.bounds[2] >= 372 for p in shown)
    open_eaves = boxed(**sheets, soffit={})
    assert any(p.zone == "exposed" for p in open_eaves.panels)


@pytest.mark.parametrize("lookouts", ["2x4", "2x6"])
@pytest.mark.parametrize("pitch", ["3/12", "8/12", "14/12"])
@pytest.mark.parametrize("method", ["pocket", "dropped"])
def test_nothing_stands_in_a_box_where_outlookers_cross_its_end_bays(lookouts: str, pitch: str, method: str) -> None:
    soffit = {"kind": "boxed", "lookouts": lookouts}
    building = boxed(**RAKED, soffit=soffit, pitch=pitch, fascia={"size": "2x8"}, outlookers={"method": method})
    assert list(clashes(building.members, THIRTY_SECOND_IN)) == []
    assert with_role(building.members, "lookout")


@pytest.mark.parametrize("pitch", ["4/12", "10/12"])
def test_boxes_go_round_hips_and_into_valleys(pitch: str) -> None:
    building = built(roofed(ELL, **BOXED, pitch=pitch, hips={"size": "2x10"}, valleys={"size": "2x10"}))
    assert list(clashes(building.members, THIRTY_SECOND_IN)) == []
    assert {m.face for m in with_role(building.members, "soffit-ledger")} == {f"side {k} soffit" for k in range(1, 7)}


def test_a_wing_parts_the_box_of_the_wall_it_stands_on() -> None:
    tee = [(0, 0), (464, 0), (464, 204), (243, 204), (243, 408), (63, 408), (63, 204), (0, 204)]
    keys: Written = {**BOXED, "rafters": {"size": "2x12"}, "valleys": {"size": "2x12"}}
    building = built(roofed(tee, **keys, shape="edges", edges={"side 5": "gable"}))
    boxes = [m for m in with_role(building.members, "soffit-ledger", "lookout") if m.face == "side 3 soffit"]
    spans = [(world_box(m)[0][0], world_box(m)[1][0]) for m in boxes]
    assert any(low > 243 for low, _ in spans)
    assert any(high < 63 for _, high in spans)
    assert all(low > 243 or high < 63 for low, high in spans)


@pytest.mark.parametrize(
    ("roof", "words"),
    [
        # 7/16 of sheathing, 1-1/2 of ledger, 3 of lookout
        ({"overhang": {"eave": '4"'}}, "no room for lookouts"),
        # 6 out at 3/12 under a 1x4 fascia: the soffit is over the plate
        ({"overhang": {"eave": '6"'}, "pitch": "3/12", "fascia": {"size": "1x4"}}, "nothing to hold on to"),
    ],
)
def test_a_box_without_room_is_refused_in_words(roof: Written, words: str) -> None:
    with pytest.raises(PlanError) as refused:
        frame(gable(roof={**BOXED, **roof}), lambda path: Place(path=path))
    assert {(f.rule, f.place.path) for f in refused.value.findings} == {("frame.soffit", "roof.soffit")}
    assert all(words in f.message for f in refused.value.findings)
