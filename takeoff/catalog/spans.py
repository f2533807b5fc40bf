"""Span ratings: how far apart the supports of a sheet may be on a roof."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from takeoff.catalog.table import read_table
from takeoff.catalog.unknown import UnknownItem


@dataclass(frozen=True, slots=True, kw_only=True)
class SpanRating:
    """A rating stamped on a sheet, strength axis across two or more spans, sheets 24 in or wider.

    Edge support is tongue and groove, blocking, or one clip midway between supports (two where those are 48 in apart).
    """

    name: str
    roof_supported_in: float
    """Greatest spacing of supports under a roof [in], the sheet's edges supported."""
    roof_unsupported_in: float
    """The same, the edges not supported."""


@cache
def span_ratings() -> tuple[SpanRating, ...]:
    """All span ratings, in the order of the table."""
    return tuple(
        SpanRating(
            name=row.text("span_rating"),
            roof_supported_in=row.number("roof_supported_in"),
            roof_unsupported_in=row.number("roof_unsupported_in"),
        )
        for row in read_table("span_ratings")
    )


def max_roof_span(span_rating: str, edge_support: bool) -> float:
    """Greatest spacing of supports under a roof [in].

    Args:
        span_rating: as stamped, such as ``40/20`` or ``24oc``.
        edge_support: whether the edges between supports are clipped, blocked, or tongue and groove.

    Raises:
        UnknownItem: no such rating.
    """
    for known in span_ratings():
        if known.name == span_rating:
            return known.roof_supported_in if edge_support else known.roof_unsupported_in
    raise UnknownItem("span rating", span_rating, (known.name for known in span_ratings()))
