"""The tolerances of the program, in one place."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Tolerance:
    """How near is the same. Lengths [in], areas [sq in]."""

    length: float = 1e-6
    """Two points this near are one point: far under anything a saw can do, far above float noise."""

    area: float = 1e-6
    """Two areas this near are equal; a polygon smaller than this is none."""

    mark: float = 1 / 32
    """Pieces alike to this length share a mark."""


TOLERANCE = Tolerance()
