"""Positions along a line, moved apart just enough for what is written at them."""

from __future__ import annotations

from collections.abc import Sequence


def spread(positions: Sequence[float], pitch: float) -> list[float]:
    """Positions, in order, moved apart as little as will keep each ``pitch`` from the next.

    Clusters that would touch are pooled and set out about their common middle.
    """
    pools: list[tuple[float, int]] = []  # start if it stood alone at ``pitch``, and how many
    for position in positions:
        start, count = position, 1
        while pools and pools[-1][0] + pools[-1][1] * pitch > start:
            before, many = pools.pop()
            # Least squares: each member asks for its own start of the pool; the pool takes their mean.
            start = (before * many + (start - many * pitch) * count) / (many + count)
            count += many
        pools.append((start, count))
    return [start + index * pitch for start, count in pools for index in range(count)]
