"""What is amiss in a drawing is healed within tolerance and told, or told with handle, layer and coordinates."""

from __future__ import annotations

import re
import tempfile
from pathlib import Path

import pytest
from click.testing import CliRunner
from drawing_shop import (
    BOX,
    SETTINGS,
    block,
    box_lines,
    drawing,
    insert,
    light,
    line,
    outline_of,
    pairs,
    read,
    rules,
    text,
)
from hypothesis import given, settings
from hypothesis import strategies as st

from takeoff.cli import main
from takeoff.findings import PlanError
from takeoff.plan.drawing_in import __doc__ as card
from takeoff.plan.drawing_in.ascii_tags import AsciiSource
from takeoff.plan.drawing_in.expand import MAX_DEPTH
from takeoff.plan.read import read_plan

E, N, W = (line(BOX[1], BOX[2]), line(BOX[2], BOX[3]), line(BOX[3], BOX[0]))


@pytest.mark.parametrize(
    "entities",
    [
        line((0, 0), (359.8, 0)) + E + N + W,
        line((0, 0), (360.2, 0)) + E + N + W,
        line((0.1, 0), (359.9, 0)) + E + N + W,
        box_lines() + line((360, 0), (0, 0)),
        box_lines() + line((50, 50), (50, 50)),
        light(BOX) + light(BOX),
        line((0, 0), (100, 0)) + line((100, 0), (360, 0)) + E + N + W,
        light((*BOX, (0, 0.2)), closed=False),
        light((BOX[0], BOX[1], BOX[1], BOX[2], BOX[3])),
    ],
    ids=["short", "over", "both", "twice", "no length", "outline twice", "joined", "open", "corner twice"],
)
def test_a_slip_within_tolerance_is_healed_square_and_told(tmp_path: Path, entities: str) -> None:
    assert outline_of(tmp_path, drawing(entities)) == BOX
    assert "drawing.healed" in rules(read(tmp_path, drawing(entities))[1])


def test_a_wider_gap_is_told_with_handle_layer_and_both_ends(tmp_path: Path) -> None:
    _, findings = read(tmp_path, drawing(line((0, 0), (357, 0), handle="4A") + E + N + W))
    told = [str(finding) for finding in findings]
    assert rules(findings) == ["drawing.gap"] * 2
    assert any("layer WALLS, handle 4A" in one and '(29\'-9", 0")' in one and '(30\'-0", 0")' in one for one in told)


def test_a_crossing_points_into_the_drawing(tmp_path: Path) -> None:
    _, findings = read(tmp_path, drawing(light((BOX[0], BOX[2], BOX[1], BOX[3]))))
    [crossing] = [finding for finding in findings if finding.rule == "plan.geometry"]
    assert (crossing.place.file, crossing.place.path) == ("house.dxf", "layer WALLS, handle 2F")
    assert "crossing at (15'-0\", 10'-0\")" in crossing.message


def test_three_lines_at_a_corner_are_told(tmp_path: Path) -> None:
    _, findings = read(tmp_path, drawing(box_lines() + line((0, 0), (90, 90))))
    assert "drawing.gap" in rules(findings)


def test_the_inside_of_double_walls_is_left_out(tmp_path: Path) -> None:
    inner = [(6, 6), (354, 6), (354, 234), (6, 234)]
    assert outline_of(tmp_path, drawing(light(inner) + light(BOX))) == BOX


def test_of_several_outlines_the_one_with_the_buildings_name_is_taken(tmp_path: Path) -> None:
    other = [(x + 900, y) for x, y in BOX]
    assert rules(read(tmp_path, drawing(light(other) + light(BOX)))[1]) == ["drawing.no-outline"]
    assert outline_of(tmp_path, drawing(light(other) + light(BOX) + text("Hut", (99, 99), "WALLS"))) == BOX


NESTED = "".join(block(f"B{k}", "".join(insert(f"B{k + 1}", (i, 0)) for i in range(10))) for k in range(6))
DEEP = "".join(block(f"B{k}", insert(f"B{k + 1}")) for k in range(MAX_DEPTH + 2))
BAD: dict[str, tuple[str | bytes, str]] = {
    "nothing": (b"", "drawing.not-dxf"),
    "text": ("job: Hut\nbuildings: []\n", "drawing.not-dxf"),
    "zeros": (bytes(5000), "drawing.not-dxf"),
    "another format": (b"AC1032\x00\x00\x00" + bytes(200), "drawing.not-dxf"),
    "half of it": (drawing(light(BOX))[:-20], "drawing.truncated"),
    "cut in a pair": (drawing(light(BOX))[:60], "drawing.truncated"),
    "binary cut off": (b"Release Binary DXF\r\n\x1a\x00\x00\x00SECT", "drawing.syntax"),
    "binary garbage": (b"Release Binary DXF\r\n\x1a\x00\x00\x00" + b"\xfe\xfa\x00\x81" * 99, "drawing.syntax"),
    "no number": (drawing(line((0, 0), (1, 0)).replace("11\n1", "11\nnan")), "drawing.syntax"),
    "no code": (drawing(pairs(0, "LINE", 8, "WALLS", "ten", 0)), "drawing.syntax"),
    "huge": (drawing(line((0, 0), (1e300, 0))), "drawing.syntax"),
    "empty": (drawing(""), "drawing.no-outline"),
    "in itself": (drawing(insert("A"), block("A", light(BOX) + insert("A"))), "drawing.block"),
    "a million": (drawing(insert("B0"), NESTED + block("B6", line((0, 0), (1, 1)))), "drawing.too-large"),
    "a wide array": (drawing(insert("A", (0, 0), 70, 30000, 71, 30000), block("A", light(BOX))), "drawing.too-large"),
    "too deep": (drawing(insert("B0"), DEEP + block(f"B{MAX_DEPTH + 2}", light(BOX))), "drawing.block"),
    "a hatch of lines": (drawing("".join(line((0, k), (9, k)) for k in range(600))), "drawing.too-large"),
    "a town": (drawing("".join(light([(x + 999 * k, y) for x, y in BOX]) for k in range(600))), "drawing.too-large"),
    "faces": (drawing(pairs(0, "3DFACE", 8, "WALLS", 10, 0, 20, 0, 30, 0)), "drawing.left-out"),
    "a mesh": (drawing(pairs(0, "POLYLINE", 8, "WALLS", 70, 64, 0, "SEQEND")), "drawing.left-out"),
    "tilted": (drawing(light(BOX, extra=(210, 1, 220, 0, 230, 1))), "drawing.left-out"),
    "no such block": (drawing(insert("NONE", layer="WALLS")), "drawing.left-out"),
    "odd corners": (drawing(pairs(0, "LWPOLYLINE", 8, "WALLS", 10, 1, 20, 2, 10, 3)), "drawing.syntax"),
    "no corners": (drawing(pairs(0, "LWPOLYLINE", 8, "WALLS", 70, 1)), "drawing.healed"),
}


