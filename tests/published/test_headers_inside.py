"""IRC 2018/2021 Table R602.7(2), one floor only: cells as two public transcriptions of the table have them."""

from __future__ import annotations

import pytest

from takeoff.catalog.header_spans import ONE_FLOOR, header_span


@pytest.mark.parametrize(
    ("plies", "profile", "width_ft", "span_in", "jacks"),
    [
        (2, "2x4", 12, 49, 1),  # 4-1
        (2, "2x10", 24, 78, 2),  # 6-6
        (2, "2x4", 36, 28, 1),  # 2-4
        (2, "2x6", 36, 42, 1),  # 3-6
        (2, "2x8", 36, 53, 2),  # 4-5
        (2, "2x10", 36, 63, 2),  # 5-3
        (2, "2x12", 36, 75, 2),  # 6-3
        (3, "2x8", 36, 67, 1),  # 5-7
        (3, "2x10", 36, 79, 2),  # 6-7
        (3, "2x12", 36, 93, 2),  # 7-9
    ],
)
def test_a_header_inside_spans_what_the_table_prints(
    plies: int, profile: str, width_ft: int, span_in: float, jacks: int
) -> None:
    row = header_span(plies, profile, width_in=12.0 * width_ft, snow_psf=0.0, supporting=ONE_FLOOR)
    assert row is not None
    assert (row.span_in, row.jacks) == (span_in, jacks)
