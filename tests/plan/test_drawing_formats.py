"""Outlines are read from every way a drawing may hold them."""

from __future__ import annotations

import io
from itertools import pairwise
from pathlib import Path

import ezdxf
import pytest
from drawing_shop import (
    BOX,
    SETTINGS,
    block,
    box_lines,
    drawing,
    heavy,
    insert,
    light,
    line,
    outline_of,
    pairs,
    read,
    rules,
)

DRAWINGS = Path(__file__).parent / "drawings"
UNITLESS = SETTINGS.replace("{units: in}", "{}")


@pytest.mark.parametrize("entities", [light(BOX), heavy(BOX), box_lines(), light((*BOX, BOX[0]), closed=False)])
def test_polylines_and_lines_give_the_same_outline(tmp_path: Path, entities: str) -> None:
    assert outline_of(tmp_path, drawing(entities)) == BOX


@pytest.mark.parametrize("release", ["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"])
@pytest.mark.parametrize("binary", [False, True])
def test_every_release_is_read_as_text_and_as_bytes(tmp_path: Path, release: str, binary: bool) -> None:
    document = ezdxf.new(release, units=4)  # millimetres
    document.layers.add("WALLS")
    space = document.modelspace()
    points = [(x * 25.4, y * 25.4) for x, y in BOX]
    if release == "R12":
        space.add_polyline2d(points, close=True, dxfattribs={"layer": "WALLS"})
    else:
        space.add_lwpolyline(points, close=True, dxfattribs={"layer": "WALLS"})
    file = tmp_path / "made.dxf"
    document.saveas(file, fmt="bin" if binary else "asc")
    settings = SETTINGS.replace("units: in", "units: mm")  # release 12 has no unit
    assert outline_of(tmp_path, file.read_bytes(), settings) == BOX


@pytest.mark.parametrize(
    "name", ["lines-by-a-map-library.dxf", "outline-by-a-mesh-library.dxf", "blocks-by-an-r12-library.dxf"]
)
def test_files_of_other_libraries_are_read_as_they_are(tmp_path: Path, name: str) -> None:
    settings = SETTINGS.replace("units: in", "units: in, openings: NONE")  # the one line there has no label
    assert outline_of(tmp_path, (DRAWINGS / name).read_bytes(), settings) == BOX


@pytest.mark.parametrize(
    ("code", "inches"), [(1, 1), (2, 12), (4, 1 / 25.4), (5, 1 / 2.54), (6, 100 / 2.54), (10, 36), (14, 10 / 2.54)]
)
def test_the_unit_of_the_drawing_is_taken(tmp_path: Path, code: int, inches: float) -> None:
    points = [(x / inches, y / inches) for x, y in BOX]
    content = drawing(light(points), header=(9, "$INSUNITS", 70, code))
    assert outline_of(tmp_path, content, UNITLESS) == BOX


def test_a_drawing_without_a_unit_asks_for_one(tmp_path: Path) -> None:
    _, findings = read(tmp_path, drawing(light(BOX)), UNITLESS)
    assert rules(findings) == ["drawing.units"]
    assert "units: in" in findings[0].message


def test_a_stated_unit_goes_before_the_drawings_with_a_warning(tmp_path: Path) -> None:
    written, findings = read(tmp_path, drawing(light(BOX), header=(9, "$INSUNITS", 70, 4)))
    assert written is not None
    assert "drawing.units" in rules(findings)


def test_a_drawing_far_from_the_origin_is_moved_there(tmp_path: Path) -> None:
    # A survey grid in millimetres: 3.2 and 5.4 million metres off.
    points = [(3.2e9 + x * 25.4, 5.4e9 + y * 25.4) for x, y in BOX]
    settings = SETTINGS.replace("units: in", "units: mm")
    assert outline_of(tmp_path, drawing(light(points)), settings) == BOX


