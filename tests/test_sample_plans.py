"""Every sample plan runs as it stands, into a frame whose sticks leave each other room."""

from __future__ import annotations

from pathlib import Path

import pytest
from calculator import SOFFICE
from changed_workbook import assert_follows
from shop import SAMPLES

from takeoff.findings import Severity
from takeoff.pipeline import audited, take_off, write_takeoff

PLANS = sorted(SAMPLES.glob("*.yaml"))
SHAPES = {
    "dunlin-studio": {"floor-joist", "tail-joist", "girder", "loft-ledger", "floor-post"},
    "curlew-cabin": {"common-rafter", "end-rafter", "barge", "ridge-beam", "outlooker"},
    "dipper-bunkhouse": {"common-rafter", "end-rafter", "ridge-beam", "tee-stud", "backing-block"},
    "godwit-barn": {"common-rafter", "end-rafter", "barge", "purlin-beam", "ridge-beam"},
    "plover-hut": {
        "common-rafter",
        "end-rafter",
        "hip",
        "valley",
        "hip-jack",
        "valley-jack",
        "ridge-board",
        "valley-plate",
    },
    "sanderling-saltbox": {"common-rafter", "end-rafter", "barge", "ridge-beam", "ledger", "porch-beam", "porch-post"},
    "tern-boat-shelter": {"common-rafter", "hip", "hip-jack", "ridge-board"},
    "wren-tool-store": {"common-rafter", "end-rafter"},
}
"""Roles that each plan is there to show."""


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.stem)
def test_a_sample_plan_gives_its_roof_all_files_and_a_workbook_that_follows_a_change(
    plan: Path, tmp_path: Path
) -> None:
    takeoff = take_off(plan)
    roles = {member.role.name for building in takeoff.buildings for member in building.members}
    assert SHAPES[plan.stem] <= roles
    assert not [finding for finding in takeoff.findings if finding.severity is Severity.ERROR]
    files = write_takeoff(takeoff, tmp_path / "results")
    assert {"order.xlsx", "cut_sheets.pdf", "takeoff.json", "rafters.csv"} <= set(files)
    assert all((tmp_path / "results" / name).stat().st_size for name in files)
    if SOFFICE:  # here, since the plan is taken off already
        assert_follows(takeoff, (tmp_path / "results" / "order.xlsx").read_bytes(), tmp_path)


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.stem)
def test_no_two_sticks_of_a_sample_plan_stand_in_each_other(plan: Path) -> None:
    assert {finding.severity for finding in audited(take_off(plan))} == {Severity.NOTE}
