"""Screening of openings in slopes: each rule kept by one plan and broken, or answered with hangers, by another."""

from __future__ import annotations

from typing import Any

from shop import built, gable

from takeoff.checks.screen import screen
from takeoff.findings import Finding, Severity

SPLAYED = {"side": "south", "center": "15'", "up": "3'", "height": "3'"}


def findings(rule: str, **skylight: Any) -> tuple[Finding, ...]:
    plan = gable(roof={"skylights": [{**SPLAYED, **skylight}]})
    return tuple(finding for finding in screen(built(plan), plan) if finding.rule == rule)


def severities(rule: str, **skylight: Any) -> list[Severity]:
    return [finding.severity for finding in findings(rule, **skylight)]


def test_single_headers_pass_up_to_four_feet_and_doubled_ones_beyond() -> None:
    """IRC R802.9, from memory."""
    assert severities("opening.single-header", width="4'", plies=1) == [Severity.NOTE]
    assert severities("opening.single-header", width="4'-0 1/2\"", plies=1) == [Severity.WARNING]
    assert severities("opening.single-header", width="4'-0 1/2\"") == [Severity.NOTE]


def test_a_single_header_that_is_too_long_is_told_how_to_mend_it() -> None:
    (finding,) = findings("opening.single-header", width="5'", plies=1)
    assert "write plies: 2" in finding.message
    assert "R802.9" in finding.section
    assert "recalled" in finding.section


def test_headers_over_six_feet_go_on_hangers() -> None:
    """IRC R802.9, from memory."""
    for width, hung in (("6'", "without hangers"), ("6'-1\"", "on hangers")):
        (finding,) = findings("opening.header-hanger", width=width)
        assert finding.severity is Severity.NOTE
        assert hung in finding.message


def test_the_longest_cut_rafter_hangs() -> None:
    (finding,) = findings("opening.tail-rafter", width="3'")
    assert finding.severity is Severity.NOTE
    assert "on hangers" in finding.message


def test_a_header_shallower_than_the_rafters_is_told() -> None:
    assert severities("opening.header-depth", width="3'") == []
    (finding,) = findings("opening.header-depth", width="3'", header="2x8")
    assert (finding.severity, finding.found, finding.limit) == (Severity.WARNING, '7 1/4"', '9 1/4"')
    # 2x10 plumb at 8/12 is 11.12, of which the stepped ply leaves 1: a 2x12 catches it, a 2x10 does not
    assert severities("opening.header-depth", width="3'", headers="plumb") == []
    assert severities("opening.header-depth", width="3'", headers="plumb", header="2x10") == [Severity.WARNING]


def test_a_roof_without_openings_is_told_nothing_of_them() -> None:
    plan = gable()
    assert not [finding for finding in screen(built(plan), plan) if finding.rule.startswith("opening.")]


def test_hung_rafters_at_an_opening_do_not_count_as_caught_by_the_ridge_beam() -> None:
    # a shallow header catches less than the beam: the beam is judged by what hangs on it alone
    assert severities("ridge.beam-depth", width="3'", header="2x4") == severities("ridge.beam-depth", width="3'")
