"""How few sheets there can be, however the pieces are cut: a bound by dual feasible functions.

A function of a length that never adds up to more than its worth of the whole where the lengths fit into the whole may
stand for the length. With one such function along the sheet and one across it, the products of a sheet's pieces add up
to no more than that of the sheet, whatever the cutting, guillotine or not. So the sum over all pieces, over the worth
of a sheet, is a bound; the best of many pairs is taken. The area bound is the pair that leaves lengths as they are.

Sources
    Fekete and Schepers, New classes of fast lower bounds for bin packing problems, Mathematical Programming 91 (2001).
    Carlier, Clautiaux and Moukrim, New reduction procedures and lower bounds for the two-dimensional bin packing
    problem with fixed orientation, Computers and Operations Research 34 (2007).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from math import ceil, floor

from takeoff.cutting.sheet.shape import Point, Shape

MOST_SHARES = 8
"""Largest k of the rounding functions."""

_QUARTERS = 4
"""Heights of a slanted shape are tried in quarters for the rectangle in it."""


def fewest_sheets(shapes: Sequence[Shape], wanted: Sequence[int], sheet: tuple[int, int], excess: int = 0) -> int:
    """A number of sheets that no cutting of the shapes goes below.

    A shape with a notch counts as the rectangle it is cut as; one with slanted ends as a rectangle in it.

    Args:
        shapes: to be cut, in their poses but for half turns and flips.
        wanted: how many of each.
        sheet: length and width of the largest sheet [steps].
        excess: what the kerf takes beyond the gap [steps]; pieces and sheet are larger by it, as in `sheet_groups`.
    """
    import numpy as np

    if not shapes:
        return 0
    length, width = (side + excess for side in sheet)
    boxes = [(x + excess, y + excess) for x, y in map(inner_rectangle, shapes)]
    along, along_whole = _images(length, [x for x, _ in boxes])
    across, across_whole = _images(width, [y for _, y in boxes])
    sums = (np.array(along, dtype=np.int64) * np.array(wanted, dtype=np.int64)) @ np.array(across, dtype=np.int64).T
    wholes = np.outer(np.array(along_whole, dtype=np.int64), np.array(across_whole, dtype=np.int64))
    return int((-(-sums // wholes)).max())


def inner_rectangle(shape: Shape) -> tuple[int, int]:
    """Length and width of a large rectangle in a shape, along its axes."""
    if not shape.corners:
        return shape.length, shape.width
    found = [(0, 0)]
    levels = [shape.width * k // _QUARTERS for k in range(_QUARTERS + 1)]
    for low in levels:
        for high in (level for level in levels if level > low):
            ends = [_chord(shape.corners, y) for y in (low, high)]  # convex: what is in both is in all between
            left, right = max(x for x, _ in ends), min(x for _, x in ends)
            found.append((max(0, floor(right) - ceil(left)), high - low))
    return max(found, key=lambda size: size[0] * size[1])


def _chord(corners: Sequence[Point], y: int) -> tuple[Fraction, Fraction]:
    """From where to where a convex shape runs at a height."""
    crossed: list[Fraction] = []
    for k, (bx, by) in enumerate(corners):
        ax, ay = corners[k - 1]
        if ay == by == y:
            crossed += [Fraction(ax), Fraction(bx)]
        elif min(ay, by) <= y <= max(ay, by) and ay != by:
            crossed.append(ax + Fraction((bx - ax) * (y - ay), by - ay))
    return (min(crossed), max(crossed)) if crossed else (Fraction(0), Fraction(0))


Dual = tuple[Callable[[int], int], int]
"""A function of a length, and what the whole is worth in it."""


def duals(whole: int, sizes: Iterable[int]) -> Iterator[Dual]:
    """Dual feasible functions for lengths that are cut from a whole; ``sizes`` gives their parameters."""
    yield lambda x: x, whole
    for k in range(1, MOST_SHARES + 1):
        yield _rounded(whole, k), whole * k
    for least in sorted({size for size in (*sizes, *(whole - size for size in sizes)) if 0 < 2 * size <= whole}):
        yield _thresholds(whole, least), whole
        yield _counted(whole, least), 2 * (whole // least)


def _rounded(whole: int, k: int) -> Callable[[int], int]:
    """Fekete and Schepers, u(k): so many (k + 1)ths of the whole, rounded down, of k; what is whole stays as it is."""
    return lambda x: x * k if (k + 1) * x % whole == 0 else (k + 1) * x // whole * whole


def _thresholds(whole: int, least: int) -> Callable[[int], int]:
    """Carlier, Clautiaux and Moukrim, f0: what leaves no room for the least is the whole, what is less is nothing."""
    return lambda x: whole if x > whole - least else x if x >= least else 0


def _counted(whole: int, least: int) -> Callable[[int], int]:
    """Carlier, Clautiaux and Moukrim, f2: how often the least goes into it, or no longer goes beside it."""
    most = whole // least

    def value(x: int) -> int:
        if 2 * x > whole:
            return 2 * (most - (whole - x) // least)
        return most if 2 * x == whole else 2 * (x // least)

    return value


def _images(whole: int, lengths: Sequence[int]) -> tuple[list[list[int]], list[int]]:
    """The lengths in every function, and the whole in it."""
    found = [(tuple(map(function, lengths)), worth) for function, worth in duals(whole, lengths)]
    kept = [(values, worth) for values, worth in dict.fromkeys(found) if worth > 0]
    return [list(values) for values, _ in kept], [worth for _, worth in kept]