@pytest.mark.parametrize("name", BAD)
def test_a_bad_drawing_is_told(tmp_path: Path, name: str) -> None:
    content, rule = BAD[name]
    written, findings = read(tmp_path, content)
    assert written is None
    assert rule in rules(findings)
    assert all("\n" not in str(finding) for finding in findings)


def test_every_rule_that_a_drawing_breaks_is_documented() -> None:
    documented = set(re.findall(r"^ {4}(drawing\.[a-z-]+) ", card or "", re.MULTILINE))
    told = {match for source in Path("takeoff/plan/drawing_in").glob("*.py") for match in _told_in(source.read_text())}
    assert told <= documented
    assert {rule for _, rule in BAD.values()} <= documented


def _told_in(source: str) -> set[str]:
    return {f"drawing.{name}" for name in re.findall(r'(?:told|refused)\([^"\n]*, "([a-z-]+)", ', source)}


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_a_drawing_spoiled_anywhere_gives_words_and_no_traceback(data: st.DataObject) -> None:
    whole = drawing(insert("A", (1, 2)) + box_lines() + text("3040", (9, 9)), block("A", light(BOX))).encode()
    at = data.draw(st.integers(0, len(whole) - 1))
    put = data.draw(st.binary(max_size=8) | st.sampled_from([b"0\n", b"-1\n", b"999999999999\n", b"INSERT\n", b""]))
    spoiled = whole[:at] + put + whole[at + data.draw(st.integers(0, 30)) :]
    with tempfile.TemporaryDirectory() as folder:
        written, findings = read(Path(folder), spoiled)
    assert written is not None or findings


def test_the_entities_of_other_layers_are_never_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    read_ones: list[str] = []
    tags = AsciiSource.tags
    monkeypatch.setattr(AsciiSource, "tags", lambda self, chunk: (read_ones.append(chunk.kind), tags(self, chunk))[1])
    noise = "".join(line((k, 0), (k, 9), "SITE") + insert("TREE", (k, k), layer="SITE") for k in range(2000))
    content = drawing(noise + light(BOX), block("TREE", line((0, 0), (1, 1), "PLANTS")))
    assert outline_of(tmp_path, content) == BOX
    assert len(read_ones) < 10


def test_a_plan_that_names_a_drawing_is_read_and_its_own_openings_go_before(tmp_path: Path) -> None:
    mark = line((60, 0), (96, 0), "OPENINGS") + text("3040", (78, 12))
    (tmp_path / "house.dxf").write_text(drawing(light(BOX, "HOUSE WALLS") + mark))
    named = SETTINGS.replace("{units: in}", "{dxf: house.dxf, layer: house walls, units: in}")
    (tmp_path / "plan.yaml").write_text(named)
    written, _ = read_plan(tmp_path / "plan.yaml")
    assert written.plan.buildings[0].outline == BOX
    assert len(written.plan.buildings[0].walls.openings) == 1
    assert written.place("buildings[0].outline").file == "house.dxf"
    (tmp_path / "plan.yaml").write_text(named.replace("{studs: 2x6,", "{studs: 2x6, openings: [],"))
    written, findings = read_plan(tmp_path / "plan.yaml")
    assert written.plan.buildings[0].walls.openings == ()
    assert "drawing.not-used" in rules(findings)


@pytest.mark.parametrize(
    ("given_", "rule"),
    [
        ("{dxf: none.dxf, units: in}", "drawing.unreadable"),
        ("{dxf: ../house.dxf, units: in}", "plan.wrong-value"),
        ("{dxf: house.dxf, layr: WALLS}", "plan.unknown-key"),
        ("{units: in}", "drawing.unreadable"),
    ],
)
def test_a_wrong_word_about_the_drawing_is_told_in_the_plan(tmp_path: Path, given_: str, rule: str) -> None:
    (tmp_path / "plan.yaml").write_text(SETTINGS.replace("{units: in}", given_))
    with pytest.raises(PlanError) as told:
        read_plan(tmp_path / "plan.yaml")
    assert [(finding.rule, finding.place.file, finding.place.line) for finding in told.value.findings] == [
        (rule, "plan.yaml", 5)
    ]


def test_a_drawing_given_as_a_plan_says_how_to_use_it(tmp_path: Path) -> None:
    (tmp_path / "house.dxf").write_text(drawing(light(BOX)))
    ran = CliRunner().invoke(main, ["run", str(tmp_path / "house.dxf")])
    assert ran.exit_code == 2
    assert "--settings" in ran.output
