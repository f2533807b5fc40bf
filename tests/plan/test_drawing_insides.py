"""Partitions, floors, lofts, porches and dormers of a drawing, and how they go together with what the plan writes."""

from __future__ import annotations

from pathlib import Path

import pytest
from drawing_shop import BOX, SETTINGS, drawing, light, line, pairs, read, rules, text

from takeoff.findings import Place
from takeoff.framing.drawn_faces import faces_as_drawn
from takeoff.framing.frame import frame
from takeoff.plan.schema import Building

LOFTS = SETTINGS + "    floors: {lofts: [{name: loft, height: 7', joists: {size: 2x8}, PLACED}]}\n"
PORCH = "porches: [{side: south, center: 10', width: 8', depth: 5', shape: shed, pitch: 3/12, roof_height: 7'-6\", "
PORCH += "beam: {size: 3-2x8}, posts: {size: 6x6}}]"
DORMER = "dormers: [{side: north, shape: gable, center: 9', width: 5', front: 2', height: 18}]"
MINORS = SETTINGS.rstrip() + f"\n      {PORCH}\n      {DORMER}\n"


def drawn(folder: Path, marks: str, settings: str = SETTINGS) -> Building:
    written, findings = read(folder, drawing(light(BOX) + marks), settings)
    assert written is not None, [str(finding) for finding in findings]
    return written.plan.buildings[0]


@pytest.mark.parametrize(
    "mark",
    [
        line((120, 0), (120, 240), "PARTITIONS"),
        light(((118.25, 0), (121.75, 0), (121.75, 240), (118.25, 240)), "PARTITIONS"),
    ],
    ids=["a line", "a rectangle as thick as the wall"],
)
def test_a_partition_is_drawn_with_its_name_and_its_studs(tmp_path: Path, mark: str) -> None:
    label = text('bath studs 2x6 spacing 24" bearing', (126, 120), "PARTITIONS")
    [partition] = drawn(tmp_path, mark + label).walls.partitions
    assert {partition.start, partition.end} == {(120, 0), (120, 240)}
    assert (partition.name, partition.studs, partition.spacing, partition.bearing) == ("bath", "2x6", 24, True)


def test_a_partition_without_a_label_is_numbered(tmp_path: Path) -> None:
    [partition] = drawn(tmp_path, line((120, 0), (120, 240), "PARTITIONS")).walls.partitions
    assert (partition.name, partition.studs) == ("partition 1", "2x4")


def test_a_door_drawn_in_a_partition_is_measured_from_where_it_begins(tmp_path: Path) -> None:
    door = line((120, 60), (120, 92), "OPENINGS") + text("2868 door", (135, 76))
    wall = line((120, 0), (120, 240), "PARTITIONS")
    building = drawn(tmp_path, wall + door)
    [opening] = building.walls.partitions[0].openings
    assert (opening.center, opening.kind) == (76, "door")
    assert not building.walls.openings


def test_a_line_drawn_the_other_way_is_turned_to_begin_where_the_plan_has_it_begin(tmp_path: Path) -> None:
    written = SETTINGS.replace("studs: 2x6,", "studs: 2x6, partitions: [{name: bath, from: [10', 20'], to: [10', 0]}],")
    door = line((120, 60), (120, 92), "OPENINGS") + text("2868 door", (135, 76))
    marks = line((120, 0), (120, 240), "PARTITIONS") + text("bath", (126, 180), "PARTITIONS")
    [partition] = drawn(tmp_path, marks + door, written).walls.partitions
    assert partition.start == (120, 240)
    assert partition.openings[0].center == 240 - 76


def test_a_partition_keeps_what_only_the_plan_says_and_one_not_drawn_is_left_out(tmp_path: Path) -> None:
    bath = "{name: bath, from: [1', 1'], to: [1', 9'], studs: 2x6, grade: no2}"
    hall = "{name: hall, from: [9', 0], to: [9', 20']}"
    written = SETTINGS.replace("studs: 2x6,", f"studs: 2x6, partitions: [{bath}, {hall}],")
    marks = line((120, 0), (120, 240), "PARTITIONS") + text("Bath", (126, 180), "PARTITIONS")
    plan, findings = read(tmp_path, drawing(light(BOX) + marks), written)
    assert plan is not None
    [partition] = plan.plan.buildings[0].walls.partitions
    assert (partition.start, partition.studs, partition.grade) == ((120, 0), "2x6", "no2")
    assert ["'hall'" in finding.message for finding in findings if finding.rule == "drawing.left-out"] == [True]


