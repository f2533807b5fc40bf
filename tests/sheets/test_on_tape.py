"""Which piece stands at a mark of a tape, and what the tape is pulled on."""

from __future__ import annotations

from shop import built, gable

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.figures import Figures
from takeoff.sheets.crew.line_sheet import line_sheets
from takeoff.sheets.crew.on_tape import on_tape

PLACES = ("[", "]", "CL", "|", "/")


def test_every_mark_of_a_stick_on_plates_and_ridges_names_its_piece(ell_takeoff: Takeoff) -> None:
    (building,) = ell_takeoff.buildings
    sticks = on_tape(building)
    marks = {member.mark: member for member in building.members}
    for line in building.lines:
        for mark in line.marks:
            if mark.symbol not in PLACES:
                pieces = sticks.piece(line, mark).split("/")
                assert all(marks[piece].role.layout_symbol == mark.symbol for piece in pieces)


def test_a_jack_is_named_by_its_length_from_the_corner(hip_takeoff: Takeoff) -> None:
    (building,) = hip_takeoff.buildings
    line = next(each for each in building.lines if each.name == "south wall, top of cap plate")
    sticks = on_tape(building)
    lengths = {member.mark: member.length_in for member in building.members}
    jacks = [lengths[sticks.piece(line, mark)] for mark in line.marks if mark.symbol == "J"]
    half = len(jacks) // 2
    assert jacks[:half] == sorted(jacks[:half])
    assert jacks[half:] == sorted(jacks[half:], reverse=True)


def test_a_ridges_tape_names_the_ridge_it_is_pulled_on(hip_takeoff: Takeoff) -> None:
    (building,) = hip_takeoff.buildings
    ridge = next(each for each in building.lines if each.name.startswith("ridge"))
    assert on_tape(building).carriers(ridge) == "RD1"


def test_a_cripple_over_a_door_is_found_from_the_bottom_plate(cabin_takeoff: Takeoff) -> None:
    (building,) = cabin_takeoff.buildings
    line = next(each for each in building.lines if each.name == "south wall plates")
    sticks = on_tape(building)
    assert {sticks.piece(line, mark)[0] for mark in line.marks if mark.symbol == "C"} == {"C"}


def test_a_ridge_says_where_it_starts_along_the_plate(hip_takeoff: Takeoff) -> None:
    (building,) = hip_takeoff.buildings
    # 16 feet of span: the ridge of a hip of one pitch starts half of it in from the end
    starts = {row.name: row.starts for row in line_sheets(building, Figures(16))}
    assert starts["ridge, both faces"] == "Its start is 8'-0\" along the south wall, top of cap plate"


DORMER = {
    "side": "south",
    "shape": "gable",
    "center": "15'",
    "width": "4'",
    "front": '8"',
    "height": '30"',
    "pitch": "6/12",
    "rafters": {"size": "2x6"},
}


def test_marks_on_a_dormers_soles_and_valley_plates_name_their_pieces_and_come_with_the_roof() -> None:
    hut = built(gable(roof={"dormers": [DORMER]}))
    rows = [row for row in line_sheets(hut, Figures(16)) if "cheek" in row.name or "front" in row.name]
    on = {row.name: row.on[:2] for row in rows}
    assert on["south dormer front wall plates"] == "BP"
    assert on["south dormer right cheek sole, up the slope along its outer edge"] == "BP"
    assert on["south dormer left cheek top plate"] == "TP"
    assert on["valley plate under the south dormer left cheek slope"] == "VP"
    assert all(mark.piece for row in rows for mark in row.marks if mark.symbol not in PLACES)
    assert {row.load for row in rows} == {2}
