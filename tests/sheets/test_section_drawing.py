"""Sections at eave and ridge: what stands in the plane of a rafter, where it was framed, with its figures."""

from __future__ import annotations

import pytest
from shapely import MultiPoint, Polygon

from takeoff.measure import parse_length
from takeoff.model.takeoff import Takeoff
from takeoff.pipeline import take_off
from takeoff.sheets.drawing import HIDDEN, Hatch, Polyline, View
from takeoff.sheets.extent import texts_of
from takeoff.sheets.section_drawing import section_drawings

BOXED = """
job: Boxed
buildings:
  - name: hut
    outline: [[0, 0], [20', 0], [20', 14'], [0, 14']]
    walls: {studs: 2x6, sheathing: {product: osb-7/16}}
    roof:
      shape: gable
      gables: [east, west]
      pitch: 6/12
      rafters: {size: 2x8}
      overhang: {eave: 16"}
      tail: {cut: level}
      soffit: {kind: boxed}
      ties: {size: 2x6}
      ridge: {kind: board, size: 2x10}
      fascia: {size: 2x8}
      sheathing: {field: cdx-5/8}
"""


@pytest.fixture(scope="module")
def boxed(tmp_path_factory: pytest.TempPathFactory) -> Takeoff:
    plan = tmp_path_factory.mktemp("boxed") / "plan.yaml"
    plan.write_text(BOXED)
    return take_off(plan)


def views(takeoff: Takeoff) -> tuple[View, View]:
    drawing, *_ = section_drawings(takeoff.buildings[0], name="section")
    lower, upper = drawing.views
    return lower, upper


def marks(takeoff: Takeoff, view: View, *roles: str) -> set[str]:
    """Marks of what a view shows of some roles."""
    known = {member.mark: member.role.name for member in takeoff.buildings[0].members}
    return {known[i.mark] for i in view.items if isinstance(i, Polyline) and i.mark and known[i.mark] in roles}


def test_a_boxed_eave_shows_all_that_closes_it(boxed: Takeoff) -> None:
    lower, _ = views(boxed)
    parts = ("lookout", "soffit-ledger", "fascia", "eave-block", "cap-plate", "top-plate", "stud", "rafter-tie")
    assert marks(boxed, lower, *parts) == set(parts)
    dashed = {i.mark[:2] for i in lower.items if isinstance(i, Polyline) and i.pen is HIDDEN and i.mark}
    assert dashed >= {"LK", "EB", "RT"}, "what stands beside the rafter is dashed"


def test_plates_are_cut_through_at_their_dressed_size(boxed: Takeoff) -> None:
    lower, _ = views(boxed)
    # 2x6: 1-1/2 by 5-1/2, American Softwood Lumber Standard PS 20
    cut = [Polygon(i.points) for i in lower.items if isinstance(i, Hatch)]
    plates = [
        shape for shape in cut if shape.bounds == pytest.approx((0.0, shape.bounds[1], 5.5, shape.bounds[1] + 1.5))
    ]
    assert sorted(round(shape.bounds[3], 6) for shape in plates) == [-1.5, 0.0]


def test_the_sheathing_lies_on_the_rafters_as_thick_as_it_is(cabin_takeoff: Takeoff) -> None:
    lower, _ = views(cabin_takeoff)
    rafter = next(m.rafter for m in cabin_takeoff.buildings[0].members if m.role.name == "common-rafter")
    assert rafter is not None
    over = [p for i in lower.items if isinstance(i, Polyline) and not i.mark for p in i.points if p[0] < -2]
    square = [(z - rafter.top_at(h)) / (1 + rafter.slope**2) ** 0.5 for h, z in over]
    assert sorted({round(d, 6) + 0.0 for d in square}) == [0.0, 0.625]


def test_the_figures_are_those_of_the_rafter(cabin_takeoff: Takeoff) -> None:
    lower, upper = views(cabin_takeoff)
    # overhang, seat and height above plate of the plan and of its bird's mouth; the beam's size and the gap over it
    figures = {t.words for t in texts_of(lower.items, lower.one_to)}
    assert {"1'-4\"", '4 1/8"', '8 3/8"'} <= figures
    lengths = {parse_length(t.words) for t in texts_of(upper.items, upper.one_to) if t.words.endswith('"')}
    assert {5.5, 14.0, 1.0} <= lengths


def test_the_ridge_stands_in_the_middle(cabin_takeoff: Takeoff) -> None:
    _, upper = views(cabin_takeoff)
    beam = MultiPoint([p for i in upper.items if isinstance(i, Polyline) and i.mark == "RB1" for p in i.points])
    assert beam.bounds[::2] == pytest.approx((120 - 2.75, 120 + 2.75))
