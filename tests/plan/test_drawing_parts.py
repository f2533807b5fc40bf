"""Openings, skylights, overhangs and roof lines of a drawing, and the words beside them."""

from __future__ import annotations

from pathlib import Path

import pytest
from drawing_shop import BOX, SETTINGS, block, drawing, insert, light, line, pairs, read, rules, text

from takeoff.findings import Finding
from takeoff.pipeline import take_off
from takeoff.plan.drawing_in.labels import OpeningLabel, read_label
from takeoff.plan.openings import Opening

HIP = SETTINGS.replace("shape: gable", "shape: hip").replace("      gables: [east, west]\n", "")


def opening_of(folder: Path, marks: str) -> Opening:
    written, findings = read(folder, drawing(light(BOX) + marks))
    assert written is not None, [str(finding) for finding in findings]
    [opening] = written.plan.buildings[0].walls.openings
    return opening


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        ("3040", OpeningLabel(size=(36, 48))),
        ("3068 door", OpeningLabel(size=(36, 80), kind="door")),
        ("DOOR 3068", OpeningLabel(size=(36, 80), kind="door")),
        ("cased opening 6'-0\" x 6'-8\"", OpeningLabel(size=(72, 80), kind="cased")),
        ("3040 window, head 6'-8\"", OpeningLabel(size=(36, 48), head=80)),
        ("3040 head: 82.5 window", OpeningLabel(size=(36, 48), head=82.5)),
        ('6068 sliding door allowance 1/2" x 1"', OpeningLabel(size=(72, 80), kind="sliding", allowance=(0.5, 1))),
        ("9070 garage", OpeningLabel(size=(108, 84), kind="garage")),
        ("4040 header 2-2x8 jacks 2", OpeningLabel(size=(48, 48), header="2-2x8", jacks=2)),
        ("2'-10\" x 3'-6 1/2\"", OpeningLabel(size=(34, 42.5))),
    ],
)
def test_a_label_says_size_kind_head_header_and_jacks(words: str, wanted: OpeningLabel) -> None:
    assert read_label(words) == wanted


@pytest.mark.parametrize(
    "words", ["", "window", "W1", "304", "3040 door window", "3040 head", "3040 head high", "3040 jacks two", "9" * 999]
)
def test_a_label_that_cannot_be_read_says_how_to_write_one(words: str) -> None:
    with pytest.raises(ValueError, match="3068 door"):
        read_label(words)


@pytest.mark.parametrize(
    "mark",
    [
        line((60, 0), (96, 0), "OPENINGS"),
        line((60, 5.5), (96, 5.5), "OPENINGS"),
        line((78, -1), (78, 7), "OPENINGS"),
        light(((60, 0), (96, 0), (96, 5.5), (60, 5.5)), "OPENINGS"),
    ],
    ids=["along the outside", "along the inside", "across", "rectangle"],
)
def test_a_mark_in_a_wall_with_a_label_near_is_an_opening(tmp_path: Path, mark: str) -> None:
    opening = opening_of(tmp_path, mark + text("3040 head 6'-8\"", (78, 20)))
    assert (opening.side, opening.center, opening.size.width, opening.size.height) == ("south", 78, 36, 48)
    assert opening.head == 80


def test_an_opening_is_measured_from_the_left_end_seen_from_outside(tmp_path: Path) -> None:
    # The north side runs from (360, 240) to the west: its middle at x = 300 is 60 from the left end.
    opening = opening_of(tmp_path, line((282, 240), (318, 240), "OPENINGS") + text("3040", (300, 250)))
    assert (opening.side, opening.center) == ("north", 60)


def test_a_door_drawn_as_a_block_with_its_swing_is_one_opening(tmp_path: Path) -> None:
    swing = pairs(0, "ARC", 8, "OPENINGS", 10, 0, 20, 0, 40, 36, 50, 0, 51, 90)
    leaf = line((0, 0), (0, 36), "OPENINGS") + line((0, 0), (36, 0), "OPENINGS")
    content = drawing(light(BOX) + insert("DOOR", (100, 0)) + text("3068 door", (118, 12)), block("DOOR", leaf + swing))
    written, _ = read(tmp_path, content)
    assert written is not None
    [door] = written.plan.buildings[0].walls.openings
    assert (door.kind, door.center) == ("door", pytest.approx(118))


def test_labels_go_to_the_nearest_openings(tmp_path: Path) -> None:
    marks = line((60, 0), (96, 0), "OPENINGS") + line((120, 0), (144, 0), "OPENINGS")
    written, _ = read(tmp_path, drawing(light(BOX) + marks + text("2040", (126, 9)) + text("3040", (84, 9))))
    assert written is not None
    assert [opening.size.width for opening in written.plan.buildings[0].walls.openings] == [36, 24]