def test_two_partitions_of_one_name_are_refused(tmp_path: Path) -> None:
    written = SETTINGS.replace("studs: 2x6,", "studs: 2x6, partitions: [{name: bath, from: [10', 20'], to: [10', 0]}],")
    marks = line((120, 0), (120, 240), "PARTITIONS") + text("bath", (126, 180), "PARTITIONS")
    marks += line((200, 0), (200, 240), "PARTITIONS") + text("bath", (206, 180), "PARTITIONS")
    plan, findings = read(tmp_path, drawing(light(BOX) + marks), written)
    assert plan is None
    assert [finding.rule for finding in findings if finding.severity == "error"] == ["plan.name"]


def test_a_label_of_no_size_is_refused_where_it_stands_in_the_drawing(tmp_path: Path) -> None:
    marks = line((120, 0), (120, 240), "PARTITIONS") + text("bath studs 2x99", (126, 120), "PARTITIONS")
    plan, findings = read(tmp_path, drawing(light(BOX) + marks))
    assert plan is None
    [wrong] = [finding for finding in findings if finding.severity == "error"]
    assert wrong.place.file == "house.dxf"
    assert "2x99" in wrong.message


def test_a_loft_drawn_takes_its_joists_from_the_plan_or_its_label(tmp_path: Path) -> None:
    mark = light(((0, 0), (96, 0), (96, 240), (0, 240)), "LOFT")
    alone = mark + text('sleeping loft height 7\'-6" joists 2x8 spacing 24"', (48, 120), "LOFT")
    [loft] = drawn(tmp_path, alone).floors.lofts
    assert (loft.name, loft.height, loft.joists.size, loft.joists.spacing) == ("sleeping loft", 90, "2x8", 24)
    [loft] = drawn(tmp_path, mark, LOFTS.replace("PLACED", "side: west, depth: 5'")).floors.lofts
    assert (loft.side, loft.depth, loft.outline) == ("west", 96, None)
    [loft] = drawn(tmp_path, mark, LOFTS.replace("PLACED", "side: east, depth: 5'")).floors.lofts
    assert (loft.side, loft.outline) == (None, ((0, 0), (96, 0), (96, 240), (0, 240)))


def test_a_loft_without_joists_is_refused_in_the_drawing(tmp_path: Path) -> None:
    mark = light(((0, 0), (96, 0), (96, 240), (0, 240)), "LOFT") + text("loft height 7'", (48, 120), "LOFT")
    written, findings = read(tmp_path, drawing(light(BOX) + mark))
    assert written is None
    [missing] = [finding for finding in findings if "joists" in finding.message]
    assert missing.place.file == "house.dxf"


@pytest.mark.parametrize(
    ("label", "lacks"),
    [("", "its height and the size of its joists"), ("loft joists 2x8", "its height"), ("nook height 7'", "the size")],
)
def test_a_loft_that_is_not_told_says_what_to_write_in_the_drawing(tmp_path: Path, label: str, lacks: str) -> None:
    mark = light(((0, 0), (96, 0), (96, 240), (0, 240)), "LOFT")
    written, findings = read(tmp_path, drawing(light(BOX) + mark + (text(label, (48, 120), "LOFT") if label else "")))
    assert written is None
    [finding] = findings
    assert (finding.rule, finding.place.path) == ("drawing.label", "layer LOFT, handle 2F")
    assert f"without {lacks}" in finding.message
    assert "loft height 7'-6\" joists 2x8" in finding.message


def test_a_main_floor_drawn_as_the_walls_has_no_outline_of_its_own(tmp_path: Path) -> None:
    label = text("joists 2x10", (180, 120), "FLOOR")
    main = drawn(tmp_path, light(BOX, "FLOOR") + label).floors.main
    assert main is not None
    assert (main.outline, main.joists.size) == (None, "2x10")
    wider = light(((-24, 0), (360, 0), (360, 240), (-24, 240)), "FLOOR")
    main = drawn(tmp_path, wider + label).floors.main
    assert main is not None
    assert main.outline is not None
    assert main.outline[0] == (-24, 0)


def test_a_main_floor_of_nothing_is_told(tmp_path: Path) -> None:
    _, findings = read(tmp_path, drawing(light(BOX) + light(BOX, "FLOOR")))
    assert rules(findings) == ["drawing.not-used"]
    assert "joists" in findings[0].message


