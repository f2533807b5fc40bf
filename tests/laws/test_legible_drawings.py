"""Plans, elevations, sections and maps of buildings that nobody thought of are legible, too."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from any_buildings import building_number
from lettering_checker import illegible

from takeoff.model.building import FramedBuilding
from takeoff.model.marks import mark_buildings
from takeoff.sheathing.sheathe import sheathe
from takeoff.sheets.drawing import Drawing
from takeoff.sheets.panel_map import panel_map
from takeoff.sheets.part_plan import part_plans
from takeoff.sheets.roof_drawing import roof_drawing
from takeoff.sheets.section_drawing import section_drawings
from takeoff.sheets.wall_drawing import wall_drawing
from takeoff.sheets.wall_plan import wall_plan

NUMBERS = (4, 7, 18, 24, 36, 48)
"""Such as have partitions close to each other, inner corners, porches at high walls, slivers of sheets."""


def drawn(building: FramedBuilding) -> Iterator[Drawing | None]:
    yield wall_plan(building, name="walls")
    yield roof_drawing(building, name="roof")
    yield from part_plans(building, name="part")
    yield from section_drawings(building, name="section")
    for number, face in enumerate(building.faces):
        yield panel_map(building, face, name=f"map-{number}")
        if face.kind != "slope":
            yield wall_drawing(building, face, name=f"frame-{number}")


@pytest.mark.parametrize("number", NUMBERS)
def test_no_lettering_of_a_random_building_runs_over_anything(number: int) -> None:
    (building,) = mark_buildings([sheathe(building_number(number).framed)])
    found = {drawing.name: illegible(drawing) for drawing in drawn(building) if drawing is not None}
    assert {name: over for name, over in found.items() if over} == {}
    assert len(found) > 5
