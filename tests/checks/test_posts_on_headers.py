"""A ridge post that stands on the header of an opening is told; one that goes down to the floor isn't."""

from __future__ import annotations

import pytest
from shop import gable

from takeoff.checks.walls import posts_on_headers
from takeoff.findings import NOWHERE
from takeoff.framing.frame import frame

BEAM = {"ridge": {"kind": "beam", "size": "5-1/2x14", "material": "glulam"}}


@pytest.mark.parametrize(("center", "told"), [("10'", ["east"]), ("4'", [])])
def test_only_an_opening_under_the_ridge_beam_carries_its_post(center: str, told: list[str]) -> None:
    opening = {"side": "east", "center": center, "size": 3040}
    walls = {"studs": "2x6", "openings": [opening], "by_side": {"east": {"frame": "balloon"}}}
    plan = gable(walls=walls, roof=BEAM)
    framed, _ = frame(plan, lambda _: NOWHERE)
    assert [finding.where.split(" ")[0] for finding in posts_on_headers(framed, plan)] == told
