"""Labels of a plan written as a drawing stand clear of its lines and of each other."""

from __future__ import annotations

from itertools import combinations, pairwise
from pathlib import Path

import pytest
from shapely import LineString, Polygon
from shop import ROOT, SAMPLES

from takeoff.plan.read import read_plan
from takeoff.sheets.drawing import MM_PER_IN, Text
from takeoff.sheets.house_dxf import house_parts
from takeoff.sheets.house_part import LETTERS_IN, HousePart
from takeoff.sheets.lettering import text_box

STARTER = ROOT / "takeoff" / "plan" / "starter.yaml"


def box(part: HousePart) -> Polygon:
    height = LETTERS_IN * MM_PER_IN
    at, turned = part.points[0], part.turned_deg
    text = Text(at=at, words=part.words, height_mm=height, anchor="middle", level="middle", turned_deg=turned)
    return Polygon(text_box(text, 1.0))


@pytest.mark.parametrize("plan", [*sorted(SAMPLES.glob("*.yaml")), STARTER], ids=lambda path: path.stem)
def test_labels_stand_clear_of_lines_and_of_each_other(plan: Path) -> None:
    for building in read_plan(plan)[0].plan.buildings:
        parts = house_parts(building)
        boxes = [(part.words, box(part)) for part in parts if part.words]
        lines = [
            LineString(line)
            for part in parts
            if not part.words
            for line in pairwise((*part.points, part.points[0]) if part.closed else part.points)
        ]
        assert [words for words, shape in boxes if any(shape.intersects(line) for line in lines)] == []
        assert [(a, b) for (a, one), (b, other) in combinations(boxes, 2) if one.intersects(other)] == []
