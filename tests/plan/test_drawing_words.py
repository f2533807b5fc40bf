"""What is said of a drawing that isn't what it should be tells a builder what to do, and odd writing is read."""

from __future__ import annotations

import codecs
import gzip
from math import pi
from pathlib import Path

import pytest
from drawing_shop import BOX, SETTINGS, drawing, light, line, outline_of, pairs, read, rules, text

DOOR = light(BOX) + line((100, 0), (136, 0), "OPENINGS")


def said(folder: Path, content: str | bytes) -> str:
    """What is said of a drawing that is refused, on one line a finding."""
    written, findings = read(folder, content)
    assert written is None
    return "\n".join(str(finding) for finding in findings)


def test_layers_of_the_drawing_are_named_where_the_one_of_the_walls_is_not_among_them(tmp_path: Path) -> None:
    words = said(tmp_path, drawing(light(BOX, "A-WALL") + text("note", (5, 5), "A-NOTE")))
    assert "has the layers A-WALL, A-NOTE" in words
    assert "outline: {layer: …}" in words


@pytest.mark.parametrize("scale", [25.4, 1 / 100])
def test_an_outline_that_no_building_has_asks_for_the_unit(tmp_path: Path, scale: float) -> None:
    words = said(tmp_path, drawing(light([(x * scale, y * scale) for x, y in BOX])))
    assert "is the drawing's unit right?" in words
    assert words.count("\n") == 0


def test_an_open_polyline_is_told_once_with_both_ends(tmp_path: Path) -> None:
    words = said(tmp_path, drawing(light(BOX, closed=False)))
    assert words.count("open polyline") == 1
    assert '20\'-0" apart at (0", 0") and (0", 20\'-0")' in words


@pytest.mark.parametrize(
    ("content", "what"),
    [
        (b"%PDF-1.7\n", "a PDF"),
        (b"PK\x03\x04rest", "a zip archive"),
        (gzip.compress(b"0\nSECTION\n", mtime=0), "a packed file"),
        (b"\x89PNG\r\n", "a picture"),
        (drawing(DOOR).encode("utf-16"), "text in UTF-16"),
    ],
)
def test_another_kind_of_file_is_told_by_name(tmp_path: Path, content: bytes, what: str) -> None:
    assert f"found {what}" in said(tmp_path, content)


def test_a_mark_of_the_byte_order_is_passed_over(tmp_path: Path) -> None:
    assert len(outline_of(tmp_path, codecs.BOM_UTF8 + drawing(light(BOX)).encode())) == 4


def test_a_label_is_told_how_labels_are_written(tmp_path: Path) -> None:
    words = said(tmp_path, drawing(DOOR + text("kitchen window big", (118, 12))))
    assert "such as: 3068 door" in words
    assert "{width" not in words


@pytest.mark.parametrize("label", ["%%u3068 door", "%%U%%O3068%%u door"])
def test_signs_for_underlining_are_no_part_of_a_label(tmp_path: Path, label: str) -> None:
    written, findings = read(tmp_path, drawing(DOOR + text(label, (118, 12))))
    assert written is not None, [str(finding) for finding in findings]
    [opening] = written.plan.buildings[0].walls.openings
    assert (opening.call, opening.kind) == ("3068", "door")


def test_what_is_drawn_far_from_the_only_building_is_told(tmp_path: Path) -> None:
    skylight = light(((500, 50), (530, 50), (530, 80), (500, 80)), "SKYLIGHT")
    written, findings = read(tmp_path, drawing(light(BOX) + skylight))
    assert written is not None
    assert rules(findings) == ["drawing.left-out"]
    assert "8'-0\" or more outside the walls at (41'-8\", 4'-2\")" in findings[0].message


def test_half_an_ellipse_is_taken_as_straight_pieces_on_it(tmp_path: Path) -> None:
    # Half axes 240 along y and 120 along x: a bay at the east end, from (360, 0) out to x = 480 and back at y = 480.
    half = pairs(0, "ELLIPSE", 8, "WALLS", 10, 360, 20, 240, 11, 0, 21, -240, 40, 0.5, 41, 0, 42, pi)
    sides = line((0, 0), (360, 0)) + line((0, 480), (0, 0)) + line((360, 480), (0, 480))
    settings = SETTINGS.replace("shape: gable\n      gables: [east, west]\n", "shape: edges\n").replace(
        "outline: {units: in}", "outline: {units: in, curve: 3}"
    )
    points = outline_of(tmp_path, drawing(sides + half), settings)
    bay = [(x, y) for x, y in points if x > 360.01]
    assert len(bay) > 3
    for x, y in bay:
        assert ((x - 360) / 120) ** 2 + ((y - 240) / 240) ** 2 == pytest.approx(1, abs=1e-4)
    assert max(x for x, _ in bay) <= 480 + 1e-3
    assert max(x for x, _ in bay) >= 480 - 3
