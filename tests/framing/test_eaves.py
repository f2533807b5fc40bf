"""Eaves: which block fits over the plate, where it stands, the air it leaves, and the fascia."""

from __future__ import annotations

from itertools import pairwise

import pytest
from measured import world_box
from shop import built, gable, with_role

from takeoff.catalog.profiles import profile
from takeoff.findings import Place, Severity
from takeoff.framing.eaves import eave_blocking, fascia_drop
from takeoff.framing.frame import frame


def test_a_vented_block_is_the_deepest_size_that_leaves_an_inch_of_air() -> None:
    # 8.367 over the plate: a 2x8 of 7-1/4 leaves 1.117
    block = eave_blocking(8.367, vented=True)
    assert block is not None
    assert (block.profile.name, block.height) == ("2x8", 7.25)
    assert block.air == pytest.approx(1.117)
    # an inch and nothing over is still an inch
    exact = eave_blocking(8.25, vented=True)
    assert exact is not None
    assert exact.profile.name == "2x8"


def test_a_block_that_would_leave_less_than_an_inch_gives_way_to_the_next_size_down() -> None:
    block = eave_blocking(8.24, vented=True)
    assert block is not None
    assert block.profile.name == "2x6"


def test_a_solid_block_is_ripped_from_the_least_size_that_reaches_the_sheathing() -> None:
    block = eave_blocking(8.367, vented=False)
    assert block is not None
    assert (block.profile.name, block.height, block.air) == ("2x10", 8.367, 0.0)


@pytest.mark.parametrize(
    ("stand", "vented", "size"),
    [(2.0, True, None), (15.5, False, None), (8.367, True, "2x10"), (8.367, False, "2x8")],
    ids=["too low for any", "too high for any", "asked for too deep", "asked for too shallow"],
)
def test_where_no_size_fits_there_is_no_block(stand: float, vented: bool, size: str | None) -> None:
    assert eave_blocking(stand, vented=vented, size=profile(size) if size else None) is None


def test_a_size_asked_for_is_taken_where_it_fits() -> None:
    block = eave_blocking(8.367, vented=True, size=profile("2x4"))
    assert block is not None
    assert (block.profile.name, round(block.air, 3)) == ("2x4", 4.867)


def test_blocks_stand_in_every_bay_flush_with_the_outside_of_the_wall() -> None:
    building = built(gable(length="8'"))
    blocks = [m for m in with_role(building.members, "eave-block") if m.face == "south eave"]
    bays = sorted((world_box(m)[0][0], world_box(m)[1][0]) for m in blocks)
    # rafters centred on 16s between end rafters flush with the ends of 96
    centres = [0.75, 16, 32, 48, 64, 80, 95.25]
    assert bays == [(a + 0.75, b - 0.75) for a, b in pairwise(centres)]
    assert {world_box(m)[0][1] for m in blocks} == {0.0}
    assert {world_box(m)[0][2] for m in blocks} == {97.125}


def test_the_air_over_vented_blocks_is_their_clear_height_in_every_bay_of_both_eaves() -> None:
    building = built(gable(length="8'"))
    (height,) = {m.profile.depth_in for m in with_role(building.members, "eave-block")}
    stand = with_role(building.members, "common-rafter")[0].rafter
    assert stand is not None
    # bays: two of 13.75 at the ends, four of 14.5 between
    wanted = 2 * (stand.height_above_plate - height) * (2 * 13.75 + 4 * 14.5)
    assert building.vent_area_sqin == pytest.approx(wanted, abs=0.2)
    assert built(gable(roof={"blocking": {"eave": "solid"}})).vent_area_sqin == 0


def test_a_dropped_fascia_hangs_by_its_depth_and_the_slope_over_its_thickness() -> None:
    # 5-1/2 and 1-1/2 x 8/12
    assert fascia_drop(8 / 12, profile("2x6")) == pytest.approx(6.5)


def test_a_barge_under_a_fascia_is_cut_off_level_so_that_it_does_not_hang_below_it() -> None:
    roof = {"overhang": {"eave": '16"', "rake": '12"'}, "barge": {"size": "2x10"}, "fascia": {"size": "2x6"}}
    members = built(gable(roof=roof)).members
    boards = [world_box(m)[0][2] for m in with_role(members, "fascia")]
    barges = [world_box(m)[0][2] for m in with_role(members, "barge")]
    assert min(barges) == pytest.approx(min(boards))


def test_a_steep_eave_without_an_overhang_to_give_up_is_said_to_end_lower() -> None:
    # 2x8 on seats of 4: the flat slope stands 7.25 * sqrt(1 + (1/6)^2) - 4/6 = 6.683 over its plate, the steep one
    # 7.25 * sqrt(1 + (7/6)^2) - 4 * 7/6 = 6.474: at the wall's face it is 0.209 lower.
    building = gable(roof={"pitch": "2/12", "pitches": {"north": "14/12"}, "rafters": {"size": "2x8", "seat": 4}})
    found = frame(building, lambda path: Place(path=path))[1]
    (told,) = [f for f in found if f.rule == "frame.overhang" and f.severity is Severity.WARNING]
    assert told.where == "north eave"
    assert 'ends 3/16" lower than that of a flatter slope' in told.message
