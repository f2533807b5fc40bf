"""Settings of a job that reach the cutting: boards on hand, and how many lengths may be bought."""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path

import pytest
from shop import CABIN

from takeoff.findings import PlanError
from takeoff.model.takeoff import Takeoff
from takeoff.pipeline import take_off


def with_settings(folder: Path, words: str) -> Takeoff:
    plan = folder / "cabin.yaml"
    plan.write_text(f"{CABIN.read_text()}\nsettings: {{{words}}}\n")
    return take_off(plan)


def ordered(takeoff: Takeoff, profile: str, grade: str) -> int:
    return sum(line.qty_net for line in takeoff.order if (line.profile, line.grade) == (profile, grade))


def test_boards_on_hand_are_used_first_and_not_ordered(tmp_path: Path) -> None:
    (tmp_path / "yard.csv").write_text("profile,grade,length_in,qty\n2x10,no2,16',6\n2x12,no2,8',2\n")
    takeoff = with_settings(tmp_path, "on_hand: yard.csv")
    assert sum(board.on_hand for board in takeoff.lumber.boards) == 6
    assert ordered(takeoff, "2x10", "no2") == 48 - 6
    unused = [f for f in takeoff.findings if "2x12" in f.where]
    assert len(unused) == 1, "boards that nothing is cut from are told"


@pytest.mark.parametrize("most", [1, 2])
def test_no_more_lengths_are_bought_than_the_plan_lets(tmp_path: Path, most: int) -> None:
    takeoff = with_settings(tmp_path, f"max_lengths: {most}")
    lengths = defaultdict(set)
    for board in takeoff.lumber.boards:
        lengths[board.load, board.profile, board.grade].add(board.stock_length_in)
    assert max(len(found) for found in lengths.values()) <= most


def test_trim_and_effort_of_the_plan_reach_the_boards(tmp_path: Path) -> None:
    takeoff = with_settings(tmp_path, "trim: 1/2\", effort: quick, least_leftover: 3'")
    by_the_foot = [board for board in takeoff.lumber.boards if board.stock_length_in % 12 == 0]
    assert {board.trim_in for board in by_the_foot} == {0.5}
    assert all(board.starts_in[0] == board.trim_in for board in takeoff.lumber.boards)
    assert not any(board.special for board in takeoff.lumber.boards), "plates are joined so that trimmed boards do"


def test_a_list_of_boards_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(PlanError, match=r"nowhere\.csv") as caught:
        with_settings(tmp_path, "on_hand: nowhere.csv")
    assert {finding.rule for finding in caught.value.findings} == {"plan.prices"}
