"""Girders and loft beams of a drawing, and how they go together with what the plan writes."""

from __future__ import annotations

from pathlib import Path

import pytest
from drawing_shop import BOX, SETTINGS, drawing, light, line, pairs, read, rules, text

from takeoff.plan.floors import Floors
from takeoff.plan.read import read_plan
from takeoff.plan.schema import Plan
from takeoff.sheets.house_dxf import plan_dxf

MAIN = SETTINGS + "    floors: {main: {joists: {size: 2x10}}}\n"
GIRDER = "{from: [30', 10'], to: [0, 10'], size: 3-2x10, posts: [10'], post: 6x6}"
WITH_GIRDER = SETTINGS + f"    floors: {{main: {{joists: {{size: 2x10}}, girders: [{GIRDER}]}}}}\n"
LOFT = SETTINGS + "    floors: {lofts: [{name: nest, height: 7', joists: {size: 2x8}, side: west, depth: 9' BEAM}]}\n"
DRAWN = line((0, 120), (360, 120), "GIRDER")


def floors(folder: Path, marks: str, settings: str) -> Floors:
    written, findings = read(folder, drawing(light(BOX) + marks), settings)
    assert written is not None, [str(finding) for finding in findings]
    assert rules(findings) == []
    return written.plan.buildings[0].floors


@pytest.mark.parametrize(
    "mark",
    [DRAWN, light(((0, 117.75), (360, 117.75), (360, 122.25), (0, 122.25)), "GIRDER")],
    ids=["a line", "a rectangle as thick as it is"],
)
def test_a_girder_is_drawn_with_its_size_at_it(tmp_path: Path, mark: str) -> None:
    label = text("3-2x10 joists hang post 6x6", (180, 110), "GIRDER")
    main = floors(tmp_path, mark + label, MAIN).main
    assert main is not None
    [girder] = main.girders
    assert {girder.start, girder.end} == {(0, 120), (360, 120)}
    assert (girder.size.words, girder.joists, girder.post) == ("3-2x10", "hang", "6x6")


def test_a_girder_drawn_where_one_is_written_moves_it_and_keeps_what_only_the_plan_says(tmp_path: Path) -> None:
    main = floors(tmp_path, line((0, 123), (360, 123), "GIRDER"), WITH_GIRDER).main
    assert main is not None
    [girder] = main.girders
    # turned to begin where the plan has it begin, since its posts are measured from there
    assert (girder.start, girder.end) == ((360, 123), (0, 123))
    assert (girder.size.words, girder.posts, girder.post) == ("3-2x10", (120,), "6x6")


def test_a_girder_without_a_size_is_told_what_it_needs(tmp_path: Path) -> None:
    _, findings = read(tmp_path, drawing(light(BOX) + DRAWN), MAIN)
    assert rules(findings) == ["drawing.not-used"]
    assert "such as 3-2x10" in findings[0].message
    assert '(0", 10\'-0")' in findings[0].message
    assert "layer GIRDER" in str(findings[0])


def test_a_girder_under_no_floor_is_told(tmp_path: Path) -> None:
    _, findings = read(tmp_path, drawing(light(BOX) + DRAWN + text("3-2x10", (180, 110), "GIRDER")))
    assert rules(findings) == ["drawing.not-used"]
    assert "floors: main" in findings[0].message


def test_a_girder_written_and_not_drawn_beside_another_is_left_out_and_told(tmp_path: Path) -> None:
    marks = line((0, 60), (360, 60), "GIRDER") + text("2-2x12", (180, 50), "GIRDER")
    written, findings = read(tmp_path, drawing(light(BOX) + marks), WITH_GIRDER)
    assert written is not None
    main = written.plan.buildings[0].floors.main
    assert main is not None
    assert [girder.size.words for girder in main.girders] == ["2-2x12"]
    assert rules(findings) == ["drawing.left-out"]


@pytest.mark.parametrize("label", ["3-2x10", "nest 3-2x10"])
def test_a_line_along_the_free_edge_of_a_loft_is_its_beam_and_posts_stand_under_it(tmp_path: Path, label: str) -> None:
    marks = line((108, 0), (108, 240), "BEAM") + text(label, (115, 120), "BEAM")
    marks += pairs(0, "POINT", 8, "POST", 10, 107, 20, 80)
    [loft] = floors(tmp_path, marks, LOFT.replace("BEAM", "")).lofts
    assert loft.beam is not None
    assert loft.beam.size.words == "3-2x10"
    # The west side's left end seen from outside is its north one, at y = 240.
    assert loft.beam.posts == pytest.approx((160,))


def test_a_beam_across_a_loft_with_an_outline_of_its_own_is_one_of_its_girders(tmp_path: Path) -> None:
    settings = LOFT.replace("side: west, depth: 9' BEAM", "outline: [[0, 0], [12', 0], [12', 20'], [0, 20']]")
    marks = line((144, 0), (144, 240), "BEAM") + text("3-2x10 joists hang", (150, 120), "BEAM")
    [loft] = floors(tmp_path, marks, settings).lofts
    assert loft.beam is None
    assert [girder.start[0] for girder in loft.girders] == [144]


def test_a_beam_of_no_loft_is_told(tmp_path: Path) -> None:
    marks = line((300, 0), (300, 240), "BEAM") + text("3-2x10", (306, 120), "BEAM")
    _, findings = read(tmp_path, drawing(light(BOX) + marks), LOFT.replace("BEAM", ""))
    assert rules(findings) == ["drawing.left-out"]
    assert "a loft of the plan" in findings[0].message


def test_girders_and_beams_written_as_a_drawing_are_read_back_without_the_plans(tmp_path: Path) -> None:
    girders = f"girders: [{GIRDER}, {{from: [0, 5'], to: [30', 5'], size: 4x8, grade: no1, joists: hang}}]"
    nest = (
        "{name: nest, height: 7', joists: {size: 2x8}, side: west, depth: 9', beam: {size: 3-2x10, posts: [6', 12']}}"
    )
    plan = SETTINGS.replace("outline: {units: in}", "outline: [[0, 0], [30', 0], [30', 20'], [0, 20']]")
    full = tmp_path / "full.yaml"
    full.write_text(plan + f"    floors: {{main: {{joists: {{size: 2x10}}, {girders}}}, lofts: [{nest}]}}\n")
    written: Plan = read_plan(full)[0].plan
    bare = SETTINGS + "    floors: {main: {joists: {size: 2x10}}, lofts: [{name: nest, height: 7', "
    bare += "joists: {size: 2x8}, side: west, depth: 9'}]}\n"
    back, findings = read(tmp_path, plan_dxf(written), bare)
    assert back is not None, [str(finding) for finding in findings]
    assert back.plan.buildings[0].floors == written.buildings[0].floors
