"""Tables for the site: what is marked on plates and ridges, and what the screening found."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.measure import format_length
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.tables.table import LENGTH, Column, Row, Table


def _layout(takeoff: Takeoff) -> Iterator[Row]:
    for building in takeoff.buildings:
        for line in building.lines:
            for number, mark in enumerate(line.marks, start=1):
                yield (
                    building.name,
                    line.name,
                    number,
                    mark.position_in,
                    format_length(mark.position_in, denominator=takeoff.settings.denominator),
                    mark.symbol,
                    mark.what,
                )


def _checks(takeoff: Takeoff) -> Iterator[Row]:
    for finding in takeoff.findings:
        yield (
            finding.building,
            str(finding.severity),
            finding.rule,
            finding.section,
            finding.where or finding.place.path,
            finding.found,
            finding.limit,
            finding.message,
        )


LAYOUT = Table(
    file="layout.csv",
    columns=(
        Column("building"),
        Column("line"),
        Column("mark_no"),
        Column("position_in", LENGTH),
        Column("position_text"),
        Column("symbol"),
        Column("what"),
    ),
    rows=_layout,
)
"""One row a mark on a layout line, in the order a tape meets them from the line's start."""

CHECKS = Table(
    file="checks.csv",
    columns=(
        Column("building"),
        Column("severity"),
        Column("rule"),
        Column("section"),
        Column("where"),
        Column("found"),
        Column("limit"),
        Column("message"),
    ),
    rows=_checks,
)
"""One row a finding. ``where`` is in a builder's words, or the path in the plan."""