@pytest.mark.parametrize(
    ("marks", "rule", "words"),
    [
        (line((60, 0), (96, 0), "OPENINGS"), "drawing.label", "without a label"),
        (line((60, 0), (96, 0), "OPENINGS") + text("W-1", (78, 9)), "drawing.label", "'W-1'"),
        (line((60, 99), (96, 99), "OPENINGS") + text("3040", (78, 99)), "drawing.opening", "in no wall"),
        (line((60, 0), (96, 0), "OPENINGS") + text("4040", (78, 9)), "drawing.differs", "drawn 3'-0\" wide"),
        (text("3040", (78, 9)), "", ""),
        (light(((60, -50), (90, -50), (90, -90)), "SKYLIGHT"), "drawing.opening", "in no slope"),
        (line((9, 9), (9, 13), "POST"), "drawing.left-out", "a post at"),
    ],
)
def test_what_cannot_be_an_opening_is_told_with_its_place(tmp_path: Path, marks: str, rule: str, words: str) -> None:
    _, findings = read(tmp_path, drawing(light(BOX) + marks))
    told = [finding for finding in findings if finding.rule.startswith("drawing.")]
    assert [finding.rule for finding in told] == ([rule] if rule else [])
    assert all(words in finding.message and finding.place.file == "house.dxf" for finding in told)


def test_a_skylight_drawn_from_above_has_its_height_along_the_slope(tmp_path: Path) -> None:
    # 30 of run at 6/12 is 30 * sqrt(1.25) along the slope; on the north side left is east.
    mark = light(((100, 180), (124, 180), (124, 210), (100, 210)), "SKYLIGHT")
    written, _ = read(tmp_path, drawing(light(BOX) + mark))
    assert written is not None
    [skylight] = written.plan.buildings[0].roof.skylights
    assert (skylight.side, skylight.left, skylight.from_wall, skylight.width) == ("north", 236, 30, 24)
    assert skylight.height == pytest.approx(30 * 1.25**0.5, abs=1e-5)


@pytest.mark.parametrize("closed", [True, False])
def test_the_eave_line_gives_the_overhangs(tmp_path: Path, closed: bool) -> None:
    around = [(-12, -16), (372, -16), (372, 256), (-12, 256)]
    mark = light(around, "ROOF") if closed else light([*around[:2]], "ROOF", closed=False)
    written, _ = read(tmp_path, drawing(light(BOX) + mark))
    assert written is not None
    overhang = written.plan.buildings[0].roof.overhang
    assert (overhang.eave, overhang.rake) == (16, 12 if closed else 0)


def test_unlike_overhangs_are_told_and_not_taken(tmp_path: Path) -> None:
    mark = light([(-12, -12), (372, -12), (372, 256), (-12, 256)], "ROOF")
    written, findings = read(tmp_path, drawing(light(BOX) + mark), HIP)
    assert written is not None
    assert "drawing.differs" in rules(findings)
    assert written.plan.buildings[0].roof.overhang.eave == 0


def test_names_written_at_the_sides_are_theirs(tmp_path: Path) -> None:
    spots = {"street": (180, -9), "yard": (369, 120), "garden": (180, 249), "lane": (-9, 120)}
    labels = "".join(text(words, at, "WALLS") for words, at in spots.items())
    written, _ = read(tmp_path, drawing(light(BOX) + labels), SETTINGS.replace("[east, west]", "[yard, lane]"))
    assert written is not None
    assert written.plan.buildings[0].sides == ("street", "yard", "garden", "lane")


def folds_told(folder: Path, marks: str) -> list[Finding]:
    read(folder, drawing(light(BOX) + marks), HIP)
    takeoff = take_off(folder / "house.dxf", folder / "settings.yaml")
    return [finding for finding in takeoff.findings if finding.rule == "drawing.differs"]


# A hip roof over 30' x 20' at one pitch: hips at 45 degrees to (120, 120) and (240, 120), a ridge between.
RIDGE = line((120, 120), (240, 120), "RIDGE")
HIPS = (
    line((0, 0), (120, 120), "HIP")
    + line((360, 0), (240, 120), "HIP")
    + line((360, 240), (240, 120), "HIP")
    + line((0, 240), (120, 120), "HIP")
)


def test_a_roof_drawn_as_it_is_laid_out_is_passed_in_silence(tmp_path: Path) -> None:
    assert folds_told(tmp_path, RIDGE + HIPS) == []


def test_a_ridge_drawn_elsewhere_is_told_and_so_is_the_one_not_drawn(tmp_path: Path) -> None:
    told = folds_told(tmp_path, line((120, 100), (240, 100), "RIDGE") + HIPS)
    assert len(told) == 2
    assert told[0].place.path == "layer RIDGE, entity 2"
    assert "(10'-0\", 10'-0\")" in told[0].message


def test_a_valley_where_the_roof_has_none_is_told(tmp_path: Path) -> None:
    [told] = folds_told(tmp_path, RIDGE + HIPS + line((0, 0), (50, 50), "VALLEY"))
    assert "it has none" in told.message
