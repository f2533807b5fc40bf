"""Sheets with a hole: a mark of their own, the same for sheets that are alike turned half about."""

from __future__ import annotations

from shapely import Polygon, box

from takeoff.model.building import FramedBuilding
from takeoff.model.marks import mark_buildings
from takeoff.model.panel import Panel

SHEET = box(0, 0, 96, 48)


def marks(*polygons: Polygon) -> list[str]:
    panels = tuple(
        Panel(building="hut", face="south slope", product="cdx-5/8", zone="field", polygon=polygon, strength_axis="u")
        for polygon in polygons
    )
    (marked,) = mark_buildings([FramedBuilding(name="hut", count=1, members=(), panels=panels)])
    return [panel.mark for panel in marked.panels]


def holed(x0: float, y0: float, x1: float, y1: float) -> Polygon:
    return SHEET.difference(box(x0, y0, x1, y1))


def test_a_sheet_with_a_hole_is_not_the_whole_sheet() -> None:
    assert marks(SHEET, holed(10, 10, 40, 30)) == ["F1", "F2"]


def test_holes_in_one_place_are_one_mark_and_elsewhere_another() -> None:
    assert marks(holed(10, 10, 40, 30), holed(10, 10, 40, 30), holed(12, 10, 42, 30)) == ["F1", "F1", "F2"]


def test_a_sheet_turned_half_about_keeps_its_mark_and_a_mirrored_one_does_not() -> None:
    # 96 - 40 = 56 and 48 - 30 = 18
    assert marks(holed(10, 10, 40, 30), holed(56, 18, 86, 38), holed(56, 10, 86, 30)) == ["F1", "F1", "F2"]
