"""Fittings: hardware that no joint of two sticks tells of."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fitting:
    """So many of one kind of hardware in one building; what goes by length is counted in feet, begun ones whole."""

    name: str
    qty: int
