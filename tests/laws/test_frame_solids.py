"""Every stick as a solid, with its notches and end cuts: no two take the same place. Solids by a general library."""

from __future__ import annotations

import pytest
from measured import clashes, framed, solid
from shop import CABIN, built, gable, with_role
from strategies import NASTY_BUILDINGS, for_any_building

from takeoff.plan.read import read_plan
from takeoff.plan.schema import Building

THIRTY_SECOND_IN = 1 / 32


def clashes_of(building: Building) -> list[str]:
    """Pairs of sticks that reach into each other by more than a thirty-second, worst last, as a builder calls them."""
    found = {
        f"{a.role.name} of {a.face} in {b.role.name} of {b.face}: {volume:.1f} cu in"
        for a, b, volume in clashes(framed(building).members, THIRTY_SECOND_IN)
    }
    return sorted(found, key=lambda text: float(text.split()[-3]))


def test_no_two_sticks_of_the_sample_cabin_take_the_same_place() -> None:
    written, _ = read_plan(CABIN)
    assert clashes_of(written.plan.buildings[0]) == []


@pytest.mark.parametrize("building", NASTY_BUILDINGS, ids=range(len(NASTY_BUILDINGS)))
def test_no_two_sticks_of_a_nasty_building_take_the_same_place(building: Building) -> None:
    assert clashes_of(building) == []


@for_any_building
def test_no_two_sticks_of_any_building_take_the_same_place(building: Building) -> None:
    assert clashes_of(building) == []


def test_a_solid_is_the_outline_through_the_thickness_less_what_its_bevels_take() -> None:
    members = built(gable(walls={"by_side": {"east": {"frame": "balloon"}}})).members
    square = with_role(members, "stud", "common-rafter", "eave-block", "cap-plate")
    for member in square:
        blank = member.side.area * member.profile.thickness_in
        assert solid(member).volume() == pytest.approx(blank, rel=1e-6), "plumb cuts are in the outline already"
    # A bevel over the thickness takes half of t x t tan(bevel) x depth: 8/12 of slope on a 1-1/2 x 5-1/2 stud.
    bevelled = next(m for m in with_role(members, "gable-stud") if m.cuts[1].bevel_deg)
    taken = 0.5 * 1.5 * (1.5 * 8 / 12) * 5.5
    blank = bevelled.side.area * bevelled.profile.thickness_in
    assert solid(bevelled).volume() == pytest.approx(blank - taken, rel=1e-6)


def test_sticks_that_do_clash_are_found() -> None:
    stud = with_role(built(gable()).members, "stud")[0]
    ((_, _, volume),) = clashes((stud, stud), THIRTY_SECOND_IN)
    assert volume == pytest.approx(1.5 * 5.5 * stud.length_in)