def test_porches_and_dormers_drawn_move_those_of_the_plan(tmp_path: Path) -> None:
    porch = light(((60, -72), (180, -72), (180, 0), (60, 0)), "PORCH") + text("south porch", (120, -36), "PORCH")
    dormer = light(((240, 190), (300, 190), (300, 222), (240, 222)), "DORMER")
    roof = drawn(tmp_path, porch + dormer, MINORS).roof
    assert (roof.porches[0].across_in, roof.porches[0].depth) == ((60, 180), 72)
    # Seen from outside the north side's left end is at x = 360; its front wall stands 18" inside the wall.
    assert (roof.dormers[0].across_in, roof.dormers[0].front) == ((60, 120), 18)


def test_a_porch_that_the_plan_has_not_is_told_what_it_needs(tmp_path: Path) -> None:
    porch = light(((60, -72), (180, -72), (180, 0), (60, 0)), "PORCH")
    _, findings = read(tmp_path, drawing(light(BOX) + porch))
    assert rules(findings) == ["drawing.not-used"]
    assert "'south porch'" in findings[0].message
    assert "pitch, beam and posts" in findings[0].message


def test_posts_drawn_as_points_circles_or_squares_stand_under_their_girder_or_porch(tmp_path: Path) -> None:
    floor = "floors: {main: {joists: {size: 2x10}, girders: [{from: [30', 10'], to: [0, 10'], size: 3-2x10}]}}"
    marks = pairs(0, "POINT", 8, "POST", 10, 120, 20, 121) + pairs(0, "CIRCLE", 8, "POST", 10, 240, 20, 120, 40, 4)
    marks += light(((75, -58), (79, -58), (79, -62), (75, -62)), "POST")
    marks += pairs(0, "POINT", 8, "POST", 10, 160, 20, -58)
    written, findings = read(tmp_path, drawing(light(BOX) + marks), MINORS + f"    {floor}\n")
    assert written is not None, [str(finding) for finding in findings]
    assert rules(findings) == []
    building = written.plan.buildings[0]
    assert building.floors.main is not None
    assert building.floors.main.girders[0].posts == pytest.approx((120, 240), abs=0.5)
    # The porch is 8' wide about 10': its left end is at 6'
    assert building.roof.porches[0].posts.places == pytest.approx((5, 88), abs=1e-6)


def test_the_word_chimney_makes_a_chimney_of_a_rectangle_in_a_slope(tmp_path: Path) -> None:
    marks = light(((100, 30), (124, 30), (124, 50), (100, 50)), "SKYLIGHT")
    marks += light(((200, 30), (224, 30), (224, 50), (200, 50)), "SKYLIGHT") + text("Chimney", (112, 40), "SKYLIGHT")
    found = drawn(tmp_path, marks).roof.skylights
    assert [(each.kind, each.depth) for each in found] == [("chimney", 20), ("skylight", None)]


def compared(folder: Path, points: tuple[tuple[float, float], ...], layer: str, side: str) -> list[str]:
    marks = light(points, layer) + text(side, (950, 20), layer)
    written, findings = read(folder, drawing(light(BOX) + marks))
    assert written is not None, [str(finding) for finding in findings]
    building = written.plan.buildings[0]
    framed, _ = frame(building, lambda path: Place(path=path))
    told = [*findings, *faces_as_drawn(building, framed, written.drawn_of(0).elevations)]
    return [finding.message for finding in told if finding.rule.startswith("drawing.")]


def standing(width: float, *heights: float) -> tuple[tuple[float, float], ...]:
    """An elevation drawn beside the plan: its foot, then its top from right to left."""
    step = width / (len(heights) - 1)
    return ((900, 0), (900 + width, 0), *((900 + width - k * step, high) for k, high in enumerate(heights)))


@pytest.mark.parametrize(
    ("points", "layer", "side", "words"),
    [
        (standing(360, 97, 97), "WALL FACE", "south", ""),
        (standing(360, 109, 109), "WALL FACE", "south", "south wall drawn 9'-1\" high, expected 8'-1 1/8\""),
        (standing(348, 97, 97), "WALL FACE", "south", "drawn 29'-0\" wide, expected 30'-0\""),
        # 8'-1 1/8" of wall, a heel of about 6" over the plate, and 120 of run at 6/12: 60 more
        (standing(240, 103, 163, 103), "GABLE", "east", ""),
        (standing(240, 6, 66, 6), "GABLE", "east", ""),
        (standing(240, 6, 86, 6), "GABLE", "east", "east gable drawn 7'-2\" high"),
        (standing(240, 6, 66, 6), "GABLE", "attic", "without the name of a side"),
    ],
)
def test_elevations_are_compared_with_what_is_framed(
    tmp_path: Path, points: tuple[tuple[float, float], ...], layer: str, side: str, words: str
) -> None:
    told = compared(tmp_path, points, layer, side)
    assert len(told) == (1 if words else 0), told
    assert all(words in message for message in told)
