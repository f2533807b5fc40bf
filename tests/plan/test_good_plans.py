"""What plans that are right come to."""

from __future__ import annotations

import copy
import json
import pickle
import subprocess
import sys
from pathlib import Path

import pytest

from takeoff.findings import Place
from takeoff.plan.read import WrittenPlan, read_plan
from takeoff.plan.start import starter_text

SAMPLE = Path(__file__).parents[2] / "sample_plans" / "curlew-cabin.yaml"
SMALLEST = """\
job: Reed Shed
buildings:
  - name: shed
    outline: [[0, 0], [12', 0], [12', 8'], [0, 8']]
    walls: {studs: 2x4}
    roof:
      shape: gable
      gables: [east, west]
      pitch: 6/12
      rafters: {size: 2x6}
      ridge: {kind: board, size: 2x8}
      sheathing: {field: cdx-1/2}
"""


@pytest.fixture(scope="module")
def sample() -> WrittenPlan:
    return read_plan(SAMPLE)[0]


def read_text(tmp_path: Path, text: str) -> WrittenPlan:
    path = tmp_path / "plan.yaml"
    path.write_text(text, encoding="utf-8")
    return read_plan(path)[0]


def test_the_sample_plan_has_nothing_to_complain_of() -> None:
    assert read_plan(SAMPLE)[1] == ()


def test_lengths_are_read_to_exact_inches(sample: WrittenPlan) -> None:
    [cabin] = sample.plan.buildings
    window, door = cabin.walls.openings
    assert cabin.outline == ((0, 0), (360, 0), (360, 240), (0, 240))
    assert cabin.walls.height == 97.125
    assert door.left == 156  # 13'
    assert (window.size.width, window.size.height) == (36, 48)  # 3040
    assert (door.size.width, door.size.height) == (36, 80)  # 3068
    assert cabin.roof.pitch.slope == 8 / 12
    assert (cabin.roof.overhang.eave, cabin.roof.overhang.rake, cabin.roof.ridge.vent) == (16, 12, 1)


def test_a_window_hangs_from_its_head(sample: WrittenPlan) -> None:
    window = sample.plan.buildings[0].walls.openings[0]
    assert (window.rough_width_in, window.rough_height_in) == (36.5, 48.5)  # a half inch more each way
    assert window.left_in == 84 - 18.25
    assert (window.head_in, window.sill_in) == (82.5, 34)
    assert window.call == "3040"


def test_a_door_reaches_the_floor(sample: WrittenPlan) -> None:
    door = sample.plan.buildings[0].walls.openings[1]
    assert (door.rough_width_in, door.rough_height_in) == (38, 82.5)  # two more wide, two and a half high
    assert (door.head_in, door.sill_in) == (82.5, 0)


def test_a_side_has_what_is_written_for_it_and_otherwise_what_all_walls_have(sample: WrittenPlan) -> None:
    walls = sample.plan.buildings[0].walls
    east, south = walls.for_side("east"), walls.for_side("south")
    assert (east.frame, south.frame) == ("balloon", "platform")
    assert east.studs == south.studs == "2x6"
    assert (south.height_in, south.spacing_in, south.grade, south.plates_grade) == (97.125, 16, "stud", "no2")
    assert south.sheathing == "osb-7/16"


def test_a_place_is_the_line_and_column_of_what_is_written(sample: WrittenPlan) -> None:
    lines = SAMPLE.read_text(encoding="utf-8").splitlines()
    for path, text in {
        "buildings[0].roof.pitch": "8/12",
        "buildings[0].walls.openings[1].left": "13'",
        "buildings[0].walls.by_side.west": "west: {frame",
        "buildings[0].roof": "roof:",
    }.items():
        place = sample.place(path)
        assert (place.file, place.path) == ("curlew-cabin.yaml", path)
        assert lines[place.line - 1][place.column - 1 :].startswith(text)


def test_what_is_left_out_stands_where_its_nearest_parent_does(sample: WrittenPlan) -> None:
    parent = sample.place("buildings[0].roof.blocking")
    left_out = sample.place("buildings[0].roof.blocking.size")
    assert (left_out.line, left_out.column) == (parent.line, parent.column)
    assert sample.place("settings.kerf") == Place("curlew-cabin.yaml", 3, 1, "settings.kerf")


