"""The map of a sheathed face: every piece where it lies, with mark and size, grades told apart without colour."""

from __future__ import annotations

import pytest
from shapely import LineString, Polygon

from takeoff.measure import parse_length
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.drawing import EDGE, OUTLINE, Hatch, Polyline, Text
from takeoff.sheets.hatching import hatch_lines
from takeoff.sheets.lettering import text_box
from takeoff.sheets.sheet_drawings import FaceDrawing, sheet_drawings

JOBS = pytest.mark.parametrize("job", ["hip_takeoff", "ell_takeoff", "cabin_takeoff"])


def maps_of(job: str, request: pytest.FixtureRequest) -> tuple[FaceDrawing, ...]:
    takeoff: Takeoff = request.getfixturevalue(job)
    return sheet_drawings(takeoff).maps


@JOBS
def test_the_pieces_on_a_map_cover_its_face(job: str, request: pytest.FixtureRequest) -> None:
    for one in maps_of(job, request):
        items = one.drawing.views[0].items
        pieces = sum(Polygon(i.points).area for i in items if isinstance(i, Polyline) and i.pen is EDGE)
        panels = [panel for panel in one.building.panels if panel.face == one.face.name]
        holes = sum(Polygon(ring).area for panel in panels for ring in panel.polygon.interiors)
        assert pieces - holes == pytest.approx(one.face.outline.polygon.area, rel=1e-6)
        assert sum(isinstance(i, Polyline) and i.pen is OUTLINE for i in items) == 1


@JOBS
def test_exposed_pieces_alone_are_hatched(job: str, request: pytest.FixtureRequest) -> None:
    for one in maps_of(job, request):
        hatched = sum(isinstance(item, Hatch) for item in one.drawing.views[0].items)
        panels = [panel for panel in one.building.panels if panel.face == one.face.name]
        assert hatched == sum(panel.zone == "exposed" for panel in panels)


@JOBS
def test_every_piece_carries_its_mark_and_sizes_stand_inside(job: str, request: pytest.FixtureRequest) -> None:
    for one in maps_of(job, request):
        view = one.drawing.views[0]
        panels = [panel for panel in one.building.panels if panel.face == one.face.name]
        marks = [t.words for t in view.items if isinstance(t, Text) and t.bold][: len(panels)]
        assert sorted(marks) == sorted(panel.mark for panel in panels)
        for text in view.items:
            if isinstance(text, Text) and "×" in text.words:
                box = Polygon(text_box(text, view.one_to))
                (panel,) = (panel for panel in panels if panel.polygon.contains(box))
                x0, y0, x1, y1 = panel.polygon.bounds
                # A size of two lines has the sign for "by" before its second.
                first, second = text.words.split("×")
                size = ([parse_length(first)] if first else []) + [parse_length(second)]
                assert size == pytest.approx([x1 - x0, y1 - y0][-len(size) :], abs=1 / 32)


def test_no_line_of_a_hatch_runs_through_lettering(cabin_takeoff: Takeoff) -> None:
    for one in sheet_drawings(cabin_takeoff).maps:
        view = one.drawing.views[0]
        boxes = [Polygon(text_box(item, view.one_to)) for item in view.items if isinstance(item, Text)]
        hatches = [item for item in view.items if isinstance(item, Hatch)]
        lines = [LineString((line.a, line.b)) for hatch in hatches for line in hatch_lines(hatch, view.one_to)]
        assert not [box.centroid for box in boxes for line in lines if box.buffer(-0.01).intersects(line)]
