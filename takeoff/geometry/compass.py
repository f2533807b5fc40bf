"""Directions in plan by the compass, x being east and y north."""

from __future__ import annotations

from math import atan2, degrees

_POINTS = ("east", "north-east", "north", "north-west", "west", "south-west", "south", "south-east")


def compass(x: float, y: float) -> str:
    """The nearest of the eight points of the compass that a level direction goes to."""
    return _POINTS[round(degrees(atan2(y, x)) / 45) % len(_POINTS)]
