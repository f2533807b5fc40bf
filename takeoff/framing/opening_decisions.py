"""What was decided for openings in slopes: sizes, plies, and layout rafters that their trimmers stand for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.rules import rule
from takeoff.findings import Finding, Severity
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.slope_openings import SlopeOpening


def openings_decided(building: str, rows: Iterable[RafterRow]) -> Iterator[Finding]:
    """A note for each opening; one more where trimmers stand for rafters of the layout."""
    for row in rows:
        for opening in row.slope.openings:
            where = f"{row.slope.name}, {opening.what}"
            yield _note(building, opening, where, _framed_words(opening))
            if replaced := _replaced(row, opening):
                message = f"trimmers stand for {replaced} of the rafters on the layout, which have no room beside them"
                yield _note(building, opening, where, message)


def _replaced(row: RafterRow, opening: SlopeOpening) -> int:
    """How many rafters of the layout its trimmers take the place of."""
    thickness = row.profile.thickness_in
    return sum(any(abs(u - trimmer) < thickness for trimmer in opening.trimmers) for u in row.replaced)


def _note(building: str, opening: SlopeOpening, where: str, message: str) -> Finding:
    return Finding(
        rule="frame.opening",
        severity=Severity.NOTE,
        message=message,
        place=opening.written,
        building=building,
        where=where,
    )


def _framed_words(opening: SlopeOpening) -> str:
    width, height = opening.u[1] - opening.u[0], opening.v[1] - opening.v[0]
    stand = "plumb" if opening.plumb else "square to the slope"
    words = f"a rough opening {format_length(width)} wide and {format_length(height)} up the slope"
    if opening.clearance:
        words += f", {format_length(opening.clearance)} clear all round ({rule('chimney.clearance').section}, recalled)"
    words += f"; {opening.header.name} headers {stand}"
    single = rule("opening.single-header")
    if opening.plies > 1 and width <= single.value:
        return (
            f"{words}, doubled as the trimmers are; single ones are allowed up to {format_length(single.value)}"
            f" ({single.section}, recalled): write plies: 1"
        )
    return f"{words}; their size is a usual one, not a design"
