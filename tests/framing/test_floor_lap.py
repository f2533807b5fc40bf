"""How far the sheets of outside walls reach down over a framed floor. Common practice, no source."""

from __future__ import annotations

import pytest
from shop import Written, built, gable

from takeoff.sheathing.sheathe import sheathe

JOISTS: Written = {"joists": {"size": "2x10"}}
DECK_AND_JOIST_IN = 23 / 32 + 9.25


def feet(down_to: str | None, floor: Written | None) -> set[float]:
    walls: Written = {"sheathing": {"product": "osb-7/16", **({"down_to": down_to} if down_to else {})}}
    building = gable(walls=walls, **({"floors": {"main": floor}} if floor else {}))
    return {round(face.outline.bounds[1], 6) for face in built(building).faces if face.kind == "wall"}


@pytest.mark.parametrize(
    ("down_to", "floor", "below"),
    [
        (None, JOISTS, DECK_AND_JOIST_IN + 1.5),
        ("sill", JOISTS, DECK_AND_JOIST_IN + 1.5),
        ("sill", {**JOISTS, "sill": "none"}, DECK_AND_JOIST_IN),
        ("rim", JOISTS, DECK_AND_JOIST_IN),
        ("deck", JOISTS, 0.0),
        (None, None, 0.0),
    ],
)
def test_the_sheets_reach_as_far_down_as_the_plan_says(
    down_to: str | None, floor: Written | None, below: float
) -> None:
    assert feet(down_to, floor) == {-below}


def test_a_floor_that_reaches_out_over_the_sill_has_no_rim_under_the_wall_to_lap() -> None:
    beyond = [[0, -24], [360, -24], [360, 216], [0, 216]]
    assert feet(None, {**JOISTS, "outline": beyond}) == {0.0}


def test_the_lower_tier_starts_at_the_foot_and_all_is_covered_once() -> None:
    building = sheathe(built(gable(walls={"sheathing": {"product": "osb-7/16"}}, floors={"main": JOISTS})))
    for face in (face for face in building.faces if face.kind == "wall"):
        panels = [panel for panel in building.panels if panel.face == face.name]
        assert min(panel.polygon.bounds[1] for panel in panels) == face.outline.bounds[1]
        assert sum(panel.polygon.area for panel in panels) == pytest.approx(face.outline.polygon.area)
