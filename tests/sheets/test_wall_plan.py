"""The walls in plan: plates and uprights where they were framed, lengths and openings as the plan has them."""

from __future__ import annotations

import pytest
from shapely import Polygon, unary_union

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.drawing import EDGE, SMALL, Dimension, Polyline, Text, View
from takeoff.sheets.extent import texts_of
from takeoff.sheets.wall_plan import wall_plan


def view_of(takeoff: Takeoff) -> View:
    drawing = wall_plan(takeoff.buildings[0], name="walls")
    assert drawing is not None
    (view,) = drawing.views
    return view


def test_plates_lie_inside_the_footprint_all_round_it_but_at_doors(ell_takeoff: Takeoff) -> None:
    # 30 by 16 feet and a wing of 14 by 16, 2x6 walls, no doors
    footprint = Polygon([(0, 0), (360, 0), (360, 192), (168, 192), (168, 384), (0, 384)])
    plates = [Polygon(i.points) for i in view_of(ell_takeoff).items if isinstance(i, Polyline) and i.pen is SMALL]
    drawn = unary_union(plates)
    assert drawn.symmetric_difference(footprint.difference(footprint.buffer(-5.5, join_style="mitre"))).area < 0.01


def test_every_upright_at_the_height_of_the_cut_stands_on_a_plate(cabin_takeoff: Takeoff) -> None:
    view = view_of(cabin_takeoff)
    plates = unary_union([Polygon(i.points) for i in view.items if isinstance(i, Polyline) and i.pen is SMALL])
    uprights = [i for i in view.items if isinstance(i, Polyline) and i.pen is EDGE]
    assert all(plates.buffer(1e-6).contains(Polygon(i.points)) for i in uprights)
    # 1-1/2 by 5-1/2, the dressed size of a 2x6 (PS 20)
    assert {round(Polygon(i.points).area, 6) for i in uprights} == {1.5 * 5.5}
    standing = {"stud", "king-stud", "jack-stud", "corner-stud", "gable-stud", "post"}
    expected = [m.mark for m in cabin_takeoff.buildings[0].members if m.role.name in standing]
    assert sorted(i.mark for i in uprights) == sorted(expected)


def test_lengths_stand_outside_and_openings_carry_their_rough_sizes(cabin_takeoff: Takeoff) -> None:
    view = view_of(cabin_takeoff)
    figures = sorted(t.words for i in view.items if isinstance(i, Dimension) for t in texts_of([i], view.one_to))
    assert figures == sorted(["30'-0\"", "20'-0\"", "30'-0\"", "20'-0\""])
    words = [i.words for i in view.items if isinstance(i, Text)]
    assert {"south", "east", "north", "west"} <= set(words)
    assert sum(": " in each for each in words) == sum(
        len(face.outline.holes) for face in cabin_takeoff.buildings[0].faces if face.kind == "wall"
    )


def test_a_building_without_plates_has_no_such_plan(hand_takeoff: Takeoff) -> None:
    assert wall_plan(hand_takeoff.buildings[0], name="walls") is None


@pytest.mark.parametrize("job", ["ell_takeoff", "cabin_takeoff"])
def test_the_plan_is_to_a_scale_of_the_rule(job: str, request: pytest.FixtureRequest) -> None:
    assert view_of(request.getfixturevalue(job)).one_to in (24, 32, 48, 64, 96, 128)
