"""The elevation of a wall: every stick where it stands, every mark legible, openings as one tape reads them."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from shapely import LineString, MultiPoint, Polygon
from shop import SAMPLES

from takeoff.checks.audit import solid
from takeoff.measure import parse_length
from takeoff.model.takeoff import Takeoff
from takeoff.pipeline import take_off
from takeoff.sheets.crew.figures import Figures
from takeoff.sheets.crew.wall_sheet import wall_height, wall_sheets
from takeoff.sheets.drawing import GUIDE, Line, Polyline, Text, View
from takeoff.sheets.extent import texts_of
from takeoff.sheets.face_sticks import face_sticks
from takeoff.sheets.lettering import text_box
from takeoff.sheets.sheet_drawings import FaceDrawing, sheet_drawings
from takeoff.sheets.silhouette import silhouette


@pytest.fixture(scope="module", params=["ell_takeoff", "cabin_takeoff"])
def job(request: pytest.FixtureRequest) -> Takeoff:
    takeoff: Takeoff = request.getfixturevalue(request.param)
    return takeoff


@pytest.fixture(scope="module")
def walls(job: Takeoff) -> tuple[FaceDrawing, ...]:
    return sheet_drawings(job).walls


def view(wall: FaceDrawing) -> View:
    (one,) = wall.drawing.views
    return one


def test_a_silhouette_is_the_shadow_of_the_solid(job: Takeoff) -> None:
    # manifold3d, a general-purpose library, builds the solids with all their cuts
    building = job.buildings[0]
    by_name = {face.name: face for face in building.faces}
    for member in building.members:
        if member.face in by_name and member.rafter is None:
            onto = by_name[member.face].placement
            corners = solid(member).body.to_mesh().vert_properties[:, :3]
            shadow = MultiPoint([onto.from_world((float(x), float(y), float(z)))[:2] for x, y, z in corners])
            drawn = silhouette(member, onto)
            assert drawn.symmetric_difference(shadow.convex_hull).area < 0.01 + 1e-4 * drawn.area, member.name


def test_every_stick_of_a_wall_is_drawn_with_its_mark(walls: tuple[FaceDrawing, ...]) -> None:
    for wall in walls:
        drawn = {m for item in view(wall).items if isinstance(item, Polyline) for m in item.mark.split(", ")}
        assert {member.mark for member in wall.building.members if member.face == wall.face.name} <= drawn


def test_a_gable_wall_shows_the_rafters_and_outlookers_that_stand_in_it(cabin_takeoff: Takeoff) -> None:
    east = next(wall for wall in sheet_drawings(cabin_takeoff).walls if wall.face.name == "east")
    roles = {m.mark: m.role.name for m in east.building.members}
    drawn = [roles[stick.marks[0]] for stick in face_sticks(east.building, east.face)]
    assert drawn.count("end-rafter") == 2
    assert drawn.count("ridge-beam") == 1
    # at the eave, at the ridge and between, on both slopes: as many as lie on the rake
    lying = [m for m in east.building.members if m.role.name == "outlooker" and max(e[0] for e in m.centre_line) > 300]
    assert drawn.count("outlooker") == len(lying) > 0
    assert "barge" not in drawn


def test_marks_lie_on_no_stick_edge_and_not_on_each_other(walls: tuple[FaceDrawing, ...]) -> None:
    for wall in walls:
        one = view(wall)
        boxes = [(t.words, Polygon(text_box(t, one.one_to))) for t in texts_of(one.items, one.one_to) if t.words]
        assert [(a, b) for (a, p), (b, q) in combinations(boxes, 2) if p.intersection(q).area > 0.01] == []
        edges = [
            LineString(side)
            for item in one.items
            if isinstance(item, Polyline)
            for side in pairwise((*item.points, item.points[0]))
        ]
        marks = [Polygon(text_box(t, one.one_to)) for t in one.items if isinstance(t, Text) and t.bold]
        assert not any(edge.intersects(mark) for mark in marks[:-1] for edge in edges)


def test_every_mark_of_a_stick_is_lettered(walls: tuple[FaceDrawing, ...]) -> None:
    for wall in walls:
        written = [item.words for item in view(wall).items if isinstance(item, Text) and item.bold]
        for stick in face_sticks(wall.building, wall.face):
            assert written.count(stick.words) >= 1


def test_plies_that_lie_one_behind_the_other_are_one_with_their_number(cabin_takeoff: Takeoff) -> None:
    south = next(wall for wall in sheet_drawings(cabin_takeoff).walls if wall.face.name == "south")
    words = {stick.words for stick in face_sticks(south.building, south.face)}
    assert any(each.startswith("2 H") for each in words)


def test_openings_are_measured_from_the_left_end(cabin_takeoff: Takeoff) -> None:
    south = next(wall for wall in sheet_drawings(cabin_takeoff).walls if wall.face.name == "south")
    left = south.face.outline.bounds[0]
    running = [t for t in view(south).items if isinstance(t, Text) and t.turned_deg == 90 and not t.bold]
    edges = sorted({edge.a[0] - left for hole in south.face.outline.holes for edge in hole})
    assert [parse_length(t.words) for t in running] == pytest.approx(edges, abs=1 / 32)
    # two diagonals an opening
    crossed = [item for item in view(south).items if isinstance(item, Line) and item.pen is GUIDE]
    assert len(crossed) == 2 * len(south.face.outline.holes)


def test_the_openings_of_a_dormer_say_that_their_heights_are_over_the_main_deck() -> None:
    (building,) = (hut := take_off(SAMPLES / "plover-hut.yaml")).buildings
    sheets = {sheet.name: sheet for sheet in wall_sheets(building, sheet_drawings(hut), Figures(16))}
    front = sheets["south dormer front wall"]
    assert "over the deck of the main floor" in front.edges
    assert "underside of the bottom plate" in sheets["south wall"].edges
    # the dormer's sill lies above the main wall's plates, so its figure can't be from a plate of its own
    assert parse_length(front.openings[0].sill) > building.faces[0].outline.bounds[3]


def test_a_wall_is_as_high_as_its_frame_however_far_its_sheets_reach_below() -> None:
    building = take_off(SAMPLES / "dunlin-studio.yaml").buildings[0]
    south = next(face for face in building.faces if face.name == "south")
    # Studs of 104-5/8 and three plates of 1-1/2; the sheets lap 10 of the floor's edge.
    assert wall_height(south, Figures(16)) == "9'-1 1/8\" high"
