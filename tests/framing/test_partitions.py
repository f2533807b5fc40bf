"""Partitions: cut back to the walls they meet, backed there, parted where they cross; tees, corners, ends."""

from __future__ import annotations

from math import sqrt
from typing import Any

import pytest
from any_roofs import ell
from measured import world_box
from shop import built, gable, roofed, with_role

from takeoff.checks.audit import overlaps
from takeoff.findings import PlanError
from takeoff.model.building import FramedBuilding


def with_partitions(*partitions: dict[str, Any], **walls: Any) -> FramedBuilding:
    """A hut of 30 by 20 feet, its walls of 2x6."""
    return built(gable(walls={"partitions": list(partitions), **walls}))


def line(name: str, start: tuple[str, str], end: tuple[str, str], **more: Any) -> dict[str, Any]:
    return {"name": name, "from": list(start), "to": list(end), **more}


MIDDLE = line("middle", ("14'", "0"), ("14'", "20'"))
CROSS = line("cross", ("0", "12'"), ("30'", "12'"))
AROUND = (
    line("long", ("20'", "0"), ("20'", "6'")),
    line("short", ("20'", "6'"), ("24'", "6'")),
    line("stub", ("5'", "20'"), ("5'", "17'")),
    line("skew", ("8'", "20'"), ("10'", "17'")),
)


def of(frame: FramedBuilding, face: str, *roles: str) -> list[tuple[tuple[float, ...], tuple[float, ...]]]:
    return sorted(world_box(m) for m in with_role(frame.members, *roles) if m.face == face)


def test_a_partition_written_to_the_outline_is_cut_back_to_the_insides_of_the_walls():
    # 20'-0" less two walls of 5-1/2
    ((low, high),) = of(with_partitions(MIDDLE), "middle", "bottom-plate")
    assert (low[1], high[1]) == pytest.approx((5.5, 234.5))
    assert (low[0], high[0]) == pytest.approx((168 - 1.75, 168 + 1.75))


def test_its_cap_plate_laps_over_the_walls_it_ends_in_whose_own_leave_room():
    frame = with_partitions(MIDDLE)
    ((low, high),) = of(frame, "middle", "cap-plate")
    assert (low[1], high[1]) == pytest.approx((0.0, 240.0))
    south = [(a[0], b[0]) for a, b in of(frame, "south", "cap-plate")]
    assert any(b == pytest.approx(166.25) for _, b in south)
    assert any(a == pytest.approx(169.75) for a, _ in south)


def test_a_lower_partition_laps_over_nothing():
    ((low, high),) = of(with_partitions({**MIDDLE, "height": "7'-6\""}), "middle", "cap-plate")
    assert (low[1], high[1]) == pytest.approx((5.5, 234.5))
    assert high[2] == pytest.approx(90.0)


def test_behind_a_tee_stand_two_studs_with_a_flat_one_between_them_flush_inside():
    frame = with_partitions(MIDDLE)
    beside, flat, other = of(frame, "south", "tee-stud")
    assert (beside[0][0], beside[1][0]) == pytest.approx((164.75, 166.25))
    assert (other[0][0], other[1][0]) == pytest.approx((169.75, 171.25))
    assert (flat[0][0], flat[1][0]) == pytest.approx((166.25, 169.75))
    assert (flat[0][1], flat[1][1]) == pytest.approx((4.0, 5.5))


def test_blocks_behind_a_tee_are_two_feet_apart_at_most_and_flush_inside():
    frame = with_partitions(MIDDLE, tees="blocks")
    assert not of(frame, "south", "tee-stud")
    blocks = of(frame, "south", "tee-block")
    middles = sorted({(low[2] + high[2]) / 2 for low, high in blocks})
    steps = [b - a for a, b in zip([0.0, *middles], [*middles, 94.125], strict=True)]
    assert max(steps) <= 24
    assert all((low[1], high[1]) == pytest.approx((4.0, 5.5)) for low, high in blocks)


def test_a_later_partition_is_parted_by_an_earlier_one_which_is_backed_at_both_sides():
    frame = with_partitions(MIDDLE, CROSS)
    assert len(of(frame, "middle", "bottom-plate")) == 1
    ((_, first),), ((second, _),) = (of(frame, f"cross {k}", "bottom-plate") for k in (1, 2))
    assert (first[0], second[0]) == pytest.approx((166.25, 169.75))
    flats = [(low, high) for low, high in of(frame, "middle", "tee-stud") if high[1] - low[1] > 2]
    assert sorted((low[0], high[0]) for low, high in flats) == [
        pytest.approx((166.25, 167.75)), pytest.approx((168.25, 169.75)),
    ]  # fmt: skip


def test_at_a_corner_of_two_partitions_the_earlier_runs_through_and_has_backing():
    frame = with_partitions(*AROUND)
    ((_, through),) = of(frame, "long", "bottom-plate")
    assert through[1] == pytest.approx(72 + 1.75)
    ((butt, _),) = of(frame, "short", "bottom-plate")
    assert butt[0] == pytest.approx(240 + 1.75)
    assert len(of(frame, "long", "corner-stud")) == 1


