"""Checks of ties, collar ties and rafters over a beam, each kept by one roof and broken by another."""

from __future__ import annotations

from typing import Any

import pytest
from shop import built, gable

from takeoff.checks.screen import screen
from takeoff.findings import Finding, Severity
from takeoff.order.hardware import count_hardware

Keys = dict[str, Any]

BOARD: Keys = {"kind": "board", "size": "2x12"}
OVER: Keys = {"kind": "beam", "size": "5-1/2x14", "material": "glulam", "support": "over"}
STAND = 8.367
RIDGE = STAND + 80
"""2x10 at 8/12 over 20 feet: height of the ridge over the plates."""


def findings(rule: str, **roof: Any) -> tuple[Finding, ...]:
    plan = gable(roof={"ridge": BOARD, **roof})
    return tuple(finding for finding in screen(built(plan), plan) if finding.rule == rule)


def ties(height: float = 0.0, size: str = "2x6", **keys: Any) -> Keys:
    return {"ties": {"size": size, "height": height, **keys}}


def collar(size: str = "2x4", **keys: Any) -> Keys:
    return {"collar": {"size": size, **keys}, "rafters": {"size": "2x10", "spacing": '24"'}}


CASES: list[tuple[str, Keys, Keys]] = [
    ("tie.height", ties(RIDGE / 3 - 0.1), ties(RIDGE / 3 + 0.1)),
    ("tie.depth", ties(size="2x4"), ties(size="2x3", height=30.0)),
    # every second pair of a layout of 16 is 32 apart
    ("tie.spacing", ties(), ties(spacing='32"')),
    ("tie.spacing", {"ceiling": {"size": "2x8"}}, {"ceiling": {"size": "2x8", "spacing": '32"'}}),
    ("collar.height", collar(), collar(height=RIDGE * 2 / 3 - 0.1)),
    ("collar.depth", collar("1x4"), collar("2x3")),
    # a post at 20' stands under the pair at 240: its neighbours on a layout of 48 are 96 apart
    (
        "collar.spacing",
        collar(spacing='48"'),
        {
            "collar": {"size": "2x4", "height": 40.0},
            "rafters": {"size": "2x10", "spacing": '48"'},
            "ridge": {"kind": "beam", "size": "5-1/2x14", "material": "glulam", "posts": ["20'"]},
        },
    ),
    ("ridge.board-ties", ties(), {}),
    ("ridge.board-ties", {"ceiling": {"size": "2x8"}}, {}),
    # a 4x beam is 3-1/2 thick: seats of 1-3/4; a 2x is 1-1/2: seats of 3/4
    ("bearing.rafter", {"ridge": {**OVER}}, {"ridge": {"kind": "beam", "size": "2x12", "support": "over"}}),
]


@pytest.mark.parametrize(("rule", "kept", "broken"), CASES, ids=[f"{k} {case[0]}" for k, case in enumerate(CASES)])
def test_a_rule_is_kept_by_one_roof_and_broken_by_another(rule: str, kept: Keys, broken: Keys) -> None:
    assert {f.severity for f in findings(rule, **kept)} == {Severity.NOTE}
    assert Severity.WARNING in {f.severity for f in findings(rule, **broken)}


@pytest.mark.parametrize(
    ("share", "factor"), [(0.30, "0.67"), (0.25, "0.76"), (0.24, "0.76"), (0.20, "0.83"), (1 / 6, "0.9"), (0.1, "1")]
)
def test_the_span_factor_is_that_of_the_next_height_up_in_the_table(share: float, factor: str) -> None:
    # IRC Table R802.4.1, footnote a, from memory
    (finding,) = findings("tie.span-factor", **ties(share * RIDGE - 0.001))
    assert finding.limit == factor


def test_the_laps_are_told_for_nailing() -> None:
    (finding,) = findings("tie.nailing", **ties(24.0))
    # (11.117 + 5.5) x 1.5
    assert "2'-0 15/16\" long at least" in finding.message
    assert "recalled" in finding.section


def test_a_board_without_collar_ties_wants_straps_and_a_beam_does_not() -> None:
    assert [f.severity for f in findings("collar.strap")] == [Severity.WARNING]
    assert findings("collar.strap", ridge=OVER) == ()
    assert findings("collar.strap", **collar()) == ()


def test_over_a_beam_nothing_hangs_and_the_second_notch_is_looked_at() -> None:
    assert findings("ridge.beam-depth", ridge=OVER) == ()
    on_beam = [f for f in findings("notch.end-depth", ridge=OVER) if "on the ridge beam" in f.where]
    # 2-3/4 at 8/12: 1.525 square to the edge
    assert [(f.severity, f.found) for f in on_beam] == [(Severity.NOTE, 'a notch 1 17/32" deep')]
    steep = [f for f in findings("notch.end-depth", ridge=OVER, pitches={"north": "4/12"}) if "on the ridge" in f.where]
    assert Severity.WARNING in {f.severity for f in steep}


def test_rafters_bear_on_the_plate_by_their_seat_there_alone() -> None:
    (finding,) = (f for f in findings("bearing.rafter", ridge=OVER) if "plate" in f.found)
    assert finding.found == 'a bearing of 4 1/8" on the plate'


def test_connectors_are_counted_for_rafters_and_not_for_the_joists_beside_them() -> None:
    def counted(roof: Keys) -> dict[str, int]:
        return {c.name: c.qty for c in count_hardware([built(gable(roof=roof))])}

    assert counted({"ridge": BOARD, "ceiling": {"size": "2x8"}}) == counted({"ridge": BOARD})
    assert "rafter-hanger" not in counted({"ridge": OVER})
