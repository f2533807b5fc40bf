"""Headers against IRC 2018/2021 Table R602.7(1), recalled and to be looked up; the figures are from memory."""

from __future__ import annotations

from typing import Any

import pytest
from shop import built, gable

from takeoff.catalog.header_spans import header_span, header_spans
from takeoff.checks.headers import header_spans as check
from takeoff.findings import Finding, Severity
from takeoff.measure import parse_length


@pytest.mark.parametrize(
    ("snow", "width", "plies", "profile", "span", "jacks"),
    [
        (30, "24'", 2, "2x6", "4'-7\"", 1),
        (30, "20'", 2, "2x8", "5'-9\"", 1),
        (30, "12'", 2, "2x12", "10'-7\"", 2),
        (50, "36'", 2, "2x10", "4'-11\"", 2),
        (70, "24'", 2, "2x8", "4'-5\"", 2),
    ],
)
def test_a_header_spans_what_the_table_has_for_the_next_wider_building(snow, width, plies, profile, span, jacks):
    row = header_span(plies, profile, width_in=parse_length(width), snow_psf=snow)
    assert row is not None
    assert (row.span_in, row.jacks) == (parse_length(span), jacks)


def test_no_header_is_tabulated_over_a_wider_building():
    assert header_span(2, "2x8", width_in=37 * 12) is None


def test_spans_fall_with_snow_and_width_and_rise_with_depth():
    rows = {(r.supporting, r.snow_psf, r.width_ft, r.plies, r.profile): r.span_in for r in header_spans()}
    assert len(rows) == len(header_spans())
    for (what, snow, width, plies, profile), span in rows.items():
        for harder in ((what, snow + 20, width, plies, profile), (what, snow, width + 12, plies, profile)):
            assert rows.get(harder, 0.0) <= span


def told(**opening: Any) -> Finding:
    plan = gable(walls={"openings": [{"side": "south", "center": "12'", **opening}]})
    (finding,) = check(built(plan), plan)
    return finding


def test_a_header_within_its_span_is_noted_with_the_table():
    finding = told(size=3040, header="2-2x6")
    assert finding.severity is Severity.NOTE
    assert "R602.7(1)" in finding.section


def test_a_header_past_its_span_is_warned_of():
    finding = told(size=5040, header="2-2x6")  # 5'-0 1/2" rough, and 4'-7" in the table
    assert finding.severity is Severity.WARNING
    assert "4'-7\"" in finding.limit


def test_too_few_jacks_are_warned_of():
    finding = told(size=6040, header="2-2x10")  # 6'-10" on two jacks
    assert finding.severity is Severity.WARNING
    assert "jacks: 2" in finding.message
    assert told(size=6040, header="2-2x10", jacks=2).severity is Severity.NOTE
