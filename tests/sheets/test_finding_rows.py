"""Findings as the book tells them: warnings first, the same said once, by parts of the building."""

from __future__ import annotations

from takeoff.findings import Finding, Severity
from takeoff.sheets.crew.finding_rows import found_rows


def note(rule: str, where: str, message: str, *, limit: str = "", building: str = "hut") -> Finding:
    return Finding(rule=rule, severity=Severity.NOTE, where=where, message=message, limit=limit, building=building)


TALL = [note("stud.bearing-height", f"{side} wall, stud S1", "7'-8\" long", limit="10'") for side in ("south", "north")]


def test_what_is_found_at_several_places_is_one_row() -> None:
    (group,) = found_rows(TALL).checked
    assert [(row.where, row.message) for row in group.rows] == [("south, north walls, stud S1", "7'-8\" long")]


def test_places_that_end_otherwise_are_told_whole() -> None:
    (group,) = found_rows([note("ridge.board-depth", w, "deep", limit="8") for w in ("ridge board", "porch")]).checked
    assert group.rows[0].where == "ridge board; porch"


def test_rows_stand_by_floors_walls_roof_sheathing_and_order() -> None:
    rules = ("order.placeholder-prices", "frame.seat", "frame.header", "sheathing.span", "frame.joists")
    found = found_rows([note(rule, "here", rule) for rule in rules])
    assert [group.part for group in found.assumed] == ["Floors", "Walls", "Roof", "Sheathing", "Order and prices"]


def test_a_warning_is_no_assumption_and_every_finding_is_told() -> None:
    warning = Finding(rule="ridge.beam-design", severity=Severity.WARNING, message="have it designed", building="hut")
    found = found_rows([*TALL, warning, note("frame.seat", "bird's mouth", "4 in")])
    assert [row.message for row in found.warnings] == ["have it designed"]
    assert [row.message for group in found.assumed for row in group.rows] == ["4 in"]


def test_buildings_are_named_where_there_are_several() -> None:
    found = found_rows([note("frame.seat", "bird's mouth", name, building=name) for name in ("hut", "shed")])
    assert [row.where for row in found.assumed[0].rows] == ["hut bird's mouth", "shed bird's mouth"]
