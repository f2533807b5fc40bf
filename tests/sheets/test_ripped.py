"""What is ripped of a face's sheets, and where the factory edge belongs."""

from __future__ import annotations

from dataclasses import replace

import pytest
from shop import built, gable

from takeoff.model.building import FramedBuilding
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.figures import Figures
from takeoff.sheets.crew.ripped import ripped_words
from takeoff.sheets.crew.sheet_list import sheet_lists


def told(building: FramedBuilding, name: str) -> str:
    face = next(face for face in building.faces if face.name == name)
    return ripped_words(face, [panel for panel in building.panels if panel.face == name], Figures(16))


def test_the_topmost_course_keeps_its_factory_edge_down() -> None:
    # 10 feet of run at 8/12 are 144.22 up the slope: two whole courses, and the 48.22 left are parted so that none is
    # narrower than a foot: 36-1/4 at the eave, 12 at the ridge.
    words = told(built(gable()), "south slope")
    assert words == (
        'Course 0" to 3\'-0 1/4": 3\'-0 1/4" wide, rip 11 3/4" off, factory edge up, sawn edge at the eave. '
        "Course 11'-0 1/4\" to 12'-0 1/4\": 1'-0\" wide, rip 3'-0\" off, factory edge down, sawn edge at the top."
    )


def test_a_wall_names_the_sheets_that_are_narrower() -> None:
    # 26 feet are six sheets of 4 feet and 2 feet
    hut = built(gable(length="26'"))
    marks = {p.mark for p in hut.panels if p.face == "south" and p.width_in < 48 - 1 / 32}
    words = told(hut, "south")
    assert words.startswith("Rip ")
    assert all(mark in words for mark in marks)


def test_whole_sheets_need_no_words() -> None:
    # the first and last sheets of 24 feet are whole
    hut = built(gable(length="24'"))
    if all(abs(p.width_in - 48) < 1 / 32 for p in hut.panels if p.face == "south"):
        assert told(hut, "south") == ""
    assert all("rip 0" not in told(hut, face.name) for face in hut.faces)


def test_what_comes_off_a_sheet_first_is_told(cabin_takeoff: Takeoff) -> None:
    lists = sheet_lists(cabin_takeoff.sheets.sheets, cabin_takeoff.buildings, _Maps(), Figures(16))
    told = {piece.mark: row.first for each in lists for row in each.sheets for piece in row.pieces}
    sizes = {piece.mark: piece.size for each in lists for row in each.sheets for piece in row.pieces}
    # a wall's sheets are 97-1/8" of nine feet
    assert {told[mark] for mark, size in sizes.items() if size == "4'-0\" × 8'-1 1/8\""} == {'crosscut 10 7/8" off'}


@pytest.mark.parametrize(("width_in", "first"), [(41.9375, 'rip 6 1/16" off'), (47.95, "")])
def test_what_is_wider_than_a_saw_cut_is_ripped_off_first(cabin_takeoff: Takeoff, width_in: float, first: str) -> None:
    sheet = next(s for s in cabin_takeoff.sheets.sheets if [p.width_in for p in s.pieces] == [s.width_in])
    narrow = replace(sheet, pieces=(replace(sheet.pieces[0], width_in=width_in, length_in=sheet.length_in),))
    ((row,),) = (each.sheets for each in sheet_lists((narrow,), cabin_takeoff.buildings, _Maps(), Figures(16)))
    assert row.first == first


class _Maps(dict[str, str]):
    def __missing__(self, key: str) -> str:
        return f"{key}.svg"
