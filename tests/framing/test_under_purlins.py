"""Purlins with struts under a tied gable roof: where they touch, how the struts are cut, what the screening says.

Limits: IRC R802.4.5 (2018), R802.5.1 before, from memory. Other figures are worked by hand in comments.
"""

from __future__ import annotations

from itertools import pairwise
from math import asin, degrees, hypot, sqrt
from typing import Any

import pytest
from shop import built, gable, only, with_role

from takeoff.checks.audit import overlaps
from takeoff.checks.purlins import purlins
from takeoff.findings import PlanError, Severity
from takeoff.plan.schema import Building


def tied(struts: dict[str, Any] | None = None, **told: Any) -> Building:
    """30 by 24 ft at 8/12 of 2x6 on a board, ceiling joists, purlins half way up."""
    return gable(
        span="24'",
        roof={
            "rafters": {"size": "2x6"},
            "ridge": {"kind": "board", "size": "2x8"},
            "ceiling": {"size": "2x8"},
            "purlins": {"at": 72, "struts": {"wall": 144, **(struts or {})}, **told},
        },
    )


def test_a_purlin_lies_flat_on_the_undersides_of_the_rafters_at_its_place() -> None:
    frame = built(tied())
    rafter = next(m for m in with_role(frame.members, "common-rafter") if m.face == "south slope")
    purlin = next(m for m in with_role(frame.members, "purlin") if m.face.startswith("south"))
    assert rafter.rafter is not None
    # The middle of its upper edge is 72 in from the wall, plumb under the rafter's top by the whole plumb depth.
    _, y, z = purlin.placement.to_world((0.0, 5.5, 0.0))
    assert y == pytest.approx(72)
    assert z == pytest.approx(97.125 + rafter.rafter.underside_at(72))
    assert purlin.placement.y == pytest.approx((0.0, -8 / hypot(8, 12), 12 / hypot(8, 12)))  # square to the slope


def test_a_strut_runs_from_the_wall_to_the_middle_of_the_purlin_s_lower_edge() -> None:
    frame = built(tied({"wall": 120}))
    strut = next(m for m in with_role(frame.members, "strut") if m.face.startswith("south"))
    # 2x6 at 8/12: plumb 5.5 * sqrt(13)/3 = 6.6102; the seat keeps the notch to 1-3/8: 2-3/8 long, so 5.0269 over the
    # plate. Underside over the purlin: 5.0269 + 48 - 6.6102 = 46.4167; the purlin goes down 5.5 square to the slope:
    # 5.5 * 2/sqrt(13) = 3.0509 further in, 5.5 * 3/sqrt(13) = 4.5763 lower: 75.0509 in, 41.8404 over the plate.
    foot, head = (120.0, 0.0), (72 + 11 / sqrt(13), 46.4167 - 16.5 / sqrt(13))
    rise, run = head[1] - foot[1], foot[0] - head[0]
    assert degrees(asin(strut.placement.x[2])) == pytest.approx(degrees(asin(rise / hypot(rise, run))), abs=1e-3)
    heights = [strut.placement.to_world((x, y, 0.0))[2] for x, y in strut.side.exterior.coords]
    assert min(heights) == pytest.approx(97.125)
    assert sorted(round(h, 6) for h in heights)[0] == sorted(round(h, 6) for h in heights)[1]  # a level foot


def test_no_stick_stands_in_a_purlin_or_a_strut() -> None:
    for building in (tied(), tied({"wall": 100, "size": "2x6", "spacing": 32}, size="2x8")):
        assert [(a.name, b.name, s.depth) for a, b, s in overlaps(built(building).members)] == []


def test_struts_stand_in_bays_at_most_so_far_apart() -> None:
    frame = built(tied({"spacing": 48}))
    spots = sorted(m.placement.origin[0] for m in with_role(frame.members, "strut") if m.face.startswith("south"))
    rafters = {m.placement.origin[0] for m in with_role(frame.members, "common-rafter") if m.face == "south slope"}
    assert max(b - a for a, b in pairwise(spots)) == pytest.approx(48)
    assert all(min(abs(u - r) for r in rafters) > 6 for u in spots)
    assert only(m for m in with_role(frame.members, "strut"))


@pytest.mark.parametrize(
    ("building", "rule"),
    [
        (tied({"wall": 100}, size="2x4"), "purlin.depth"),
        (tied({"wall": 72, "height": 0}), "purlin.strut-length"),
        (tied({"wall": 144}), "purlin.strut-angle"),
    ],
    ids=["shallow", "long", "flat"],
)
def test_what_the_code_does_not_let_pass_is_a_warning(building: Building, rule: str) -> None:
    warned = {f.rule for f in purlins(built(building), building) if f.severity is Severity.WARNING}
    assert warned == {rule}


def test_purlins_within_every_limit_are_notes() -> None:
    building = tied({"wall": 84})
    found = list(purlins(built(building), building))
    assert len(found) == 8
    assert {f.severity for f in found} == {Severity.NOTE}


def test_purlins_that_cross_collar_ties_or_have_no_room_are_refused() -> None:
    crossing = tied()
    collar = gable(roof={"collar": {"size": "2x4", "height": 42}}).roof.collar
    roof = crossing.roof.model_copy(update={"collar": collar})
    for building, words in (
        (crossing.model_copy(update={"roof": roof}), "cross the collar ties"),
        (tied(at=140), "no room between wall and ridge"),
        (tied({"height": 140}), "the purlin's lower edge"),
    ):
        with pytest.raises(PlanError) as error:
            built(building)
        assert words in error.value.findings[0].message
