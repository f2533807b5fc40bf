"""Whole numbers to cut by: sixteenths of an inch and cents."""

from __future__ import annotations

from math import ceil, floor

from takeoff.geometry.tolerance import TOLERANCE

STEPS_PER_IN = 16
"""A saw works to no finer a line than a sixteenth of an inch."""


def steps_up(length_in: float) -> int:
    """Steps that hold a length [in]: for pieces and kerfs."""
    return ceil((length_in - TOLERANCE.length) * STEPS_PER_IN)


def steps_down(length_in: float) -> int:
    """Whole steps in a length [in]: for what pieces are cut from."""
    return floor((length_in + TOLERANCE.length) * STEPS_PER_IN)


def inches(steps: int) -> float:
    """Length of a number of steps [in]."""
    return steps / STEPS_PER_IN


def cents(usd: float) -> int:
    """A price in cents, half up."""
    return floor(usd * 100 + 0.5)


def holds(stock_length_in: float, length_in: float) -> bool:
    """Whether one piece of a length can be cut from stock of a length [in]; flush is enough."""
    return steps_up(length_in) <= steps_down(stock_length_in)


def whole_feet_up(length_in: float) -> float:
    """The next whole foot [in]: what a stick is asked for in when none on sale is long enough."""
    return 12.0 * ceil(steps_up(length_in) / (12 * STEPS_PER_IN))


def is_whole_feet(length_in: float) -> bool:
    """Whether a stick is sold by the foot; a precut one is made to the length of what it is for."""
    return steps_down(length_in) % (12 * STEPS_PER_IN) == 0
