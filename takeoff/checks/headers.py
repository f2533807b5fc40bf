"""Checks of headers in walls that bear, against the published tables."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.rules import Rule
from takeoff.checks.verdict import verdict
from takeoff.findings import Finding, Severity
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.plan.schema import Building
from takeoff.plan.settled import carried_on

if TYPE_CHECKING:
    from takeoff.catalog.header_spans import HeaderSpan
    from takeoff.plan.openings import WallOpening


def header_spans(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Each header under rafters against the opening it may span, and its jacks against those it needs."""
    written = {face.name: face.written for face in building.faces}
    for opening in plan.walls.openings:
        header = opening.header_size
        if header is None or plan.roof.is_gable(opening.side):
            continue
        carried = opening.carried or carried_on(plan, opening.side)
        row, place = carried.row(header), written[opening.side]
        where = f"{opening.side} wall, {opening.kind} {opening.call}"
        if row is None:
            yield Finding(
                rule="header.span",
                severity=Severity.NOTE,
                message=f"the table has no {header} header at {carried.snow_psf:.0f} psf of ground snow on a building"
                f" {format_length(carried.width_in)} wide: its size wants a licensed design",
                place=place,
                building=building.name,
                where=where,
            )
            continue
        jacks = f"{opening.jack_count} jack{'s' if opening.jack_count > 1 else ''}"
        yield verdict(
            _rule(row),
            passed=opening.rough_width_in <= row.span_in and opening.jack_count >= row.jacks,
            building=building.name,
            where=where,
            found=f"a {header} header on {jacks} each side over {format_length(opening.rough_width_in)}",
            limit=f"{format_length(row.span_in)} on {row.jacks} at {row.snow_psf:.0f} psf of ground snow",
            place=place,
            advice=_advice(opening, row),
        )


def inside_headers(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Headers of bearing partitions against the table for walls inside that carry one floor."""
    for partition in plan.walls.partitions:
        for opening in partition.openings if partition.bearing else ():
            header, carried = opening.header_size, opening.carried
            row = carried.row(header) if carried and header else None
            place = next(face.written for face in building.faces if face.name.startswith(partition.name))
            where = f"partition {partition.name}, {opening.kind} {opening.call}"
            found = f"header {header} over {format_length(opening.rough_width_in)} in a bearing partition"
            if row is None:
                yield Finding(
                    rule="header.inside",
                    severity=Severity.NOTE,
                    message=f"{found}: the table has no such header for one floor; its size wants a licensed design",
                    place=place,
                    building=building.name,
                    where=where,
                )
                continue
            yield verdict(
                _rule(row),
                passed=opening.rough_width_in <= row.span_in and opening.jack_count >= row.jacks,
                building=building.name,
                where=where,
                found=f"{found}, on {opening.jack_count} each side, taken to carry one floor",
                limit=f"{format_length(row.span_in)} on {row.jacks}{_unbraced(row)}",
                place=place,
                advice=_advice(opening, row),
            )


def _unbraced(row: HeaderSpan) -> str:
    """The footnote of the table for deep headers."""
    deep = profile(row.profile).depth_in >= profile("2x8").depth_in
    return "; 0.70 of it where cripples stand on the header and nothing holds its top sideways" if deep else ""


def _advice(opening: WallOpening, row: HeaderSpan) -> str:
    wide = opening.rough_width_in > row.span_in
    return "take a deeper header, and look up your snow load" if wide else f"write jacks: {row.jacks}"


def _rule(row: HeaderSpan) -> Rule:
    return Rule(
        id="header.span",
        words=f"{row.plies}-{row.profile} under {row.supporting} of a building up to {row.width_ft:.0f}' wide, at most",
        value=row.span_in,
        unit="in",
        section=row.section,
        edition=row.edition,
        source=row.source,
        how_known=row.how_known,
    )
