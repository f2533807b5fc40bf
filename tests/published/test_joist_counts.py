"""Counts and board feet of floors by the rules of the manuals, and the limits of the code that were recalled.

Army EN0069 (Frame Structures) and manuals of its kind: joists on a layout = length / spacing + 1, where the length is a
multiple of the spacing; board feet = thickness x width (nominal inches) x length (feet) / 12.
"""

from __future__ import annotations

import pytest
from shop import built, gable, with_role

from takeoff.catalog.joist_spans import joist_spans_for
from takeoff.checks.screen import screen
from takeoff.findings import Severity
from takeoff.plan.schema import Building


def floor(length: str, span: str, **main: object) -> Building:
    joists = {"size": "2x10", "span": "north-south"}
    return gable(length=length, span=span, floors={"main": {"joists": joists, **main}})


@pytest.mark.parametrize(("feet", "count"), [(16, 13), (20, 16), (24, 19), (32, 25), (40, 31)])
def test_joists_are_length_over_spacing_and_one(feet: int, count: int) -> None:
    members = built(floor(f"{feet}'", "12'")).members
    # the first and the last are the joists at the edges: 12 x feet / 16 + 1
    assert len(with_role(members, "floor-joist", "rim-joist")) == count


def test_board_feet_of_a_floor() -> None:
    members = built(floor("16'", "12'")).members
    joists = with_role(members, "floor-joist", "rim-joist", "rim-board")
    # 13 joists of 12 ft less two rims, and two rims of 16 ft: 2 x 10 / 12 bf a foot
    feet = 13 * (12 - 3 / 12) + 2 * 16
    assert sum(m.profile.board_feet_per_ft * m.length_in / 12 for m in joists) == pytest.approx(feet * 20 / 12)


@pytest.mark.parametrize(("profile", "species", "spacing", "span"), [("2x8", "dfl", 16, 153), ("2x10", "spf", 16, 185)])
def test_spans_are_those_recalled_from_the_code(profile: str, species: str, spacing: float, span: float) -> None:
    # IRC 2018 Table R502.3.1(2), 40 and 10 psf: 2x8 DF-L No.2 12-9; 2x10 SPF No.2 15-5. From memory.
    rows = {row.species: row for row in joist_spans_for(profile, "no2", spacing)}
    assert rows[species].clear_span_in == span
    assert rows[species].how_known == "memory"


def severities(building: Building, rule: str) -> set[Severity]:
    return {found.severity for found in screen(built(building), building) if found.rule == rule}


def test_a_cantilever_of_the_joists_nominal_depth_is_the_most() -> None:
    # IRC R502.3.3, from memory: no further than the nominal depth, 10 in for a 2x10.
    def reaching(past: str) -> Building:
        outline = [[0, 0], ["16'", 0], ["16'", past], [0, past]]
        return floor("16'", "12'", outline=outline)

    assert severities(reaching("12'-10\""), "joist.cantilever") == {Severity.NOTE}
    assert severities(reaching("12'-11\""), "joist.cantilever") == {Severity.WARNING}


def test_joists_bear_an_inch_and_a_half_at_least() -> None:
    # IRC R502.6, from memory: 1-1/2 in on wood. Butted over 4x8 (3-1/2): 1-3/4 each; over 2x10: 3/4 each.
    def over(size: str) -> Building:
        return floor("16'", "12'", girders=[{"from": [0, "6'"], "to": ["16'", "6'"], "size": size}])

    assert severities(over("4x8"), "bearing.joist") == {Severity.NOTE}
    assert severities(over("2x10"), "bearing.joist") == {Severity.WARNING}
