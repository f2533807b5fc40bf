"""Checks of headers in the outside walls that carry rafters, against the published table."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.header_spans import header_span
from takeoff.catalog.rules import Rule
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.plan.footprint import footprint
from takeoff.plan.schema import Building

if TYPE_CHECKING:
    from takeoff.catalog.header_spans import HeaderSpan
    from takeoff.plan.openings import Opening

SNOW_PSF = 30.0
"""The lightest column of the table: a plan states no snow load [psf]."""


def header_spans(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Each header under rafters against the opening it may span, and its jacks against those it needs."""
    written = {face.name: face.written for face in building.faces}
    for opening in plan.walls.openings:
        header = opening.header_size
        if header is None or plan.roof.is_gable(opening.side):
            continue
        row = header_span(header.plies, header.size, width_in=_across(plan, opening.side), snow_psf=SNOW_PSF)
        if row is None:
            continue
        jacks = f"{opening.jack_count} jack{'s' if opening.jack_count > 1 else ''}"
        yield verdict(
            _rule(row),
            passed=opening.rough_width_in <= row.span_in and opening.jack_count >= row.jacks,
            building=building.name,
            where=f"{opening.side} wall, {opening.kind} {opening.call}",
            found=f"a {header} header on {jacks} each side over {format_length(opening.rough_width_in)}",
            limit=f"{format_length(row.span_in)} on {row.jacks} at {row.snow_psf:.0f} psf of ground snow",
            place=written[opening.side],
            advice=_advice(opening, row),
        )


def _advice(opening: Opening, row: HeaderSpan) -> str:
    wide = opening.rough_width_in > row.span_in
    return "take a deeper header, and look up your snow load" if wide else f"write jacks: {row.jacks}"


def _rule(row: HeaderSpan) -> Rule:
    return Rule(
        id="header.span",
        words=f"{row.plies}-{row.profile} under roof and ceiling of a building up to {row.width_ft:.0f}' wide, at most",
        value=row.span_in,
        unit="in",
        section=row.section,
        edition=row.edition,
        source=row.source,
        how_known=row.how_known,
    )


def _across(plan: Building, side: str) -> float:
    """Width of the building square to a side [in]."""
    ground = footprint(plan)
    x, y = ground.side(side).normal
    reach = [a * x + b * y for a, b in ground.points]
    return max(reach) - min(reach)
