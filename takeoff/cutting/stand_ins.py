"""Which sheets do for pieces of another product: what is left of the better grade goes into the field."""

from __future__ import annotations

from functools import cache

from takeoff.catalog.sheets import sheet_product
from takeoff.catalog.spans import max_roof_span
from takeoff.model.face import Cover


@cache
def stands_in(cover: Cover) -> bool:
    """Whether pieces of the field may be cut from sheets of the exposed grade as well.

    They must be another product, as thick, laid with the same gap, and reach as far between supports: then a piece of
    the better grade is as good where nobody sees it.
    """
    exposed, field = sheet_product(cover.exposed), sheet_product(cover.field)
    return (
        exposed != field
        and (exposed.thickness_in, exposed.gap_in) == (field.thickness_in, field.gap_in)
        and not exposed.for_floors
        and all(
            max_roof_span(exposed.span_rating, edge_support=support)
            >= max_roof_span(field.span_rating, edge_support=support)
            for support in (False, True)
        )
    )