@pytest.mark.parametrize(
    ("put", "what"),
    [
        (insert("HOUSE", (100, 50)), "moved"),
        (insert("HOUSE", (0, 0), 41, 2, 42, 2), "scaled"),
        (insert("HOUSE", (0, 0), 41, -1), "mirrored"),
        (insert("HOUSE", (0, 0), 50, 90), "turned"),
        (insert("HOUSE", (0, 0), 210, 0, 220, 0, 230, -1), "seen from behind"),
    ],
)
def test_a_block_is_put_in_its_place(tmp_path: Path, put: str, what: str) -> None:
    corner = light(((0, 0), (360, 0), (360, 240), (120, 240), (120, 120), (0, 120)))
    maps = {
        "moved": lambda x, y: (x + 100, y + 50),
        "scaled": lambda x, y: (2 * x, 2 * y),
        "mirrored": lambda x, y: (-x, y),
        "turned": lambda x, y: (-y, x),
        "seen from behind": lambda x, y: (-x, y),
    }
    settings = SETTINGS.replace("shape: gable", "shape: edges").replace("      gables: [east, west]\n", "")
    wanted = tuple(maps[what](x, y) for x, y in ((0, 0), (360, 0), (360, 240), (120, 240), (120, 120), (0, 120)))
    assert outline_of(tmp_path, drawing(put, block("HOUSE", corner)), settings) == wanted


def test_blocks_in_blocks_take_the_layer_of_the_insert_for_layer_0(tmp_path: Path) -> None:
    inner = block("INNER", light(BOX, layer="0"), base=(10, 10))
    outer = block("OUTER", insert("INNER", (10, 10)))
    assert outline_of(tmp_path, drawing(insert("OUTER", layer="WALLS"), inner + outer)) == BOX


def test_blocks_match_what_a_drawing_library_makes_of_them(tmp_path: Path) -> None:
    # The library's own explode is the reference: turned, unevenly scaled, mirrored, an array, with a base point.
    document = ezdxf.new("R2010", units=1)
    held = document.blocks.new("HELD", base_point=(7, 3))
    held.add_lwpolyline(BOX, close=True, dxfattribs={"layer": "WALLS"})
    space = document.modelspace()
    put = space.add_blockref(
        "HELD", (50, 20), dxfattribs={"rotation": 30, "xscale": -1.5, "yscale": 0.75, "extrusion": (0, 0, -1)}
    )
    text = io.StringIO()
    document.write(text)
    [exploded] = put.explode()
    vertices = list(exploded.vertices_in_wcs())
    wanted = tuple((round(p.x, 3) + 0.0, round(p.y, 3) + 0.0) for p in vertices)
    settings = SETTINGS.replace("[east, west]", "[side 2, side 4]")
    assert outline_of(tmp_path, text.getvalue(), settings) == wanted


def test_a_curved_corner_is_taken_as_straight_pieces_within_the_tolerance(tmp_path: Path) -> None:
    # A quarter circle of 120 between (360, 120) and (240, 240): bulge tan(90/4 deg).
    content = drawing(
        pairs(0, "LWPOLYLINE", 8, "WALLS", 90, 5, 70, 1, 10, 0, 20, 0, 10, 360, 20, 0, 10, 360, 20, 120)
        + pairs(42, 0.41421356237, 10, 240, 20, 240, 10, 0, 20, 240)
    )
    settings = SETTINGS.replace("shape: gable", "shape: hip").replace("      gables: [east, west]\n", "")
    written, findings = read(tmp_path, content, settings)
    assert written is not None
    assert "drawing.flattened" in rules(findings)
    corners = written.plan.buildings[0].outline
    on_arc = corners[2:-1]
    assert len(on_arc) > 4
    assert all(((x - 240) ** 2 + (y - 120) ** 2) ** 0.5 == pytest.approx(120, abs=1e-4) for x, y in on_arc)
    middles = [((a[0] + b[0]) / 2 - 240, (a[1] + b[1]) / 2 - 120) for a, b in pairwise(on_arc)]
    assert all(119.5 <= (x * x + y * y) ** 0.5 < 120 for x, y in middles)


def test_what_is_drawn_on_paper_is_not_in_the_building(tmp_path: Path) -> None:
    frame = pairs(0, "LINE", 8, "WALLS", 67, 1, 10, 0, 20, 0, 11, 9, 21, 9)
    assert outline_of(tmp_path, drawing(frame + box_lines())) == BOX


def test_lines_drawn_in_any_order_begin_at_the_lower_left(tmp_path: Path) -> None:
    content = drawing(line(BOX[2], BOX[1]) + line(BOX[3], BOX[0]) + line(BOX[2], BOX[3]) + line(BOX[0], BOX[1]))
    assert outline_of(tmp_path, content) == BOX
