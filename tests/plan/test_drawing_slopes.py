"""Slopes drawn one by one on the roof's layer, each labelled with its eave."""

from __future__ import annotations

from pathlib import Path

from drawing_shop import BOX, SETTINGS, drawing, light, read, text

from takeoff.plan.read import read_plan
from takeoff.sheets.house_dxf import plan_dxf

EDGES = SETTINGS.replace("shape: gable", "shape: edges").replace("      gables: [east, west]\n", "")

# Over 30' x 20', 16" out on all sides: a hip at the west end, a gable at the east end, the ridge at y = 120.
SOUTH = light([(-16, -16), (376, -16), (376, 120), (120, 120)], "ROOF")
NORTH = light([(120, 120), (376, 120), (376, 256), (-16, 256)], "ROOF")
WEST = light([(-16, -16), (120, 120), (-16, 256)], "ROOF")
LABELS = text("front eave south", (180, 40), "ROOF") + text("eave north", (180, 200), "ROOF")
END = text("end eave 3 pitch 6/12", (20, 120), "ROOF")


def test_labelled_outlines_are_the_slopes_of_the_roof(tmp_path: Path) -> None:
    written, findings = read(tmp_path, drawing(light(BOX) + SOUTH + NORTH + WEST + LABELS + END), EDGES)
    assert written is not None, [str(finding) for finding in findings]
    [building] = written.plan.buildings
    assert [slope.name for slope in building.outlines.slopes] == ["front", "slope 2", "end"]
    assert building.outlines.reach == "eave_line"
    assert dict(building.roof.edges) == {"south": "eave", "east": "gable", "north": "eave", "west": "eave"}
    assert (building.roof.overhang.eave, building.roof.overhang.rake) == (16, 16)


def test_a_gap_between_drawn_slopes_is_told_in_the_drawing(tmp_path: Path) -> None:
    short = light([(-16, -16), (114, 120), (-16, 256)], "ROOF")
    written, findings = read(tmp_path, drawing(light(BOX) + SOUTH + NORTH + short + LABELS + END), EDGES)
    assert written is None
    told = [finding for finding in findings if finding.rule == "plan.slope"]
    assert len(told) == 4
    assert all(finding.place.file == "house.dxf" for finding in told)


def test_a_slope_without_a_label_is_refused(tmp_path: Path) -> None:
    written, findings = read(tmp_path, drawing(light(BOX) + SOUTH + NORTH + WEST + LABELS), EDGES)
    assert written is None
    assert [f.rule for f in findings if "without a label that tells its eave" in f.message] == ["drawing.label"]


def test_told_slopes_come_back_from_the_drawing_they_are_written_to(tmp_path: Path) -> None:
    first, _ = read(tmp_path, drawing(light(BOX) + SOUTH + NORTH + WEST + LABELS + END), EDGES)
    assert first is not None
    (tmp_path / "again.dxf").write_bytes(plan_dxf(first.plan))
    again, findings = read_plan(tmp_path / "settings.yaml", tmp_path / "again.dxf")
    one, other = first.plan.buildings[0], again.plan.buildings[0]
    assert [finding for finding in findings if finding.rule.startswith("drawing.")] == []
    assert sorted(tuple(sorted(slope.points)) for slope in one.outlines.slopes) == sorted(
        tuple(sorted(slope.points)) for slope in other.outlines.slopes
    )
