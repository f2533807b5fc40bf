"""Every sample plan runs as it stands, into a frame whose sticks leave each other room."""

from __future__ import annotations

from pathlib import Path

import pytest
from calculator import SOFFICE
from changed_workbook import assert_follows
from lettering_checker import illegible
from shop import SAMPLES

from takeoff.findings import Severity
from takeoff.model.takeoff import Takeoff
from takeoff.pipeline import audited, take_off, write_takeoff
from takeoff.sheets.sheet_drawings import sheet_drawings
from takeoff.sheets.title_block import titled

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


@pytest.fixture(scope="module", params=PLANS, ids=lambda plan: plan.stem)
def taken(request: pytest.FixtureRequest) -> tuple[str, Takeoff]:
    """Each plan's name with its take-off, made once for all that is asked of it."""
    return request.param.stem, take_off(request.param)


def test_a_sample_plan_gives_its_roof_all_files_and_a_workbook_that_follows_a_change(
    taken: tuple[str, Takeoff], tmp_path: Path
) -> None:
    plan, takeoff = taken
    roles = {member.role.name for building in takeoff.buildings for member in building.members}
    assert SHAPES[plan] <= roles
    assert not [finding for finding in takeoff.findings if finding.severity is Severity.ERROR]
    files = write_takeoff(takeoff, tmp_path / "results")
    assert {"order.xlsx", "cut_sheets.pdf", "takeoff.json", "rafters.csv"} <= set(files)
    assert all((tmp_path / "results" / name).stat().st_size for name in files)
    if SOFFICE:  # here, since the plan is taken off already
        assert_follows(takeoff, (tmp_path / "results" / "order.xlsx").read_bytes(), tmp_path)


def test_no_two_sticks_of_a_sample_plan_stand_in_each_other(taken: tuple[str, Takeoff]) -> None:
    assert {finding.severity for finding in audited(taken[1])} == {Severity.NOTE}


def test_no_lettering_of_any_drawing_runs_over_other_lettering_a_line_or_the_paper(taken: tuple[str, Takeoff]) -> None:
    _, takeoff = taken
    drawn = [titled(drawing, takeoff) for drawing in sheet_drawings(takeoff).all()]
    assert {drawing.name: over for drawing in drawn if (over := illegible(drawing))} == {}
