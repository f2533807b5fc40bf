"""Pony walls: in place of a part of the mud sill, from a stepped foundation to the joists of the main floor."""

from __future__ import annotations

from typing import Any

import pytest
from shop import built, gable, with_role

from takeoff.checks.audit import audit
from takeoff.findings import Place, PlanError, Severity
from takeoff.framing.frame import frame
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.schema import Building
from takeoff.plan.verify import building_flaws

DOWN = [["6'", "-2'"], ["12'", "-2'"], ["12'", "-4'"], ["30'", "-4'"]]
GIRDER = {"from": [6, "10'"], "to": ["29'-6\"", "10'"], "size": "3-2x10", "posts": ["10'", "20'"]}
UNDER = 23 / 32 + 9.25
"""From the deck to the underside of the joists [in]: 23/32" sheets on 2x10."""


def house(girder: dict[str, Any] | None = None, **pony: Any) -> Building:
    floors = {"main": {"joists": {"size": "2x10"}, "girders": [girder or GIRDER], "footing": "-5'"}}
    return gable(walls={"pony": {side: {"bottom": bottom} for side, bottom in pony.items()}}, floors=floors)


def sound(framed: FramedBuilding) -> bool:
    return all(finding.severity is Severity.NOTE for finding in audit(framed))


def of(framed: FramedBuilding, face: str, *roles: str) -> list[Member]:
    return [m for m in with_role(framed.members, *roles) if m.face == face]


def test_studs_reach_from_each_step_of_the_foundation_to_level_plates_under_the_joists() -> None:
    framed = built(house(south=DOWN))
    studs = of(framed, "south pony", "stud")
    # 24 and 48 down to the foundation, less deck and joists, less three plates
    assert {round(m.length_in, 4) for m in studs} == {round(h - UNDER - 4.5, 4) for h in (24, 48)}
    tops = {round(m.placement.origin[2] + 0.75, 4) for m in of(framed, "south pony", "cap-plate")}
    assert tops == {round(-UNDER, 4)}
    feet = of(framed, "south pony", "bottom-plate")
    assert {m.grade for m in feet} == {"treated"}
    assert sorted(round(m.length_in, 3) for m in feet) == [72.0, 216.0]
    assert sound(framed)


def test_at_a_step_of_the_foundation_a_stud_stands_at_each_side() -> None:
    studs = {round(m.placement.origin[0], 3): m.length_in for m in of(built(house(south=DOWN)), "south pony", "stud")}
    assert studs[144 + 0.75] - studs[144 - 0.75] == pytest.approx(24)


def test_the_mud_sill_lies_where_no_pony_wall_stands_and_joists_bear_on_either() -> None:
    framed = built(house(south=DOWN))
    plain = built(house())
    lacking = sum(m.length_in for m in with_role(plain.members, "mud-sill")) - sum(
        m.length_in for m in with_role(framed.members, "mud-sill")
    )
    assert lacking == pytest.approx(24 * 12)

    def borne(on: FramedBuilding) -> int:
        lower = {"mud-sill", "cap-plate"}
        return sum(
            j.kind == "bears" and on.members[j.lower].role.name in lower and "joist" in on.members[j.upper].role.name
            for j in on.joints
        )

    assert borne(framed) == borne(plain)


def test_cap_plates_of_two_pony_walls_lap_at_their_corner() -> None:
    framed = built(house(south=DOWN, east=[[0, "-4'"], ["20'", "-4'"]]))
    (cap,) = of(framed, "east pony", "cap-plate")
    (top,) = of(framed, "east pony", "top-plate")
    assert cap.length_in - top.length_in == pytest.approx(5.5)
    assert sound(framed)


def test_low_and_high_pony_walls_are_told() -> None:
    bottom = [[0, "-2'"], ["10'", "-2'"], ["10'", "-6'"], ["30'", "-6'"]]
    told = frame(house(south=bottom), lambda path: Place(path=path))[1]
    warned = [f.message for f in told if f.rule == "frame.pony" and f.severity is Severity.WARNING]
    assert len(warned) == 2
    assert "solid blocks" in warned[0]
    assert "one more story" in warned[1]


def test_a_girder_that_ends_in_a_pony_wall_is_refused() -> None:
    girder = {**GIRDER, "from": [0, "10'"]}
    with pytest.raises(PlanError, match="a girder ends in the west pony wall"):
        built(house(girder, west=[[0, "-3'"], ["20'", "-3'"]]))


def test_a_foundation_too_high_for_studs_says_how_high_it_may_be() -> None:
    (flaw,) = [f for f in building_flaws(house(south=[[0, -14], ["10'", -14]])) if f.severity is Severity.ERROR]
    assert flaw.limit == "at most -1'-5 1/2\""  # deck and joists, three plates, a stud of 3": 17-15/32
