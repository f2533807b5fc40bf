"""Backing by list: blocks in the bays it reaches into, flush inside, clear of all else."""

from __future__ import annotations

import pytest
from measured import world_box
from shop import built, gable, with_role

from takeoff.checks.audit import overlaps
from takeoff.model.building import FramedBuilding


def backed(**more: object) -> FramedBuilding:
    asked = [{"wall": "south", "height": '34"', "from": "4'", "to": "8'", "size": "2x8"}]
    return built(gable(walls={"backing": asked, **more}))


def test_backing_fills_every_bay_it_reaches_into_and_is_flush_inside():
    boxes = sorted(world_box(m) for m in with_role(backed().members, "backing-block"))
    # studs at 48, 64, 80 and 96 inches
    assert [(low[0], high[0]) for low, high in boxes] == [
        pytest.approx((48.75, 63.25)), pytest.approx((64.75, 79.25)), pytest.approx((80.75, 95.25)),
    ]  # fmt: skip
    assert all((low[1], high[1]) == pytest.approx((4.0, 5.5)) for low, high in boxes)
    assert all((low[2], high[2]) == pytest.approx((34 - 3.625, 34 + 3.625)) for low, high in boxes)


def test_backing_leaves_openings_free_and_stands_in_nothing():
    frame = backed(openings=[{"side": "south", "center": "6'", "size": 2040}])
    for low, high in map(world_box, with_role(frame.members, "backing-block")):
        assert high[0] <= 72 - 12.25 + 1e-6 or low[0] >= 72 + 12.25 - 1e-6
    assert list(overlaps(frame.members)) == []


def test_backing_in_a_partition_is_measured_along_it_as_it_is_written():
    walls = {
        "partitions": [{"name": "bath", "from": ["14'", 0], "to": ["14'", "20'"]}],
        "backing": [{"wall": "bath", "height": '36"', "from": "6'", "to": "9'"}],
    }
    frame = built(gable(walls=walls))
    boxes = [world_box(m) for m in with_role(frame.members, "backing-block")]
    assert min(low[1] for low, _ in boxes) <= 72 + 0.75
    assert max(high[1] for _, high in boxes) >= 108 - 0.75
    assert list(overlaps(frame.members)) == []
