"""Best-fit: each width in turn goes where it leaves the least rest; where it fits nowhere, a bin is opened for it."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Callable, Sequence


def best_fit(widths: Sequence[int], open_bin: Callable[[int], int]) -> tuple[tuple[int, ...], ...]:
    """Bins, each with the positions in ``widths`` of what it holds.

    Args:
        widths: widest first, for the fit to be good.
        open_bin: capacity of the bin to open for the width at a position; it must hold that width.

    Source:
        Best-fit decreasing: Johnson, Near-optimal bin packing algorithms, 1973.
    """
    bins: list[list[int]] = []
    rests: list[tuple[int, int]] = []  # rest and number of each bin, least rest first
    for position, width in enumerate(widths):
        at = bisect_left(rests, (width, 0))
        if at < len(rests):
            rest, number = rests.pop(at)
        else:
            rest, number = open_bin(position), len(bins)
            bins.append([])
        bins[number].append(position)
        insort(rests, (rest - width, number))
    return tuple(tuple(positions) for positions in bins)
