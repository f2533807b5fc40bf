"""Published spans of headers in bearing walls, by what they carry, ground snow load and width of the building."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from takeoff.catalog.table import read_table

ROOF = "roof and ceiling"
ROOF_AND_FLOOR = "roof, ceiling and one center-bearing floor"
ONE_FLOOR = "one floor only"
"""What a wall inside carries."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeaderSpan:
    """How wide an opening a header may span, and on how many jacks."""

    supporting: str
    snow_psf: float
    width_ft: float
    """Of the building, across the ridge [ft]."""
    plies: int
    profile: str
    span_in: float
    """Of the opening, at most [in]."""
    jacks: int
    """At each end, at least."""
    section: str
    edition: str
    source: str
    how_known: str


@cache
def header_spans() -> tuple[HeaderSpan, ...]:
    """All rows, in the order of the table."""
    return tuple(
        HeaderSpan(
            supporting=row.text("supporting"),
            snow_psf=row.number("ground_snow_psf"),
            width_ft=row.number("building_width_ft"),
            plies=row.whole("plies"),
            profile=row.text("profile"),
            span_in=row.inches("span_in"),
            jacks=row.whole("jacks"),
            section=row.text("section"),
            edition=row.text("edition"),
            source=row.source,
            how_known=row.how_known,
        )
        for row in read_table("header_spans")
    )


def header_span(
    plies: int, profile: str, *, width_in: float, snow_psf: float = 30.0, supporting: str = ROOF
) -> HeaderSpan | None:
    """The row for a header in a wall that bears; None where the table has none.

    Args:
        plies: of the header.
        profile: of one ply.
        width_in: of the building across the ridge [in]; the next wider column holds.
        snow_psf: ground snow load [psf]; the next heavier column holds.
        supporting: what it carries, in the words of the table.
    """
    fits = [
        row
        for row in header_spans()
        if (row.supporting, row.plies, row.profile) == (supporting, plies, profile)
        and row.width_ft * 12 >= width_in
        and row.snow_psf >= snow_psf
    ]
    return min(fits, key=lambda row: (row.snow_psf, row.width_ft), default=None)
