"""The arrow to the north on plans."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.sheets.drawing import LAYOUT, Item, Line, Point, Polyline, Text


def north_arrow(corner: Point, k: float) -> Iterator[Item]:
    """Beside the upper right corner of what is drawn; ``k`` is inches of the thing to a millimetre of paper."""
    x, tip = corner[0] + 8.0 * k, corner[1] - 4.0 * k
    foot, wing = tip - 11.0 * k, 1.4 * k
    yield Line((x, foot), (x, tip), LAYOUT)
    yield Polyline(((x - wing, tip - 3 * k), (x, tip), (x + wing, tip - 3 * k)), LAYOUT)
    yield Text(at=(x, tip + k), words="N", height_mm=3.0, anchor="middle", bold=True)
