"""Lay-ups chosen together with the cutting."""

from __future__ import annotations

from functools import cache

import pytest
from shop import SAMPLES

from takeoff.model.stock import LayUpKind
from takeoff.model.takeoff import Takeoff
from takeoff.pipeline import take_off
from takeoff.sheathing.sheathe import sheathe


@cache
def taken_off(plan: str) -> Takeoff:
    return take_off(SAMPLES / f"{plan}.yaml")


@pytest.mark.parametrize(("plan", "slopes"), [("curlew-cabin", 28), ("wren-tool-store", 4)])
def test_a_simple_roof_takes_few_sheets_more_than_its_area(plan: str, slopes: int) -> None:
    # The cabin's slopes are 26.99 sheets of area in two grades, the store's 3.95.
    takeoff = taken_off(plan)
    roof = [s for s in takeoff.sheets.sheets if not s.product.startswith("osb")]
    assert len(roof) <= slopes


def test_what_is_taken_costs_no_more_than_anything_that_was_tried() -> None:
    for tried in taken_off("curlew-cabin").sheets.tried:
        assert tried.cost_usd is not None
    rows = taken_off("curlew-cabin").sheets.tried
    roof = [row for row in rows if row.faces == "south slope, north slope"]
    (taken,) = [row for row in roof if row.taken]
    assert len(roof) > 3
    assert all(taken.cost_usd <= row.cost_usd for row in roof)  # type: ignore[operator]
    assert any("exposed 48" in row.words for row in roof)  # a whole sheet of the exposed grade is told


def test_the_chosen_lay_up_costs_no_more_sheets_than_the_plain_one() -> None:
    takeoff = taken_off("curlew-cabin")
    (building,) = takeoff.buildings
    plain = sheathe(building)
    assert sum(p.polygon.area for p in plain.panels) == pytest.approx(sum(p.polygon.area for p in building.panels))
    assert all(proof.sheets >= proof.sheet_bound >= proof.area_bound for proof in takeoff.sheets.proofs)


def test_outlookers_lie_under_the_edges_of_the_sheets_as_chosen() -> None:
    takeoff = taken_off("sanderling-saltbox")
    (building,) = takeoff.buildings
    for name in ("south slope", "north slope"):
        (face,) = [face for face in building.faces if face.name == name]
        edges = {p.polygon.bounds[1] for p in building.panels if p.face == name} - {face.outline.bounds[1]}
        middles = {
            round(face.placement.from_world(m.placement.origin)[1], 2)
            for m in building.members
            if m.role.name == "outlooker" and m.face.startswith(name)
        }
        assert middles
        inner = [v for v in edges if any(abs(v - middle) < 2.5 for middle in middles)]
        assert len(inner) >= len(edges) - 1  # the last may be too near the one at the ridge


def test_simpler_ways_with_the_exposed_grade_are_told_and_cost_more() -> None:
    rows = {row.kind: row for row in taken_off("curlew-cabin").sheets.tried if "slope" in row.faces}
    laid, whole, alone = (rows[k] for k in (LayUpKind.AS_LAID, LayUpKind.WHOLE_COURSE, LayUpKind.ALL_EXPOSED))
    assert laid.cost_usd is not None
    assert whole.cost_usd is not None
    assert alone.cost_usd is not None
    assert laid.cost_usd < whole.cost_usd < alone.cost_usd
    assert alone.sheets >= 27  # the slopes are 26.99 sheets of area
    assert "exposed 48" in whole.words


def test_a_roof_of_one_grade_has_no_simpler_way_with_two() -> None:
    kinds = {row.kind for row in taken_off("wren-tool-store").sheets.tried}
    assert kinds == {LayUpKind.AS_LAID, LayUpKind.COURSES, LayUpKind.BROKEN}
