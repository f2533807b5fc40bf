"""Lay-up of a slope: courses from the eave, staggered, the exposed grade wherever the underside shows."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from shapely import Polygon, box, union_all

from takeoff.geometry.outline import Outline, rectangle
from takeoff.geometry.placement import Placement
from takeoff.geometry.plumb import plumb_onto
from takeoff.model.face import Cover, Face, Shown, Supports
from takeoff.sheathing.cells import Cell
from takeoff.sheathing.slopes import slope_cells

FIELD, EXPOSED = "cdx-5/8", "sanded-5/8"
LENGTH = 16.0 * 24


def slope(
    *, up: float = 144.0, eave: float = 0.0, rake: float = 0.0, plate: float = 5.5, exposed: str = EXPOSED
) -> Face:
    """A slope over walls 32 feet long: ``eave`` and ``rake`` stand out, ``up`` is from the wall to the ridge."""
    centres = (0.75, *(16.0 * k for k in range(1, 24)), LENGTH - 0.75)
    barges = (-rake + 0.75, LENGTH + rake - 0.75) if rake else ()
    return Face(
        kind="slope",
        name="south slope",
        outline=Outline(rectangle(-rake, -eave, LENGTH + rake, up, ("eave", "rake", "ridge", "rake"))),
        placement=Placement((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        supports=Supports(centres=tuple(sorted({*centres, *barges})), thickness=1.5, rows=(), from_right=False),
        cover=Cover(field=FIELD, exposed=exposed),
        shown=Shown(eave=0.0, eave_hidden_to=plate, left=0.0, right=LENGTH),
    )


def courses(cells: tuple[Cell, ...]) -> list[tuple[float, float]]:
    return sorted({cell.v for cell in cells})


def exposed_strip(face: Face) -> float:
    """Height of the exposed strip along the eave [in]."""
    strip = [cell.v for cell in slope_cells(face) if cell.zone == "exposed" and cell.v[0] == face.outline.bounds[1]]
    (only,) = set(strip)
    return only[1] - only[0]


def test_courses_run_up_from_the_eave_a_sheet_wide() -> None:
    assert courses(slope_cells(slope(up=144.0))) == [(0.0, 48.0), (48.0, 96.0), (96.0, 144.0)]


def test_the_first_course_gives_the_last_what_it_lacks_of_a_foot() -> None:
    # 148 leaves 4 over three sheets: the first is 8 narrower, the last 12
    assert courses(slope_cells(slope(up=148.0))) == [(0.0, 40.0), (40.0, 88.0), (88.0, 136.0), (136.0, 148.0)]
    assert courses(slope_cells(slope(up=156.0)))[-1] == (144.0, 156.0)


def test_a_slope_narrower_than_a_sheet_is_one_course() -> None:
    assert courses(slope_cells(slope(up=30.0))) == [(0.0, 30.0)]


def test_joints_of_neighbouring_courses_are_set_off_from_each_other() -> None:
    cells = slope_cells(slope())
    ends = [{cell.u[1] for cell in cells if cell.v == course} - {LENGTH} for course in courses(cells)]
    assert all(ends)
    assert all(not below & above for below, above in pairwise(ends))


@pytest.mark.parametrize(
    ("eave", "strip"),
    [
        (19.23 + 1.8, 24.0),  # two strips a sheet, and the joint 2.97 inside the wall
        (14.0, 16.0),  # three strips a sheet
        (24.0, 24.0),  # just to the outside of the wall
    ],
)
def test_the_premium_strip_is_ripped_evenly_from_a_sheet_where_its_joint_is_hidden_over_the_wall(
    eave: float, strip: float
) -> None:
    assert exposed_strip(slope(eave=eave)) == pytest.approx(strip)


def test_where_no_even_rip_ends_over_the_wall_the_strip_ends_at_its_inner_face() -> None:
    # 17 of eave over a 2x4 wall: 24 would show 3-1/2 past the plate inside, 16 would not reach
    assert exposed_strip(slope(eave=17.0, plate=3.5)) == pytest.approx(20.5)


def test_an_eave_wider_than_half_a_sheet_takes_whole_sheets() -> None:
    assert exposed_strip(slope(eave=30.0)) == pytest.approx(48.0)


def test_at_the_rake_the_grades_meet_on_a_rafter_two_feet_or_more_inside() -> None:
    cells = slope_cells(slope(rake=12.0))
    left = {cell.u for cell in cells if cell.zone == "exposed" and cell.u[0] == -12.0}
    right = {cell.u for cell in cells if cell.zone == "exposed" and cell.u[1] == LENGTH + 12.0}
    # 12 outside and 16 inside are 28; 3/4 inside would be a strip of 12-3/4
    # and every other course ends one rafter further in, so that no four corners meet
    assert left == {(-12.0, 16.0), (-12.0, 32.0)}
    assert right == {(LENGTH - 16.0, LENGTH + 12.0), (LENGTH - 32.0, LENGTH + 12.0)}


def test_one_grade_everywhere_is_laid_as_one_field() -> None:
    cells = slope_cells(slope(eave=20.0, rake=12.0, exposed=FIELD))
    assert {cell.zone for cell in cells} == {"field"}
    assert courses(cells)[0] == (-20.0, 28.0)


def test_without_an_overhang_nothing_is_exposed() -> None:
    assert {cell.zone for cell in slope_cells(slope())} == {"field"}


def test_no_four_corners_meet_where_grades_meet_at_the_rake_nor_elsewhere() -> None:
    cells = slope_cells(slope(eave=20.0, rake=12.0))
    lines = courses(cells)
    ends = [{cell.u[1] for cell in cells if cell.v == course} - {LENGTH + 12.0} for course in lines]
    assert len(lines) == 4
    assert all(abs(a - b) >= 16.0 for below, above in pairwise(ends) for a in below for b in above)


def test_over_an_open_porch_every_piece_is_of_the_exposed_grade() -> None:
    over = ((100.0, 60.0), (180.0, 60.0), (180.0, 144.0), (100.0, 144.0))
    cells = slope_cells(replace(slope(), open_below=(over,)))
    exposed = [box(c.u[0], c.v[0], c.u[1], c.v[1]) for c in cells if c.zone == "exposed"]
    assert exposed
    assert Polygon(over).difference(union_all(exposed)).area == pytest.approx(0.0)
    assert len(exposed) < len(cells)


def test_points_of_the_plan_are_found_plumb_over_them_on_a_slope() -> None:
    # A 6/12 slope that starts at (10, 20) and rises to the north: sqrt(1 + 1/4) up it for each inch of run.
    level = 1 / 1.25**0.5
    placement = Placement((10.0, 20.0, 96.0), (1.0, 0.0, 0.0), (0.0, level, level / 2))
    ((u, v),) = plumb_onto(placement, [(34.0, 44.0)])
    assert (u, v) == (pytest.approx(24.0), pytest.approx(24.0 * 1.25**0.5))
    assert placement.to_world((u, v, 0.0))[:2] == (pytest.approx(34.0), pytest.approx(44.0))
