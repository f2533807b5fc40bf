"""The framing plan of a roof: every stick where it stands, every mark legible, to scale."""

from __future__ import annotations

from io import StringIO
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree

import ezdxf
import pytest
from shapely import LineString, Polygon
from shop import SAMPLES

from takeoff.model.takeoff import Takeoff
from takeoff.pipeline import take_off
from takeoff.sheets.crew.figures import Figures
from takeoff.sheets.crew.roof_sheet import roof_sheet
from takeoff.sheets.drawing import FOLDS, Drawing, Line, Polyline, Text
from takeoff.sheets.drawing_files import drawing_files
from takeoff.sheets.dxf import dxf
from takeoff.sheets.extent import extent, texts_of
from takeoff.sheets.lettering import text_box
from takeoff.sheets.roof_drawing import not_lettered
from takeoff.sheets.sheet_drawings import roof_drawings, sheet_drawings
from takeoff.sheets.slug import slugs

JOBS = pytest.mark.parametrize("job", ["hip_takeoff", "ell_takeoff"])


def plan_of(job: str, request: pytest.FixtureRequest) -> tuple[Takeoff, Drawing]:
    takeoff: Takeoff = request.getfixturevalue(job)
    ((_, drawing),) = roof_drawings(takeoff)
    return takeoff, drawing


@JOBS
def test_every_stick_of_the_roof_is_a_line_with_its_mark(job: str, request: pytest.FixtureRequest) -> None:
    takeoff, drawing = plan_of(job, request)
    (building,) = takeoff.buildings
    walls = {face.name for face in building.faces if face.kind == "wall"}
    drawn = sorted(item.mark for item in drawing.views[0].items if isinstance(item, Polyline) and item.mark)
    assert drawn == sorted(member.mark for member in building.members if member.face not in walls)


@JOBS
def test_every_mark_is_lettered_and_none_lies_on_another(job: str, request: pytest.FixtureRequest) -> None:
    takeoff, drawing = plan_of(job, request)
    (view,) = drawing.views
    assert not_lettered(takeoff.buildings[0], (drawing,)) == ()
    boxes = [(t.words, Polygon(text_box(t, view.one_to))) for t in texts_of(view.items, view.one_to) if t.words]
    assert [(a, b) for (a, one), (b, other) in combinations(boxes, 2) if one.intersection(other).area > 0.01] == []


@JOBS
def test_no_mark_lies_on_a_stick(job: str, request: pytest.FixtureRequest) -> None:
    _, drawing = plan_of(job, request)
    (view,) = drawing.views
    sticks = [LineString(item.points) for item in view.items if isinstance(item, Polyline) and item.mark]
    marks = [(t.words, Polygon(text_box(t, view.one_to))) for t in view.items if isinstance(t, Text) and t.bold]
    marks = [(words, box) for words, box in marks if words[0] != "N" and not words.startswith("Roof")]
    assert [words for words, box in marks if any(stick.intersects(box) for stick in sticks)] == []


@JOBS
def test_the_plan_is_on_the_paper_and_to_a_scale_of_the_rule(job: str, request: pytest.FixtureRequest) -> None:
    _, drawing = plan_of(job, request)
    (view,) = drawing.views
    x0, y0, x1, y1 = extent(view.items, view.one_to)
    (left, low), (right, high) = view.to_paper((x0, y0)), view.to_paper((x1, y1))
    assert -0.01 <= left <= right <= drawing.width_mm + 0.01
    assert -0.01 <= low <= high <= drawing.height_mm + 0.01
    assert view.one_to == 64


def test_ridge_and_hips_stand_where_they_were_framed(hip_takeoff: Takeoff) -> None:
    ((_, drawing),) = roof_drawings(hip_takeoff)
    heavy = [item for item in drawing.views[0].items if isinstance(item, Polyline) and item.pen is FOLDS]
    # 24 by 16 feet: the ridge runs from 8 to 16 feet from the west, over the middle of the 16 feet
    ridge = next(item for item in heavy if item.mark.startswith("RD"))
    assert sorted(ridge.points) == [pytest.approx((96.0, 96.0)), pytest.approx((192.0, 96.0))]
    assert len(heavy) == 5


def test_an_arrow_runs_down_each_slope_with_its_pitch(hip_takeoff: Takeoff) -> None:
    ((_, drawing),) = roof_drawings(hip_takeoff)
    pitches = [item for item in drawing.views[0].items if isinstance(item, Text) and item.words == "6/12"]
    assert len(pitches) == 4


@JOBS
def test_the_dxf_reads_back_clean_with_marks_on_its_lines(job: str, request: pytest.FixtureRequest) -> None:
    _, drawing = plan_of(job, request)
    content = dxf(drawing)
    assert content == dxf(drawing)
    document = ezdxf.read(StringIO(content.decode()))
    assert not document.audit().has_issues
    heavy = [e for e in document.modelspace().query("LWPOLYLINE") if e.dxf.layer == "FOLDS"]
    assert heavy
    assert all(entity.get_xdata("TAKEOFF") for entity in heavy)
    assert "WASTE" not in document.layers


def test_plans_are_written_as_svg_and_dxf_under_the_buildings_name(hip_takeoff: Takeoff) -> None:
    files = drawing_files(hip_takeoff, sheet_drawings(hip_takeoff))
    assert {"drawings/roof-plan-shelter.svg", "drawings/roof-plan-shelter.dxf"} <= files.keys()
    # 190 of drawing and a margin of 5 at each side
    assert ElementTree.fromstring(files["drawings/roof-plan-shelter.svg"]).get("width") == "200mm"


def test_a_building_without_slopes_has_no_plan(hand_takeoff: Takeoff) -> None:
    assert roof_drawings(hand_takeoff) == ()


def test_leaders_run_to_sticks_that_have_no_room_beside_them(ell_takeoff: Takeoff) -> None:
    ((_, drawing),) = roof_drawings(ell_takeoff)
    leaders = [i for i in drawing.views[0].items if isinstance(i, Line) and i.pen.layer == "DIMENSIONS"]
    sticks = [LineString(i.points) for i in drawing.views[0].items if isinstance(i, Polyline) and i.mark]
    assert all(min(LineString([line.a, line.a]).distance(stick) for stick in sticks) < 1e-6 for line in leaders)


def test_names_of_files_are_plain_and_never_the_same() -> None:
    names = ["Küche & Bad", "kuche bad", "Haus/1", "!!!", "???"]
    assert list(slugs(names).values()) == ["kuche-bad", "kuche-bad-2", "haus-1", "building", "building-2"]


def test_openings_in_slopes_are_numbered_and_their_table_has_what_the_plan_asks_for(tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    lit = "skylights: [{side: south, center: 12', up: 3', width: 30\", height: 46\"}]\n      sheathing"
    plan.write_text((SAMPLES / "tern-boat-shelter.yaml").read_text().replace("sheathing: {field", lit + ": {field"))
    takeoff = take_off(plan)
    (building,) = takeoff.buildings
    ((_, drawing),) = roof_drawings(takeoff)
    (row,) = roof_sheet(building, drawing, (), (), Figures(16)).openings
    assert (row.number, row.slope, row.width, row.height, row.low) == (1, "south slope", "2'-6\"", "3'-10\"", "3'-0\"")
    assert (row.left, row.right) == ("10'-9\"", "13'-3\"")
    assert [t.words for t in texts_of(drawing.views[0].items, 1.0)].count("1") == 1
