"""The sheet of a rafter with a second bird's mouth: on a high wall, or on the ridge beam it runs over."""

from __future__ import annotations

from pathlib import Path

import pytest

from takeoff.model.takeoff import Takeoff
from takeoff.pipeline import take_off
from takeoff.sheets.crew.rafter_sheet import RafterSheet, rafter_sheet, sheet_marks

SHED = """
job: Shed test
buildings:
  - name: store
    outline: [[0, 0], [12', 0], [12', 8'], [0, 8']]
    walls: {studs: 2x4}
    roof:
      shape: shed
      low: south
      pitch: 4/12
      rafters: {size: 2x6, spacing: 24"}
      overhang: {eave: 12", rake: 6"}
      barge: {size: 2x6}
      sheathing: {field: cdx-5/8}
"""

OVER = """
job: Over test
buildings:
  - name: hut
    outline: [[0, 0], [30', 0], [30', 20'], [0, 20']]
    sides: [south, east, north, west]
    walls: {studs: 2x6}
    roof:
      shape: gable
      gables: [east, west]
      pitch: 8/12
      rafters: {size: 2x10}
      overhang: {eave: 16", rake: 0"}
      ridge: {kind: beam, size: 5-1/2x14, material: glulam, support: over}
      sheathing: {field: cdx-5/8}
"""


def sheets(folder: Path, text: str) -> dict[str, RafterSheet]:
    plan = folder / "plan.yaml"
    plan.write_text(text)
    takeoff: Takeoff = take_off(plan)
    return {one.member.mark: rafter_sheet(one, takeoff, "drawing.svg") for one in sheet_marks(takeoff)}


@pytest.fixture(scope="module")
def shed(tmp_path_factory: pytest.TempPathFactory) -> dict[str, RafterSheet]:
    return sheets(tmp_path_factory.mktemp("shed"), SHED)


@pytest.fixture(scope="module")
def over(tmp_path_factory: pytest.TempPathFactory) -> dict[str, RafterSheet]:
    return sheets(tmp_path_factory.mktemp("over"), OVER)


def figures(sheet: RafterSheet) -> dict[str, str]:
    return {entry.label: entry.figure for entry in sheet.table}


def test_a_shed_rafters_table_places_and_sizes_its_upper_birds_mouth(shed: dict[str, RafterSheet]) -> None:
    # 8 ft less a 3-1/2 plate: 92-1/2; / cos 18.435 = 97.504; 12 more: 110.152; high plate 92-1/2 * 4/12 = 30.833
    expected = {
        "to upper heel, level": "7'-8 1/2\"",
        "to upper heel, along": "8'-1 1/2\"",
        "low end to upper heel, top": "9'-2 1/8\"",
        "upper seat, level": '3 1/2"',
        "upper heel, plumb": '1 3/16"',
        "height above low plate": '4 5/8"',
        "height above high plate": '4 5/8"',
        "high plate over low plate": "2'-6 13/16\"",
    }
    assert expected.items() <= figures(shed["R1"]).items()


def test_no_sheet_of_a_shed_roof_speaks_of_a_ridge(shed: dict[str, RafterSheet]) -> None:
    assert "BG1" in shed
    for sheet in shed.values():
        words = [sheet.step_off, *sheet.proof, *(f"{e.label} {e.remark}" for e in (*sheet.headline, *sheet.table))]
        assert not [one for one in words if "ridge" in one]


def test_the_pattern_check_of_a_shed_rafter_gives_its_height_over_both_plates(shed: dict[str, RafterSheet]) -> None:
    assert '4 5/8" above the low plate; at the upper heel: 4 5/8" above the high plate' in shed["R1"].proof[1]


def test_a_rafter_over_a_beam_has_the_beams_figures(over: dict[str, RafterSheet]) -> None:
    # the seat is half the beam, 2-3/4, its heel 2-3/4 * 8/12 = 1.833; 9-1/4 / cos - 1.833 = 9.284;
    # face of the beam (120 - 2-3/4) / cos 33.690 = 140.917
    expected = {
        "to beam heel, along": "11'-8 15/16\"",
        "beam seat, level": '2 3/4"',
        "beam heel, plumb": '1 13/16"',
        "height above beam": '9 5/16"',
        "run to ridge centre": "10'-0\"",
    }
    table = figures(over["R1"])
    assert expected.items() <= table.items()
    assert table["height above plate"] == '8 3/8"'
