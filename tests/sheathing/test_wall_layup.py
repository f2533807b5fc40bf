"""Lay-up of a wall: sheets upright on studs, split on rows of blocks where the wall is taller than any sheet."""

from __future__ import annotations

from dataclasses import replace

import pytest

from takeoff.geometry.outline import Outline, rectangle
from takeoff.geometry.placement import Placement
from takeoff.model.face import AtOpenings, Cover, Face, Supports
from takeoff.sheathing.cells import Cell
from takeoff.sheathing.sheathe import face_panels
from takeoff.sheathing.walls import wall_cells


def wall(
    length: float = 240.0,
    height: float = 97.125,
    *,
    rows: tuple[float, ...] = (),
    from_right: bool = False,
    product: str = "osb-7/16",
) -> Face:
    studs = [16.0 * k for k in range(1, 40) if 16.0 * k < length]
    if from_right:
        studs = [length - u for u in studs]
    return Face(
        kind="wall",
        name="south",
        outline=Outline(rectangle(0.0, 0.0, length, height, ("bottom", "end", "top", "end"))),
        placement=Placement((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
        supports=Supports(
            centres=tuple(sorted([0.75, *studs, length - 0.75])), thickness=1.5, rows=rows, from_right=from_right
        ),
        cover=Cover(field=product, exposed=product),
        shown=None,
    )


def columns(cells: tuple[Cell, ...]) -> list[tuple[float, float]]:
    return sorted({cell.u for cell in cells})


def levels(cells: tuple[Cell, ...]) -> list[tuple[float, float]]:
    return sorted({cell.v for cell in cells})


def test_sheets_stand_side_by_side_their_edges_on_studs() -> None:
    assert columns(wall_cells(wall())) == [(48.0 * k, 48.0 * (k + 1)) for k in range(5)]


def test_a_layout_from_the_right_starts_its_sheets_there() -> None:
    assert columns(wall_cells(wall(248.0, from_right=True)))[-1] == (200.0, 248.0)
    assert columns(wall_cells(wall(248.0)))[0] == (0.0, 48.0)


def test_the_last_piece_is_a_foot_wide_or_more_where_a_stud_allows() -> None:
    # 200 is four sheets and 8; the fourth is cut back to the stud at 176
    assert columns(wall_cells(wall(200.0)))[-2:] == [(144.0, 176.0), (176.0, 200.0)]


def test_a_sheet_long_enough_for_the_wall_covers_it_from_bottom_to_top() -> None:
    assert levels(wall_cells(wall(height=97.125))) == [(0.0, 97.125)]  # of 9-foot sheets
    assert levels(wall_cells(wall(height=120.0))) == [(0.0, 120.0)]


@pytest.mark.parametrize(
    ("height", "rows", "wanted"),
    [
        (171.0, (96.0,), [(0.0, 96.0), (96.0, 171.0)]),
        (230.0, (96.0, 192.0), [(0.0, 96.0), (96.0, 192.0), (192.0, 230.0)]),
        (200.0, (96.0, 192.0), [(0.0, 96.0), (96.0, 200.0)]),
    ],
)
def test_a_taller_wall_is_split_on_its_rows_of_blocks(
    height: float, rows: tuple[float, ...], wanted: list[tuple[float, float]]
) -> None:
    assert levels(wall_cells(wall(height=height, rows=rows))) == wanted


def with_openings(*holes: tuple[float, float, float, float], at: AtOpenings = "broken", length: float = 240.0) -> Face:
    plain = wall(length)
    assert plain.cover is not None
    rings = tuple(rectangle(*hole, ("sill", "jamb", "header", "jamb")) for hole in holes)
    outline = Outline(plain.outline.edges, rings)
    return replace(plain, outline=outline, cover=replace(plain.cover, at_openings=at))


def test_sheets_run_past_an_opening_unless_the_plan_says_otherwise() -> None:
    window = (70.0, 40.0, 106.0, 80.0)
    assert columns(wall_cells(with_openings(window, at="run_past"))) == columns(wall_cells(wall()))


def test_broken_sheets_end_at_the_sides_of_openings() -> None:
    window, door = (70.0, 40.0, 106.0, 80.0), (150.0, -1.0, 186.0, 80.0)
    found = columns(wall_cells(with_openings(window, door)))
    assert {(70.0, 106.0), (150.0, 186.0)} <= set(found)
    assert all(u1 - u0 <= 48.0 for u0, u1 in found)


def test_over_and_under_a_window_stand_pieces_of_their_own() -> None:
    face = with_openings((70.0, 40.0, 106.0, 80.0))
    panels = face_panels("hut", face, wall_cells(face))
    assert {(70.0, 0.0, 106.0, 40.0), (70.0, 80.0, 106.0, 97.125)} <= {panel.polygon.bounds for panel in panels}
    # Every piece is a rectangle: nothing is cut out.
    assert [p.length_in * p.width_in for p in panels] == pytest.approx([p.polygon.area for p in panels])


def test_no_break_leaves_a_piece_too_narrow_to_nail() -> None:
    # 8 in from the corner; and two windows with 6 in between.
    windows = (8.0, 40.0, 40.0, 80.0), (100.0, 40.0, 130.0, 80.0), (136.0, 40.0, 170.0, 80.0)
    found = columns(wall_cells(with_openings(*windows)))
    assert min(u1 - u0 for u0, u1 in found) >= 12.0
    joints = {u for pair in found for u in pair}
    assert 40.0 in joints
    assert 8.0 not in joints


def test_a_wide_opening_is_covered_by_several_sheets_over_it() -> None:
    found = columns(wall_cells(with_openings((60.0, -1.0, 180.0, 84.0))))
    assert {60.0, 180.0} <= {u for pair in found for u in pair}
    assert all(u1 - u0 <= 48.0 for u0, u1 in found)
