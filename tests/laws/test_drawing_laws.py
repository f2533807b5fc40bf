"""A plan's geometry written as a drawing and read back is the same, and so is what is framed from it."""

from __future__ import annotations

import json
from math import cos, radians, sin
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st
from shop import SAMPLES

from takeoff.cli import main
from takeoff.pipeline import house_drawing
from takeoff.plan.drawing_in.put_in import put_in
from takeoff.plan.footprint import footprint
from takeoff.plan.read import read_plan
from takeoff.plan.schema import Building, Plan
from takeoff.plan.tree import plain, read_tree
from takeoff.sheets.house_dxf import plan_dxf

ALL_DRAWN = Path(__file__).parents[1] / "plan" / "drawings" / "all-drawn.yaml"
PLANS = [*sorted(SAMPLES.glob("*.yaml")), ALL_DRAWN]

sixteenths = st.integers(0, 16 * 60).map(lambda n: n / 16)


@st.composite
def huts(draw: st.DrawFn) -> dict[str, Any]:
    """An L turned by any angle, anywhere, its corners written either way round; openings on its long side."""
    wide, deep, wing = 240 + draw(sixteenths), 192 + draw(sixteenths), 96 + draw(sixteenths)
    corners = [(0.0, 0.0), (wide, 0.0), (wide, deep), (wing, deep), (wing, deep + 120), (0.0, deep + 120)]
    angle = radians(draw(st.sampled_from([0, 0, 90, 180, 30, 47.5])))
    x, y = draw(st.tuples(st.integers(-2000, 2000), st.integers(-2000, 2000)))
    turned = [(cos(angle) * a - sin(angle) * b + x, sin(angle) * a + cos(angle) * b + y) for a, b in corners]
    return {
        "name": "hut",
        "outline": turned if draw(st.booleans()) else turned[::-1],
        "sides": draw(st.sampled_from([None, ["a", "b", "c", "d", "e", "f"]])),
        "walls": {
            "studs": "2x6",
            "openings": [
                {
                    "side": "side 1",
                    "center": 70 + draw(sixteenths) / 4,
                    "size": draw(st.sampled_from(["3040", "2'-10 1/2\" x 3'-1 1/16\""])),
                    "kind": draw(st.sampled_from(["window", "door", "cased"])),
                    "head": draw(st.sampled_from([None, 80.0, 82.5])),
                    "jacks": draw(st.sampled_from([None, 2])),
                }
            ],
        },
        "roof": {
            "shape": "edges",
            "pitch": "6/12",
            "rafters": {"size": "2x8", "spacing": 16},
            "ridge": {"kind": "board", "size": "2x10"},
            "overhang": {"eave": draw(sixteenths) / 4},
            "sheathing": {"field": "cdx-5/8"},
        },
    }


@settings(max_examples=25, deadline=None)
@given(written=huts())
def test_reading_undoes_writing(written: dict[str, Any], tmp_path_factory: pytest.TempPathFactory) -> None:
    sides = written.pop("sides")
    if sides:
        written["sides"] = sides
        written["walls"]["openings"][0]["side"] = "a"
    building = Building.model_validate(written)
    file = tmp_path_factory.mktemp("drawn") / "house.dxf"
    file.write_bytes(plan_dxf(Plan(job="Job", buildings=(building,))))
    rest = {key: value for key, value in written.items() if key not in ("outline", "sides")}
    rest["walls"] = {"studs": "2x6"}
    rest["roof"] = {key: value for key, value in written["roof"].items() if key != "overhang"}
    root, _ = read_tree(_yaml(rest))
    put = put_in(root, "rest.yaml", file.parent, file)
    assert [str(finding) for finding in put.findings] == []
    data: Any = plain(put.root)
    back = Building.model_validate(data["buildings"][0])
    assert _normal(back) == pytest.approx(_normal(building), abs=2e-5)
    [one], [other] = back.walls.openings, building.walls.openings
    assert (one.kind, one.head, one.jacks, one.size) == (other.kind, other.head, other.jacks, other.size)


def _yaml(building: dict[str, Any]) -> str:
    return json.dumps({"job": "Job", "buildings": [building]})


