from __future__ import annotations

import pytest

from takeoff.plan.crossings import Segment, crossing


@pytest.mark.parametrize(
    ("first", "second", "at"),
    [
        (((0, 0), (10, 10)), ((0, 10), (10, 0)), (5, 5)),
        (((0, 0), (10, 0)), ((5, 0), (5, 9)), (5, 0)),
        (((0, 0), (10, 0)), ((4, 0), (6, 0)), (4, 0)),
        (((0, 0), (10, 0)), ((10, 0), (3, 0)), (3, 0)),
    ],
)
def test_sides_that_cross_touch_or_lie_on_each_other_share_a_point(
    first: Segment, second: Segment, at: tuple[float, float]
) -> None:
    assert crossing(first, second) == at
    assert crossing(second, first) == at


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (((0, 0), (10, 0)), ((10, 0), (10, 9))),
        (((0, 0), (10, 0)), ((10, 0), (20, 0))),
        (((0, 0), (10, 0)), ((0, 1), (10, 1))),
        (((0, 0), (10, 0)), ((12, 0), (20, 0))),
        (((0, 0), (10, 0)), ((5, 1), (5, 9))),
    ],
)
def test_neighbours_at_a_corner_and_sides_apart_share_none(first: Segment, second: Segment) -> None:
    assert crossing(first, second) is None
    assert crossing(second, first) is None
