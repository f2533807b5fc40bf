"""The price of the other way to meet openings, beside what is laid."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest
from shop import gable

from takeoff.catalog.price_reader import builtin_prices
from takeoff.checks.sheathing import panel_supports
from takeoff.cutting.lay_ups import building_lay_ups
from takeoff.findings import Place
from takeoff.framing.frame import frame
from takeoff.model.face import AtOpenings
from takeoff.model.stock import LayUpKind, LayUpTried
from takeoff.sheathing.sheathe import sheathe

OPENINGS: list[dict[str, Any]] = [
    {"side": "south", "center": "7'", "size": "3040"},
    {"side": "south", "center": "20'", "size": "3068", "kind": "door"},
    {"side": "north", "center": "21'", "size": "2030"},
]


@cache
def tried(at: AtOpenings) -> dict[LayUpKind, LayUpTried]:
    sheathing = {"product": "osb-7/16", "at_openings": at}
    plan = gable(walls={"sheathing": sheathing, "openings": OPENINGS})
    framed, _ = frame(plan, lambda path: Place(path=path))
    laid = building_lay_ups(framed, builtin_prices(), 0.125)
    assert [f for f in panel_supports(sheathe(framed, laid.lay_ups), plan) if f.where in ("south", "north")] == []
    return {row.kind: row for row in laid.tried if "north" in row.faces.split(", ")}


@pytest.mark.parametrize(
    ("at", "other"), [("run_past", LayUpKind.BROKEN), ("broken", LayUpKind.RUN_PAST)], ids=["run past", "broken"]
)
def test_the_way_that_is_not_laid_is_told_for_the_walls_with_openings(at: AtOpenings, other: LayUpKind) -> None:
    rows = tried(at)
    assert rows[other].faces == "south, north"
    assert not {LayUpKind.RUN_PAST, LayUpKind.BROKEN} - {other} & set(rows)


def test_each_way_costs_what_is_told_of_it_beside_the_other() -> None:
    past, broken = tried("run_past"), tried("broken")
    assert past[LayUpKind.BROKEN].cost_usd == broken[LayUpKind.AS_LAID].cost_usd
    assert broken[LayUpKind.RUN_PAST].cost_usd == past[LayUpKind.AS_LAID].cost_usd
