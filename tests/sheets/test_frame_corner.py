"""The corner from which a frame is drawn: wings and minor roofs stand in front."""

from __future__ import annotations

from dataclasses import replace

import pytest

from takeoff.geometry.placement import Placement
from takeoff.model.face import Face
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.drawing import Polyline
from takeoff.sheets.frame_corner import best_corner
from takeoff.sheets.frame_view import frame_view


def moved(face: Face, x: float, y: float, **changes: str) -> Face:
    ox, oy, oz = face.placement.origin
    placement = Placement((ox + x, oy + y, oz), face.placement.x, face.placement.y)
    return replace(face, placement=placement, **changes)


def test_a_building_alike_on_all_sides_is_seen_from_the_south_east(cabin_takeoff: Takeoff) -> None:
    assert best_corner(cabin_takeoff.buildings[0]) == "south-east"


@pytest.mark.parametrize(
    ("x", "y", "corner"),
    [(900, -900, "south-east"), (-900, -900, "south-west"), (900, 900, "north-east"), (-900, 900, "north-west")],
)
def test_what_reaches_out_stands_in_front(x: float, y: float, corner: str, cabin_takeoff: Takeoff) -> None:
    """One wall, set far out, moves the box by more than the middle of walls and slopes; or a dormer is there."""
    (cabin,) = cabin_takeoff.buildings
    wall = next(face for face in cabin.faces if face.kind == "wall")
    for changes in ({}, {"part": "dormer"}):
        building = replace(cabin, faces=(*cabin.faces, moved(wall, x, y, **changes)))
        assert best_corner(building) == corner


def test_the_opposite_corner_shows_another_picture(cabin_takeoff: Takeoff) -> None:
    (cabin,) = cabin_takeoff.buildings
    wall = next(face for face in cabin.faces if face.kind == "wall")
    north = replace(cabin, faces=(*cabin.faces, moved(wall, 0.0, 900.0, part="dormer")))
    one, other = frame_view(cabin, name="frame"), frame_view(north, name="frame")
    assert one is not None
    assert other is not None
    assert other.title.endswith("from the north-east, not to scale")
    assert "from the north-east and" in other.description
    assert one.views[0].items != other.views[0].items
    assert {i.mark for i in one.views[0].items if isinstance(i, Polyline)} == {
        i.mark for i in other.views[0].items if isinstance(i, Polyline)
    }
