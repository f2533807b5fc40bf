"""Enlarged plans of porches and dormers: what is measured stands where it was written, and all is legible."""

from __future__ import annotations

from functools import cache
from math import hypot
from typing import Any

import pytest
from lettering_checker import illegible
from shop import built, gable

from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.sheets.drawing import Drawing, Text
from takeoff.sheets.part_plan import part_plans
from takeoff.sheets.roof_drawing import not_lettered, roof_drawing

PORCH = {
    "side": "south",
    "left": "3'",
    "width": "16'",
    "depth": "6'",
    "shape": "shed",
    "pitch": "3/12",
    "roof_height": "8'-4\"",
    "rafters": {"size": "2x6"},
    "overhang": {"eave": '10"', "rake": '8"'},
    "beam": {"size": "3-2x8"},
    "posts": {"size": "6x6"},
}
LAID = {**PORCH, "shape": "gable", "meets": "roof", "pitch": "6/12", "roof_height": None, "beam_height": "7'-9\""}
DORMER = {
    "side": "south",
    "shape": "gable",
    "center": "10'",
    "width": "5'",
    "front": '14"',
    "height": "4'",
    "pitch": "6/12",
    "rafters": {"size": "2x6"},
    "overhang": {"eave": '6"'},
}
KINDS = pytest.mark.parametrize("kind", ["porch", "laid", "dormer"])


@cache
def house(kind: str) -> FramedBuilding:
    minor: dict[str, Any] = {
        "porch": {"porches": [PORCH]},
        "laid": {"porches": [{**LAID, "ridge": {"kind": "board", "size": "2x10"}}]},
        "dormer": {"dormers": [DORMER]},
    }[kind]
    roof = {"pitch": "8/12", "overhang": {"eave": '12"', "rake": '10"'}, "fascia": {"size": "2x6"}, "outlookers": {}}
    trim = {"barge": {"size": "2x8"}, "ridge": {"kind": "board", "size": "2x12"}, "rafters": {"size": "2x8"}}
    return built(gable(walls={"height": 109.125}, roof={**roof, **trim, **minor}))


@cache
def plan_of(kind: str) -> Drawing:
    (drawing,) = part_plans(house(kind), name="part")
    return drawing


def words_of(kind: str, view: str) -> set[str]:
    (found,) = (each for each in plan_of(kind).views if each.name == view)
    return {item.words for item in found.items if isinstance(item, Text)}


@KINDS
def test_no_lettering_runs_over_anything(kind: str) -> None:
    assert illegible(plan_of(kind)) == []


@KINDS
def test_every_mark_is_on_the_roofs_plan_or_the_enlarged_one(kind: str) -> None:
    plan = roof_drawing(house(kind), name="roof")
    assert plan is not None
    assert not_lettered(house(kind), (plan, plan_of(kind))) == ()


def test_posts_and_beam_of_a_porch_are_measured_from_both_walls() -> None:
    # 3 ft from the wall's end, 16 ft wide: the beam ends there, 6x6 posts (5-1/2") flush with its ends, one between
    along = {"3'-0\" beam end", "3'-2 3/4\" post", "11'-0\" post", "18'-9 1/4\" post", "19'-0\" beam end"}
    # 6 ft deep to the outside of three plies of 1-1/2"; posts are centred under them
    out = {"6'-0\" beam", "5'-9 3/4\" post", '0" outside of wall'}
    assert along | out <= words_of("porch", "posts")


def test_valley_plates_are_measured_where_the_two_roofs_meet() -> None:
    words = words_of("dormer", "laid")
    # 5 ft wide about 10 ft, eaves 6" out: valleys begin 3 ft to either side and meet over the middle
    assert {"7'-0\" valley foot", "10'-0\" valley head", "13'-0\" valley foot"} <= words
    # Soles' outsides are the dormer's; its front 14" in from the wall.
    assert {"7'-6\" sole outside", "12'-6\" sole outside"} <= words
    up = {word.split('" ')[1]: word for word in words if '" ' in word and word.endswith(("wall", "sole outside"))}
    assert up.keys() >= {"wall", "sole outside"}
    # The ridge is 36 x 6/12 = 18" over the feet: 18 x 12/8 = 27" further in, and longer up the slope.
    foot, head = (next(up_the_slope(words, what)) for what in ("valley foot", "valley head"))
    assert head - foot == pytest.approx(27 * hypot(1, 8 / 12), abs=1 / 8)


def up_the_slope(words: set[str], what: str) -> Any:
    """Lengths of stations so called that are not across the slope."""
    from takeoff.measure import parse_length

    across = {format_length(inches) for inches in (84.0, 120.0, 156.0)}
    for word in words:
        if word.endswith(what) and (figure := word.removesuffix(f" {what}")) not in across:
            yield parse_length(figure)


def test_a_building_without_minor_roofs_has_no_such_plan() -> None:
    assert part_plans(built(gable()), name="part") == ()
