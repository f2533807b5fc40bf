"""Level directions by the compass."""

from __future__ import annotations

import pytest

from takeoff.geometry.compass import compass


@pytest.mark.parametrize(
    ("x", "y", "point"),
    [(1, 0, "east"), (0, 1, "north"), (-1, 0, "west"), (0, -1, "south"), (2, -2, "south-east"), (10, 1, "east")],
)
def test_the_nearest_of_eight_points_is_told(x: float, y: float, point: str) -> None:
    assert compass(x, y) == point
