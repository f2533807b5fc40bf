"""Sheets as they are cut: every group once, every piece on its sheet, what is left hatched."""

from __future__ import annotations

from itertools import combinations

import pytest
from shapely import Polygon, unary_union

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.sheet_list import sheet_groups
from takeoff.sheets.drawing import EDGE, Hatch, Polyline, Text
from takeoff.sheets.lettering import text_box
from takeoff.sheets.sheet_drawings import sheet_drawings
from takeoff.sheets.sheet_map import ONE_TO

JOBS = pytest.mark.parametrize("job", ["hip_takeoff", "cabin_takeoff"])


@JOBS
def test_every_sheet_is_in_one_group_of_sheets_cut_alike(job: str, request: pytest.FixtureRequest) -> None:
    takeoff: Takeoff = request.getfixturevalue(job)
    groups = sheet_groups(takeoff.sheets.sheets)
    assert sorted(s.sheet_id for g in groups for s in g) == sorted(s.sheet_id for s in takeoff.sheets.sheets)
    assert sheet_drawings(takeoff).sheets.keys() == {group[0].sheet_id for group in groups}
    for group in groups:
        assert len({tuple((p.mark, p.x_in, p.y_in) for p in sheet.pieces) for sheet in group}) == 1


@JOBS
def test_pieces_lie_on_their_sheet_beside_each_other_and_the_rest_is_hatched(
    job: str, request: pytest.FixtureRequest
) -> None:
    takeoff: Takeoff = request.getfixturevalue(job)
    maps = sheet_drawings(takeoff).sheets
    by_id = {sheet.sheet_id: sheet for sheet in takeoff.sheets.sheets}
    for sheet_id, drawing in maps.items():
        sheet, items = by_id[sheet_id], drawing.views[0].items
        pieces = [Polygon(i.points) for i in items if isinstance(i, Polyline) and i.pen is EDGE]
        assert len(pieces) == len(sheet.pieces)
        for piece in pieces:
            x0, y0, x1, y1 = piece.bounds
            assert min(x0, y0) >= -1e-6
            assert x1 <= sheet.length_in + 1e-6
            assert y1 <= sheet.width_in + 1e-6
        # Sizes are joint to joint: the eighth that stays open at a joint is the saw's; slants are set to sixteenths.
        for one, other in combinations(pieces, 2):
            shared = one.intersection(other)
            assert 2 * shared.area <= 1 / 8 * max(shared.length, 1.0)
        hatched = sum(Polygon(i.points).area for i in items if isinstance(i, Hatch))
        left = sheet.length_in * sheet.width_in - unary_union(pieces).area
        assert left - 2.0 * (len(pieces) + 1) <= hatched <= left + 1e-6  # slivers under a square inch aren't hatched


@JOBS
def test_every_piece_carries_its_mark_inside(job: str, request: pytest.FixtureRequest) -> None:
    takeoff: Takeoff = request.getfixturevalue(job)
    for drawing in sheet_drawings(takeoff).sheets.values():
        items = drawing.views[0].items
        pieces = [i for i in items if isinstance(i, Polyline) and i.pen is EDGE]
        marks = [i for i in items if isinstance(i, Text) and i.bold]
        assert sorted(m.words for m in marks) == sorted(p.mark for p in pieces)
        for mark in marks:
            middle = Polygon(text_box(mark, ONE_TO)).centroid
            assert any(Polygon(p.points).contains(middle) for p in pieces if p.mark == mark.words)