def test_twelve_lines_make_a_plan(tmp_path: Path) -> None:
    [shed] = read_text(tmp_path, SMALLEST).plan.buildings
    assert shed.walls.for_side("south").height_in == 97.125
    assert (shed.walls.spacing, shed.roof.rafters.spacing, shed.roof.rafters.grade) == (16, 16, "no2")
    assert shed.roof.ridge.grade == "no2"
    assert (shed.roof.overhang.eave, shed.roof.blocking.eave, shed.roof.barge) == (0, "vented", None)


def test_the_starter_plan_runs_as_it_is(tmp_path: Path) -> None:
    (tmp_path / "start.yaml").write_text(starter_text(), encoding="utf-8")
    assert read_plan(tmp_path / "start.yaml")[1] == ()


def test_the_starter_plans_commented_keys_run_too(tmp_path: Path) -> None:
    text = starter_text().replace("# by_side", "by_side").replace("#   east", "  east")
    text = text.replace("# settings", "settings").replace("#   waste", "  waste")
    plan = read_text(tmp_path, text).plan
    assert plan.buildings[0].walls.for_side("east").spacing_in == 12
    assert (plan.settings.waste_pct("studs"), plan.settings.waste_pct("plates")) == (7, 5)


def test_a_key_whose_lines_are_commented_out_counts_as_left_out(tmp_path: Path) -> None:
    plan = read_text(tmp_path, SMALLEST + "      fascia:\n      tail:\nsettings:\n").plan
    assert plan.buildings[0].roof.fascia is None
    assert plan.settings.kerf == 0.125


def test_on_is_a_name_and_no_switch(tmp_path: Path) -> None:
    text = SMALLEST.replace("    walls:", "    sides: [on, east, off, west]\n    walls:")
    assert read_text(tmp_path, text).plan.buildings[0].sides == ("on", "east", "off", "west")


def test_a_call_keeps_its_leading_nought(tmp_path: Path) -> None:
    text = SMALLEST.replace("{studs: 2x4}", "{studs: 2x4, openings: [{side: south, center: 6', size: 0820}]}")
    [opening] = read_text(tmp_path, text).plan.buildings[0].walls.openings
    assert (opening.size.width, opening.size.height, opening.call) == (8, 24, "0820")


def test_a_size_no_call_can_say_is_called_by_its_lengths(tmp_path: Path) -> None:
    size = "{width: 2'-10 1/2\", height: 4'}"
    text = SMALLEST.replace("{studs: 2x4}", f"{{studs: 2x4, openings: [{{side: south, center: 6', size: {size}}}]}}")
    [opening] = read_text(tmp_path, text).plan.buildings[0].walls.openings
    assert opening.call == "2'-10 1/2\" x 4'-0\""


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("2-2x8", (2, "2x8")),
        ("4x8", (1, "4x8")),
        ("1-3/4x9-1/2", (1, "1-3/4x9-1/2")),
        ("2-1-3/4x9-1/2", (2, "1-3/4x9-1/2")),
    ],
)
def test_a_header_is_plies_of_a_size(tmp_path: Path, written: str, read: tuple[int, str]) -> None:
    opening = f"{{side: south, center: 6', size: 3030, header: {written}}}"
    text = SMALLEST.replace("{studs: 2x4}", f"{{studs: 2x4, openings: [{opening}]}}")
    header = read_text(tmp_path, text).plan.buildings[0].walls.openings[0].header_size
    assert header is not None
    assert (header.plies, header.size) == read


def test_windows_line_ends_and_a_byte_order_mark_change_nothing(tmp_path: Path, sample: WrittenPlan) -> None:
    path = tmp_path / SAMPLE.name
    path.write_bytes(b"\xef\xbb\xbf" + SAMPLE.read_bytes().replace(b"\n", b"\r\n"))
    assert read_plan(path)[0].plan == sample.plan


def test_json_is_a_plan_too(tmp_path: Path, sample: WrittenPlan) -> None:
    text = json.dumps(sample.plan.model_dump(mode="json", exclude_none=True), indent=1)
    assert read_text(tmp_path, text).plan == sample.plan


def test_a_plan_is_a_value(sample: WrittenPlan) -> None:
    for twin in (copy.deepcopy(sample.plan), pickle.loads(pickle.dumps(sample.plan))):
        assert twin == sample.plan
        assert hash(twin) == hash(sample.plan)


def test_reading_pulls_in_no_heavy_library_at_start() -> None:
    code = "import sys, takeoff.plan.read, takeoff.plan.start; print(*{name.split('.')[0] for name in sys.modules})"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    assert not {"ruamel", "shapely", "numpy", "ezdxf", "xlsxwriter", "typst"} & set(loaded)