def test_a_free_end_has_a_post_of_two_studs():
    studs = [(low[1], high[1]) for low, high in of(with_partitions(*AROUND), "stub", "stud", "corner-stud")]
    assert studs[0] == pytest.approx((204, 205.5))
    assert studs[1] == pytest.approx((205.5, 207))


def test_a_skew_partition_has_bevelled_plates_and_its_studs_clear_of_the_wall():
    frame = with_partitions(*AROUND)
    (plate,) = (m for m in with_role(frame.members, "bottom-plate") if m.face == "skew")
    # 24 over 36: the saw is turned by the angle whose tangent that is
    assert sorted(round(abs(cut.miter_deg), 3) for cut in plate.cuts) == [0.0, 33.690]


@pytest.mark.parametrize("tees", ["channel", "blocks"])
@pytest.mark.parametrize("studs", ["2x4", "2x6"])
def test_no_stick_of_walls_and_partitions_stands_in_another(tees, studs):
    frame = with_partitions({**MIDDLE, "studs": studs}, CROSS, *AROUND, tees=tees, frame="platform")
    assert list(overlaps(frame.members)) == []


def test_a_partition_that_reaches_into_the_roof_is_refused_by_how_far():
    low = line("low", ("13'-4\"", "0"), ("13'-4\"", "4'"), height="9'")
    with pytest.raises(PlanError) as refused:
        with_partitions(low)
    (finding,) = refused.value.findings
    # 9'-0" less the plates' 8'-1 1/8", where the seat of 4-1/8" ends behind the wall's inside
    assert "'low', 9'-0\" high, reaches 9" in finding.message
    tall = line("tall", ("13'-4\"", "8'"), ("13'-4\"", "12'"), height="9'")
    assert list(overlaps(with_partitions(tall).members)) == []


def test_blocks_of_two_tees_in_one_bay_are_there_once():
    pair = (line("one", ("8'", "14'"), ("8'", "20'")), line("two", ("8'-9\"", "14'"), ("8'-9\"", "20'")))
    assert list(overlaps(with_partitions(*pair, tees="blocks").members)) == []


@pytest.mark.parametrize("height", ["8'-1 1/8\"", "10'"])
def test_a_tee_in_a_tall_gable_is_parted_by_its_fire_blocks(height):
    balloon = {side: {"frame": "balloon"} for side in ("east", "west")}
    frame = with_partitions({**CROSS, "height": height}, by_side=balloon)
    assert len(of(frame, "east", "fire-block")) > 0
    assert list(overlaps(frame.members)) == []


@pytest.mark.parametrize(("posts", "count"), [("two-stud", 0), ("three-stud", 4), ("four-stud", 8)])
def test_corner_posts_are_as_the_plan_has_them(posts, count):
    frame = built(gable(walls={"corner_posts": posts}))
    assert len(with_role(frame.members, "corner-stud")) == count
    clips = sum(f.qty for f in frame.fittings if f.name == "backing-clip")
    assert bool(clips) == (posts == "two-stud")
    assert list(overlaps(frame.members)) == []


def test_nothing_bears_on_a_partition_that_carries_nothing_so_its_header_is_one_flat_ply():
    door = {"center": "10'", "size": 2668, "kind": "door"}
    light = with_partitions({**MIDDLE, "openings": [door]})
    ((low, high),) = of(light, "middle", "header")
    assert (high[2] - low[2], high[0] - low[0]) == pytest.approx((1.5, 3.5))
    bearing = with_partitions({**MIDDLE, "openings": [door], "bearing": True})
    assert len(of(bearing, "middle", "header")) == 2


_CUT, _FAR = (
    288 / (2 + sqrt(2)),
    288 - 288 / (2 + sqrt(2)),
)  # all sides of one length, so that all hips meet in one point
OCTAGON = [(0, _CUT), (_CUT, 0), (_FAR, 0), (288, _CUT), (288, _FAR), (_FAR, 288), (_CUT, 288), (0, _FAR)]


@pytest.mark.parametrize("points", [OCTAGON, ell(360, 240, 168, 160)], ids=["octagon", "ell"])
def test_walls_of_any_outline_lie_on_it_once_with_their_corners_bevelled(points):
    from roof_measure import in_plan
    from shapely import Polygon, union_all

    frame = built(roofed(points))
    ground = Polygon(points)
    ring = ground.difference(ground.buffer(-5.5, join_style="mitre"))
    for level in ("bottom-plate", "top-plate", "cap-plate"):
        plates = [in_plan(m) for m in with_role(frame.members, level)]
        assert union_all(plates, grid_size=1e-6).symmetric_difference(ring).area == pytest.approx(0, abs=0.05)
        assert sum(p.area for p in plates) == pytest.approx(ring.area, abs=0.05)


def test_a_partition_through_a_post_under_the_ridge_is_refused() -> None:
    ridge = {"kind": "beam", "size": "5-1/2x14", "material": "glulam", "posts": ["10'"]}
    line = {"name": "mid", "from": ["10'", 0], "to": ["10'", "20'"]}
    with pytest.raises(PlanError, match="runs through the post under the ridge beam"):
        built(gable(walls={"partitions": [line]}, roof={"ridge": ridge}))
