"""A roof whose slopes are told by outline is framed exactly as the one whose slopes are laid out from its sides."""

from __future__ import annotations

import pytest
from any_roofs import CASES, FAMILIES, ell
from hypothesis import given, settings
from shop import roofed
from told import somewhere, told_to_the_eaves, told_to_the_walls

from takeoff.framing.frame import frame
from takeoff.model.member import Member
from takeoff.plan.schema import Building
from takeoff.plan.verify import building_flaws

RANDOM = 6
NEAR = 1e-6

ODD = "pyramid of odd size"
"""Its ridge is a sixteenth long: no builder writes two corners there."""

ONE_PITCH = ("hip", "gable on hip", "ell", "ell of gables on beams", "tee", "zed", "hip without an overhang")


def members(building: Building) -> tuple[Member, ...]:
    return frame(building, somewhere)[0].members


def assert_alike(one: Building, other: Building) -> None:
    assert [flaw for flaw in building_flaws(other) if flaw.rule == "plan.slope"] == []
    laid, told = members(one), members(other)
    assert [(m.role.name, m.face, m.profile, m.grade) for m in laid] == [
        (m.role.name, m.face, m.profile, m.grade) for m in told
    ]
    for a, b in zip(laid, told, strict=True):
        assert a.placement.origin == pytest.approx(b.placement.origin, abs=NEAR)
        assert a.placement.x == pytest.approx(b.placement.x, abs=NEAR)
        assert a.side.bounds == pytest.approx(b.side.bounds, abs=NEAR)
        assert a.side.symmetric_difference(b.side).area < NEAR
        for end, twin in zip(a.cuts, b.cuts, strict=True):
            assert end.normal == pytest.approx(twin.normal, abs=NEAR)


@pytest.mark.parametrize("name", [name for name in CASES if name != ODD])
def test_slopes_told_to_the_eaves_give_the_members_of_the_roof_laid_out(name: str) -> None:
    assert_alike(CASES[name], told_to_the_eaves(CASES[name]))


@pytest.mark.parametrize("family", FAMILIES)
def test_slopes_of_random_roofs_told_to_the_eaves_give_their_members(family: str) -> None:
    @settings(max_examples=RANDOM)
    @given(FAMILIES[family])
    def alike(building: Building) -> None:
        assert_alike(building, told_to_the_eaves(building))

    alike()


@pytest.mark.parametrize("name", ONE_PITCH)
def test_slopes_told_to_the_walls_take_the_overhang_of_the_roof(name: str) -> None:
    assert_alike(CASES[name], told_to_the_walls(CASES[name]))


def test_slopes_beside_a_standing_wall_end_there() -> None:
    building = roofed(
        ell(360, 240, 168, 160),
        shape="edges",
        edges={"side 3": "abutment", "side 6": "gable"},
        overhang={"eave": 16, "rake": 12},
    )
    assert_alike(building, told_to_the_eaves(building))
    assert_alike(building, told_to_the_walls(building))


def test_slopes_over_walls_of_unequal_height_have_their_plates() -> None:
    building = roofed(
        [(0, 0), (288, 0), (288, 200), (0, 200)],
        shape="edges",
        edges={"side 2": "gable", "side 4": "gable"},
        pitches={"side 1": "4/12"},
        walls={"by_side": {"side 3": {"height": "10'"}}},
        overhang={"eave": 16, "rake": 12},
    )
    assert_alike(building, told_to_the_eaves(building))
