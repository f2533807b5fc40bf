"""The commands as a builder runs them: what is said and where, exit statuses, and what stands on the disk after."""

from __future__ import annotations

import csv
import json
import re
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from shop import CABIN, ROOT

from takeoff.cli import main

FILES = {
    "order.xlsx", "order.txt", "cut_sheets.pdf", "order.csv", "pieces.csv", "members.csv", "rafters.csv", "panels.csv",
    "cutting.csv", "sheets.csv", "layout.csv", "checks.csv", "takeoff.json",
}  # fmt: skip
"""What section 6 of the design has in every job's folder, drawings apart."""

HUT = """\
job: Small Hut
buildings:
  - name: hut
    outline: [[0, 0], [12', 0], [12', 8'], [0, 8']]
    walls:
      studs: 2x4
      openings:
        - {side: south, center: 6', size: 2030}
    roof:
      shape: gable
      gables: [east, west]
      pitch: 6/12
      rafters: {size: 2x6}
      ridge: {kind: board, size: 2x8}
      sheathing: {field: cdx-1/2}
"""


def takeoff(*words: str | Path) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


def everything_in(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def rows(file: Path) -> list[dict[str, str]]:
    with file.open(newline="", encoding="utf-8") as lines:
        return list(csv.DictReader(lines))


def written(folder: Path, text: str | bytes, name: str = "plan.yaml") -> Path:
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


@dataclass(frozen=True)
class Ran:
    """What a run said, and the folder it wrote."""

    result: Result
    folder: Path


@pytest.fixture(scope="module")
def cabin_run(tmp_path_factory: pytest.TempPathFactory) -> Ran:
    """The sample cabin, taken off once."""
    folder = tmp_path_factory.mktemp("cabin") / "results"
    return Ran(takeoff("run", CABIN, "--into", folder), folder)


@pytest.fixture(scope="module")
def barn_run(tmp_path_factory: pytest.TempPathFactory) -> Ran:
    """Rafters over a span of 60 feet, longer than any board."""
    here = tmp_path_factory.mktemp("barn")
    wide = HUT.replace("[12', 0], [12', 8'], [0, 8']", "[20', 0], [20', 60'], [0, 60']")
    deep = wide.replace("rafters: {size: 2x6}", "rafters: {size: 2x12}").replace("size: 2x8", "size: 2x12")
    return Ran(takeoff("run", written(here, deep), "--into", here / "results"), here / "results")


def test_a_run_is_done_and_says_where_things_are_on_stdout(cabin_run: Ran) -> None:
    assert cabin_run.result.exit_code == 0
    assert cabin_run.result.stdout.startswith("Curlew Cabin\n")
    assert f"files in {cabin_run.folder}" in cabin_run.result.stdout
    assert str(cabin_run.folder / "cut_sheets.pdf") in cabin_run.result.stdout
    assert re.search(r"R1 +44 +2x10 no2 +13'-7 13/16\" +common rafter", cabin_run.result.stdout)


def test_findings_of_a_run_go_to_stderr_and_notes_only_when_asked_for(cabin_run: Ran) -> None:
    lines = cabin_run.result.stderr.splitlines()
    assert lines
    assert all(re.search(r"(^|: )warning: ", line) for line in lines)
    assert "warning" not in cabin_run.result.stdout.replace("warnings", "")
    warnings = [row for row in rows(cabin_run.folder / "checks.csv") if row["severity"] == "warning"]
    assert len(warnings) == len(lines)


def test_a_run_writes_every_file_and_nothing_is_left_beside_them(cabin_run: Ran) -> None:
    assert everything_in(cabin_run.folder).keys() >= FILES
    assert all(everything_in(cabin_run.folder).values())
    assert [p.name for p in cabin_run.folder.parent.iterdir()] == [cabin_run.folder.name]


def test_without_a_folder_results_go_to_outputs_and_the_job_s_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    written(tmp_path, HUT, "hut.yaml")
    result = takeoff("run", "hut.yaml", "--notes")
    assert result.exit_code == 0
    assert (tmp_path / "outputs" / "small-hut" / "order.csv").is_file()
    assert ": note: " in result.stderr


def test_check_screens_and_writes_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    plan = written(tmp_path, HUT)
    result = takeoff("check", plan)
    assert result.exit_code == 0
    assert re.fullmatch(r"Screened: \d+ warnings?, \d+ notes?\.\n", result.stdout)
    assert ": note: " in result.stderr
    assert ": note: " not in takeoff("check", plan, "--no-notes").stderr
    assert list(tmp_path.iterdir()) == [plan]


def test_the_plan_that_start_prints_is_taken_off(tmp_path: Path) -> None:
    start = takeoff("start")
    assert (start.exit_code, start.stderr) == (0, "")
    plan = written(tmp_path, start.stdout)
    assert takeoff("check", plan).exit_code == 0


def test_schema_prints_a_json_schema_with_the_keys_of_a_plan() -> None:
    schema = json.loads(takeoff("schema").stdout)
    assert {"job", "buildings"} <= schema["properties"].keys()
    assert "$schema" in schema


def test_rafter_answers_at_the_saw() -> None:
    result = takeoff("rafter", "8/12", "--run", "10'", "--ridge", '5-1/2"', "--overhang", '16"', "--tail", "2x6")
    assert (result.exit_code, result.stderr) == (0, "")
    # (120 - 2-3/4) x 1.20185 = 140.917; 16 x 1.20185 = 19.230; (140.917 + 19.230) + 5-1/2 x 8/12 = 163.81
    for figure in ("11'-8 15/16\"", "1'-7 1/4\"", "13'-7 13/16\"", '4 1/8"', '2 3/4"', '8 3/8"', "33.69", "56.31"):
        assert figure in result.stdout


@pytest.mark.parametrize(
    "words",
    [
        ["frame", "hut.yaml"],
        ["run"],
        ["run", "hut.yaml", "--fast"],
        ["rafter", "8/12"],
        ["rafter", "8", "--run", "ten feet"],
        ["rafter", "roof", "--run", "10'"],
        ["rafter", "8/12", "--run", "10'", "--size", "2x11"],
        ["rafter", "8/12", "--run", "-10'"],
        ["rafter", "8/12", "--run", '3"'],
    ],
    ids=" ".join,
)
def test_wrong_use_of_a_command_is_exit_2_with_usage(words: list[str]) -> None:
    result = takeoff(*words)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert "Usage: " in result.stderr
    assert "Traceback" not in result.stderr


@pytest.mark.parametrize("words", [["--help"], ["run", "-h"], ["check", "-h"], ["rafter", "--help"]], ids=" ".join)
def test_every_command_has_help(words: list[str]) -> None:
    result = takeoff(*words)
    assert result.exit_code == 0
    assert "Usage: " in result.stdout


BAD: dict[str, tuple[str | bytes, str]] = {
    "empty file": ("", r"plan\.yaml:1:1: error: "),
    "a list": ("- job: Hut\n", r"plan\.yaml:1:1: error: .*a plan"),
    "tabs": ("job: Hut\nbuildings:\n\t- name: hut\n", r"plan\.yaml:3:1: error: .*tab"),
    "a duplicate key": (HUT.replace("job: Small Hut\n", "job: Small Hut\njob: Hut\n"), r"plan\.yaml:2:1: error: .*job"),
    "a negative size": (HUT.replace("pitch: 6/12", "pitch: -6/12"), r"plan\.yaml:12:14: error: "),
    "a negative overhang": (
        HUT.replace("shape: gable\n", 'shape: gable\n      overhang: {eave: -16"}\n'),
        r"plan\.yaml:11:24: error: .*-16",
    ),
    "an absurd outline": (HUT.replace("[12', 8']", "[12', 8000']"), r"plan\.yaml:4:\d+: error: "),
    "an absurd wall": (HUT.replace("studs: 2x4", "studs: 2x4\n      height: 90'"), r"plan\.yaml:7:15: error: .*90'"),
    "an opening past its wall": (HUT.replace("center: 6'", "center: 11'-6\""), r"plan\.yaml:8:11: error: .*2030"),
    "openings that overlap": (
        HUT.replace("2030}\n", "2030}\n        - {side: south, center: 7', size: 2030}\n"),
        r"plan\.yaml:9:11: error: .*overlap",
    ),
    "an outline that crosses itself": (
        HUT.replace("[12', 8'], [0, 8']", "[0, 8'], [12', 8']"),
        r"plan\.yaml:4:\d+: error: .*cross",
    ),
    "an unknown size": (HUT.replace("2x6", "2x7"), r"plan\.yaml:13:23: error: .*2x7.*2x6"),
    "an unknown key": (HUT.replace("pitch", "picth"), r"plan\.yaml:12:7: error: .*picth.*pitch"),
    "no text": (b"\xff\xfe\x00\x01", r"plan\.yaml:1:1: error: "),
}


@pytest.mark.parametrize("command", ["run", "check"])
@pytest.mark.parametrize("name", BAD)
def test_a_bad_plan_is_exit_1_with_its_place_and_nothing_is_written(
    name: str, command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    text, said = BAD[name]
    plan = written(tmp_path, text)
    result = takeoff(command, plan)
    assert result.exit_code == 1
    assert result.stdout == ""
    assert re.search(said, result.stderr), result.stderr
    assert re.search(r"^\d+ errors?; nothing was written\.$", result.stderr, re.MULTILINE)
    assert "Traceback" not in result.stderr
    assert list(tmp_path.iterdir()) == [plan]


def test_all_errors_of_a_plan_are_told_at_once_in_the_order_of_the_file(tmp_path: Path) -> None:
    bad = HUT.replace("studs: 2x4", "studs: 2x5").replace("pitch: 6/12", "pitch: steep").replace("2x8", "2x88")
    result = takeoff("run", written(tmp_path, bad), "--into", tmp_path / "results")
    lines = [int(match[1]) for match in re.finditer(r"plan\.yaml:(\d+):\d+: error: ", result.stderr)]
    assert lines == [6, 12, 14]
    assert "3 errors; nothing was written." in result.stderr


def test_a_plan_that_is_not_there_is_exit_1(tmp_path: Path) -> None:
    result = takeoff("run", tmp_path / "nowhere.yaml")
    assert result.exit_code == 1
    assert "nowhere.yaml: error: " in result.stderr


def test_results_that_cannot_be_written_are_exit_1_and_leave_nothing(tmp_path: Path) -> None:
    plan, in_the_way = written(tmp_path, HUT), written(tmp_path, "mine", "notes.txt")
    result = takeoff("run", plan, "--into", in_the_way / "results")
    assert result.exit_code == 1
    assert re.fullmatch(r"error: .*notes\.txt.*; nothing was written\.\n", result.stderr)
    assert sorted(tmp_path.iterdir()) == [in_the_way, plan]
    assert in_the_way.read_text() == "mine"


def test_a_folder_of_somebody_else_s_is_refused_and_left_alone(tmp_path: Path) -> None:
    plan = written(tmp_path, HUT)
    (tmp_path / "photos").mkdir()
    written(tmp_path / "photos", "sunset", "sunset.jpg")
    result = takeoff("run", plan, "--into", tmp_path / "photos")
    assert result.exit_code == 1
    assert "photos: holds files" in result.stderr
    assert everything_in(tmp_path / "photos") == {"sunset.jpg": b"sunset"}


def test_an_earlier_run_s_results_are_replaced_by_a_run_and_left_alone_by_a_bad_plan(tmp_path: Path) -> None:
    results = tmp_path / "results"
    assert takeoff("run", written(tmp_path, HUT), "--into", results).exit_code == 0
    before = everything_in(results)
    assert takeoff("run", written(tmp_path, HUT.replace("2x6", "2x7")), "--into", results).exit_code == 1
    assert everything_in(results) == before
    assert takeoff("run", written(tmp_path, HUT.replace("6/12", "7/12")), "--into", results).exit_code == 0
    assert everything_in(results)["rafters.csv"] != before["rafters.csv"]


def test_a_rafter_longer_than_any_board_is_told_and_still_ordered_and_cut(barn_run: Ran) -> None:
    assert barn_run.result.exit_code == 0
    assert re.search(
        r"warning: .*R1: the longest 2x12 no2 on sale is 24'-0\"; order \d+ specially", barn_run.result.stderr
    )
    rafters = {row["mark"]: row for row in rows(barn_run.folder / "rafters.csv")}
    cut = [row for row in rows(barn_run.folder / "cutting.csv") if row["mark"] == "R1"]
    assert len(cut) == int(rafters["R1"]["qty"])
    (length,) = {row["stock_length_in"] for row in cut}
    assert float(length) >= float(rafters["R1"]["overall_in"]) > 24 * 12
    ordered = [row for row in rows(barn_run.folder / "order.csv") if row["stock_length_in"] == length]
    marks = ("R1", "E1")
    assert sum(int(row["qty_net"]) for row in ordered) == sum(int(rafters[mark]["qty"]) for mark in marks)
    told = [row for row in rows(barn_run.folder / "checks.csv") if row["rule"] == "order.special-length"]
    assert {row["where"] for row in told} >= set(marks)
    assert {row["severity"] for row in told} == {"warning"}


@pytest.mark.parametrize(
    ("plan", "status"), [(HUT, 0), (HUT.replace("2x6", "2x7"), 1)], ids=["a sound plan", "a bad plan"]
)
def test_the_program_ends_with_the_status_in_a_process_of_its_own(plan: str, status: int, tmp_path: Path) -> None:
    ended = subprocess.run(
        [sys.executable, "-c", "from takeoff.cli import main; main()", "check", str(written(tmp_path, plan))],
        capture_output=True,
        text=True,
        check=False,
        cwd=ROOT,
    )
    assert ended.returncode == status
    assert "Traceback" not in ended.stderr
    assert bool(ended.stdout) == (status == 0)
