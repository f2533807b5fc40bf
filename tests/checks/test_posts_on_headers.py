"""A roof post that stands on the header of an opening is told with its beam; one that goes down to the floor isn't."""

from __future__ import annotations

import pytest
from shop import gable

from takeoff.checks.walls import posts_on_headers
from takeoff.findings import NOWHERE
from takeoff.framing.frame import frame
from takeoff.plan.schema import Building

BEAM = {"ridge": {"kind": "beam", "size": "5-1/2x14", "material": "glulam"}}


@pytest.mark.parametrize(("center", "told"), [("10'", ["east"]), ("4'", [])])
def test_only_an_opening_under_the_ridge_beam_carries_its_post(center: str, told: list[str]) -> None:
    opening = {"side": "east", "center": center, "size": 3040}
    walls = {"studs": "2x6", "openings": [opening], "by_side": {"east": {"frame": "balloon"}}}
    plan = gable(walls=walls, roof=BEAM)
    framed, _ = frame(plan, lambda _: NOWHERE)
    assert [finding.where.split(" ")[0] for finding in posts_on_headers(framed, plan)] == told


def gambrel(left: str) -> Building:
    upper = {"pitch": "6/12", "run": "3'-6\"", "purlin": {"size": "3-1/2x9-1/2", "material": "lvl"}}
    roof = {"shape": "gambrel", "pitch": "20/12", "upper": upper, "rafters": {"size": "2x8"}, **BEAM}
    walls = {"openings": [{"side": "west", "left": left, "size": 3068, "kind": "door"}]}
    return gable(length="20'", span="16'", walls=walls, roof=roof)


@pytest.mark.parametrize(
    ("left", "told"),
    [("2'", ["north"]), ("6'-6\"", ["ridge"]), ("11'", ["south"])],
)
def test_a_door_under_the_end_of_a_purlin_beam_is_told_with_that_beam(left: str, told: list[str]) -> None:
    plan = gambrel(left)
    framed, _ = frame(plan, lambda _: NOWHERE)
    found = [finding.message for finding in posts_on_headers(framed, plan)]
    assert [[word for word in ("north", "south", "ridge") if f" {word} " in message] for message in found] == [told]


def test_a_header_hung_under_the_plates_of_a_gable_wall_carries_the_post_on_them() -> None:
    opening = {"side": "east", "center": "10'", "size": 3040, "header_at": "plates"}
    plan = gable(walls={"studs": "2x6", "openings": [opening]}, roof=BEAM)
    framed, _ = frame(plan, lambda _: NOWHERE)
    (found,) = posts_on_headers(framed, plan)
    assert "the ridge beam" in found.message