def _normal(building: Building) -> list[float]:
    """All lengths that a drawing holds: the outline counter-clockwise, where openings stand in space, the eave."""
    walls = footprint(building)
    [opening] = building.walls.openings
    side = walls.side(opening.side)
    middle = (opening.left_in + opening.right_in) / 2
    at = [side.start[k] + side.direction[k] * middle for k in (0, 1)]
    return [*(value for point in walls.points for value in point), *at, building.roof.overhang.eave]


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_a_sample_plan_is_the_same_through_a_drawing(path: Path, tmp_path: Path) -> None:
    drawing = tmp_path / "house.dxf"
    drawing.write_bytes(house_drawing(path))
    written, _ = read_plan(path)
    through, findings = read_plan(path, drawing)
    assert not [finding for finding in findings if finding.rule in ("drawing.differs", "drawing.left-out")]
    for one, other in zip(written.plan.buildings, through.plan.buildings, strict=True):
        assert [x for p in other.outline for x in p] == pytest.approx([x for p in one.outline for x in p], abs=1e-5)
        assert other.roof.overhang == one.roof.overhang
        assert len(other.walls.openings) == len(one.walls.openings)
        for drawn, told in zip(other.walls.openings, one.walls.openings, strict=True):
            assert (drawn.side, drawn.call, drawn.kind, drawn.head_in) == (
                told.side,
                told.call,
                told.kind,
                told.head_in,
            )
            assert drawn.left_in == pytest.approx(told.left_in, abs=1e-5)
        assert _inside(other) == _inside(one)


def _inside(building: Building) -> list[Any]:
    """Partitions, floors, skylights, porches and dormers, lengths to a thousandth; how they are placed told one way."""
    doors = [opening for partition in building.walls.partitions for opening in partition.openings]
    placed = [*building.roof.skylights, *building.roof.porches, *building.roof.dormers]
    across = [*(item.across_in for item in placed), *(door.left_in for door in doors)]
    rest = [item.model_dump(exclude={"center", "left", "up", "from_wall"}) for item in placed]
    without = {"openings": {"__all__": {"center", "left"}}}
    partitions = [partition.model_dump(exclude=without) for partition in building.walls.partitions]
    return [_rounded(part) for part in (across, rest, partitions, building.floors.model_dump())]


def _rounded(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _rounded(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_rounded(inner) for inner in value]
    return round(value, 3) + 0.0 if isinstance(value, float) else value


def test_the_template_goes_with_the_starter_plan_and_says_the_same(tmp_path: Path) -> None:
    runner = CliRunner()
    plan, drawing = tmp_path / "framing.yaml", tmp_path / "house.dxf"
    plan.write_text(runner.invoke(main, ["start"]).stdout)
    drawing.write_bytes(runner.invoke(main, ["start", "--dxf"]).stdout_bytes)
    (drawn, _), (written, _) = read_plan(plan, drawing), read_plan(plan)
    [one], [other] = drawn.plan.buildings, written.plan.buildings
    assert (one.outline, one.sides, one.roof.overhang) == (other.outline, other.sides, other.roof.overhang)
    assert [(o.side, o.left_in, o.size) for o in one.walls.openings] == [
        (o.side, o.left_in, o.size) for o in other.walls.openings
    ]
    document = ezdxf.readfile(drawing)
    assert not document.audit().has_issues
    assert {"WALLS", "PARTITIONS", "OPENINGS", "WALL FACE", "POST"} <= {layer.dxf.name for layer in document.layers}


def test_outline_writes_a_drawing_that_is_the_same_each_time(tmp_path: Path) -> None:
    for name in ("a.dxf", "b.dxf"):
        ran = CliRunner().invoke(main, ["outline", str(PLANS[0]), "-o", str(tmp_path / name)])
        assert ran.exit_code == 0, ran.output
    assert (tmp_path / "a.dxf").read_bytes() == (tmp_path / "b.dxf").read_bytes()
    assert "--settings" in ran.output


def test_two_buildings_stand_apart_in_one_drawing_and_are_told_apart_by_name(tmp_path: Path) -> None:
    (cabin, _), (hut, _) = read_plan(SAMPLES / "curlew-cabin.yaml"), read_plan(SAMPLES / "plover-hut.yaml")
    one, two = cabin.plan.buildings[0], hut.plan.buildings[0]
    (tmp_path / "two.dxf").write_bytes(plan_dxf(Plan(job="Job", buildings=(one, two))))
    for name, building in (("curlew-cabin", one), ("plover-hut", two)):
        back = read_plan(SAMPLES / f"{name}.yaml", tmp_path / "two.dxf")[0].plan.buildings[0]
        assert len(back.walls.openings) == len(building.walls.openings)
        assert footprint(back).area_sqin == pytest.approx(footprint(building).area_sqin)
        assert back.roof.overhang == building.roof.overhang
