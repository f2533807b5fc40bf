"""Published spans of floor joists."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from takeoff.catalog.table import read_table


@dataclass(frozen=True, slots=True, kw_only=True)
class JoistSpan:
    """Clear span of one size and spacing in one species, under 40 psf live and 10 psf dead load."""

    species: str
    grade: str
    profile: str
    spacing_in: float
    clear_span_in: float
    how_known: str


@cache
def joist_spans() -> tuple[JoistSpan, ...]:
    """All spans, in the order of the table."""
    return tuple(
        JoistSpan(
            species=row.text("species"),
            grade=row.text("grade"),
            profile=row.text("profile"),
            spacing_in=row.number("spacing_in"),
            clear_span_in=row.number("clear_span_in"),
            how_known=row.how_known,
        )
        for row in read_table("joist_spans")
    )


def joist_spans_for(profile: str, grade: str, spacing_in: float) -> tuple[JoistSpan, ...]:
    """Spans of a size and grade at the next wider spacing of the table, a row a species; none where it has none."""
    known = [s for s in joist_spans() if s.profile == profile and s.grade == grade and s.spacing_in >= spacing_in]
    nearest = min((s.spacing_in for s in known), default=0.0)
    return tuple(s for s in known if s.spacing_in == nearest)
