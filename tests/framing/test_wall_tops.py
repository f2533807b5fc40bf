"""Outside walls whose plates are stepped or raked: in platform-framed gables, and beside a wall that stands already."""

from __future__ import annotations

from math import hypot
from typing import Any

import pytest
from shop import built, gable, with_role

from takeoff.checks.audit import audit
from takeoff.findings import PlanError, Severity
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.schema import Building
from takeoff.plan.verify import building_flaws

STEPPED = [[0, 97.125], ["6'", 97.125], ["6'", 109.125], ["14'", 109.125], ["14'", 97.125], ["20'", 97.125]]
LEAN_TO = {
    "shape": "edges",
    "gables": None,
    "edges": {"north": "abutment", "east": "gable", "west": "gable"},
    "ridge": None,
    "ledger": {"size": "2x10"},
    "pitch": "4/12",
}


def topped(top: list[list[Any]], side: str = "east", **building: Any) -> Building:
    return gable(walls={"by_side": {side: {"top": top}}, **building.pop("walls", {})}, **building)


def on(frame: FramedBuilding, face: str, *roles: str) -> list[Member]:
    return [m for m in with_role(frame.members, *roles) if m.face == face]


def sound(frame: FramedBuilding) -> bool:
    return all(finding.severity is Severity.NOTE for finding in audit(frame))


def flaws(building: Building) -> list[str]:
    return [flaw.message for flaw in building_flaws(building) if flaw.severity is Severity.ERROR]


def test_plates_of_a_gable_step_and_its_gable_studs_stand_on_each_step() -> None:
    frame = built(topped(STEPPED))
    assert sorted({round(p.placement.origin[2] + 0.75, 3) for p in on(frame, "east", "cap-plate")}) == [97.125, 109.125]
    assert {round(m.placement.origin[2], 3) for m in on(frame, "east", "gable-stud")} == {97.125, 109.125}
    # 97-1/8 and 109-1/8 less three plates of 1-1/2
    assert {round(m.length_in, 3) for m in on(frame, "east", "stud")} == {92.625, 104.625}
    assert sound(frame)


def test_at_a_step_two_studs_stand_side_by_side_one_under_each_level() -> None:
    studs = {round(m.placement.origin[1], 3): m.length_in for m in on(built(topped(STEPPED)), "east", "stud")}
    assert studs[72 - 0.75] == pytest.approx(92.625)
    assert studs[72 + 0.75] == pytest.approx(104.625)


def test_a_cap_plate_as_high_as_the_eave_walls_laps_over_them_and_a_lower_one_butts() -> None:
    level = on(built(topped(STEPPED)), "east", "cap-plate")
    # from the step at 6' to the outside of the eave wall; between the steps 8'
    assert sorted(round(p.length_in, 3) for p in level) == [72.0, 72.0, 96.0]
    low = built(topped([[0, "4'"], ["20'", "4'"]]))
    assert [round(p.length_in, 3) for p in on(low, "east", "cap-plate")] == [240 - 2 * 5.5]
    eaves = on(low, "south", "cap-plate")
    assert max(p.placement.origin[0] + p.length_in for p in eaves) == pytest.approx(360)
    assert sound(low)


def test_studs_over_a_raked_plate_are_bevelled_at_their_feet() -> None:
    frame = built(topped([[0, 95], ["10'", 120], ["20'", 95]]))
    slope = 25 / 120
    plates = on(frame, "east", "rake-plate")
    assert len(plates) == 4
    feet = {round(m.cuts[0].normal[2] / m.cuts[0].normal[0], 4) for m in on(frame, "east", "gable-stud")}
    assert {round(slope, 4), round(-slope, 4)} <= feet
    # under it: the plate's top less two plates square to the slope and the bottom plate, at the long point
    stud = next(m for m in on(frame, "east", "gable-stud", "stud") if round(m.placement.origin[1]) == 32)
    assert stud.length_in == pytest.approx(95 + slope * 32 - 3 * hypot(1, slope) - 1.5 + slope * 0.75)
    assert sound(frame)


def test_an_abutment_side_with_a_top_has_a_wall_of_its_own_without_sheathing() -> None:
    walls = {"by_side": {"north": {"top": [[0, "8'"], ["10'", "8'"], ["10'", "9'-1\""], ["30'", "9'-1\""]]}}}
    frame = built(gable(span="10'", walls=walls, roof=LEAN_TO))
    assert {round(m.length_in, 3) for m in on(frame, "north", "stud")} == {96 - 4.5, 109 - 4.5}
    assert [face.cover for face in frame.faces if face.name == "north"] == [None]
    assert sound(frame)
    assert not on(built(gable(span="10'", roof=LEAN_TO)), "north", "stud")


def test_an_opening_in_an_abutment_without_a_wall_of_its_own_is_refused() -> None:
    window = {"side": "north", "center": "15'", "size": 3030, "head": 78}
    lean = {"span": "10'", "roof": LEAN_TO}
    assert "no wall is framed there" in flaws(gable(walls={"openings": [window]}, **lean))[0]
    own = {"north": {"top": [[0, "8'"], ["30'", "8'"]]}}
    assert not flaws(gable(walls={"openings": [window], "by_side": own}, **lean))


def test_a_top_that_reaches_the_rafters_says_where_and_by_how_much() -> None:
    with pytest.raises(PlanError, match=r"the top of the east wall, 9'-1\" high .* rises 10 15/16\" over"):
        built(topped([[0, "8'"], ["10'", "8'"], ["10'", "9'-1\""], ["20'", "9'-1\""]]))
    walls = {"by_side": {"north": {"top": [[0, "13'"], ["30'", "13'"]]}}}
    with pytest.raises(PlanError, match=r"the top of the wall 'north', 13'-0\" high .* into the roof"):
        built(gable(span="10'", walls=walls, roof=LEAN_TO))


def test_a_wall_under_rafters_or_with_studs_to_the_rake_takes_no_top() -> None:
    step = [[0, "8'"], ["10'", "8'"], ["10'", "9'-1\""], ["30'", "9'-1\""]]
    (eave,) = flaws(topped(step, "south"))
    assert '11 7/8" off the plates at 8\'-1 1/8" that the rafters stand on' in eave
    balloon = gable(walls={"by_side": {"east": {"top": step[:3], "frame": "balloon"}}})
    assert "its studs run on to the rake" in flaws(balloon)[0]


def test_a_step_in_the_jacks_of_an_opening_is_refused_and_one_beside_or_over_it_is_not() -> None:
    # rough opening 30-1/2 wide, a king and a jack of 1-1/2 at each side: they end 18-1/4 from its centre
    def at(center: float) -> list[str]:
        window = {"side": "east", "center": center, "size": 2620, "head": 80}
        return [f for f in flaws(topped(STEPPED, walls={"openings": [window]})) if "the step" in f]

    assert 'its studs 1/2" in the king and jacks of the 2620 window' in at(72 + 1.5 + 18.25 - 0.5)[0]
    assert not at(72 + 1.5 + 18.25)
    assert not at(72 + 18.25)  # the king is the stud under the higher part
    assert not at(72)


def test_an_opening_under_the_lower_part_of_a_top_is_held_against_that() -> None:
    window = {"side": "east", "center": "3'-6\"", "size": 3030, "head": 96}
    assert "under the top plates" in flaws(topped(STEPPED, walls={"openings": [window]}))[0]
    higher = {**window, "center": "10'-2\"", "size": 2020}
    assert not [f for f in flaws(topped(STEPPED, walls={"openings": [higher]})) if "plates" in f]
