"""Loads and sticks heavier than truck and lift take."""

from __future__ import annotations

from pathlib import Path

import pytest
from shop import CABIN

from takeoff.findings import PlanError
from takeoff.model.takeoff import Takeoff
from takeoff.order.weight_limits import trips
from takeoff.pipeline import take_off


def cabin(folder: Path, words: str) -> Takeoff:
    plan = folder / "cabin.yaml"
    plan.write_text(f"{CABIN.read_text()}\nsettings: {{{words}}}\n")
    return take_off(plan)


def test_a_load_over_the_trucks_weight_is_told_with_its_trips(tmp_path: Path) -> None:
    takeoff = cabin(tmp_path, "truck: '3,000 lb'")
    weights: dict[int, float] = {}
    for line in takeoff.order:
        weights[line.load] = weights.get(line.load, 0.0) + line.weight_lb
    told = {f.where: f for f in takeoff.findings if f.rule == "order.truck"}
    assert told.keys() == {f"load {load}" for load, weight in weights.items() if weight > 3000}
    assert all("2 trips" in finding.message for finding in told.values())


def test_a_beam_over_the_lift_is_told_and_a_stud_is_not(tmp_path: Path) -> None:
    told = [f for f in cabin(tmp_path, "lift: 500").findings if f.rule == "order.lift"]
    assert [finding.where for finding in told] == ["structural ridge beam RB1"]


def test_nothing_is_compared_with_what_the_plan_doesnt_say(tmp_path: Path) -> None:
    assert not [f for f in cabin(tmp_path, "round: 16").findings if f.rule in ("order.truck", "order.lift")]


@pytest.mark.parametrize("weight", ["heavy", "-5", "0", "yes", "8 tons"])
def test_a_weight_that_is_none_is_refused(tmp_path: Path, weight: str) -> None:
    with pytest.raises(PlanError, match="expected a weight"):
        cabin(tmp_path, f"truck: {weight}")


def test_trips_are_the_least_whole_number() -> None:
    assert [trips(weight, 1000.0) for weight in (0.0, 999.0, 1000.0, 1000.1, 2500.0)] == [1, 1, 1, 2, 3]
