"""Lengths and angles as they stand on the crew sheets."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor

from takeoff.measure import format_inches, format_length

_FOOT_IN = 12.0


@dataclass(frozen=True, slots=True)
class Figures:
    """Writes figures to one over ``denominator`` of an inch."""

    denominator: int

    def length(self, inches: float) -> str:
        """Feet and inches."""
        return format_length(inches, denominator=self.denominator)

    def inches(self, inches: float) -> str:
        """Inches alone, as a tape with no feet reads."""
        return format_inches(inches, denominator=self.denominator)

    def steps(self, level_in: float, step_in: float = _FOOT_IN) -> tuple[int, str]:
        """Whole steps of the square in a level length, each of ``step_in`` run, and the inches over."""
        near = 1 / (2 * self.denominator)  # less than this short of a step is a whole one
        steps = floor((level_in + near) / step_in)
        return steps, self.inches(max(0.0, level_in - steps * step_in))


def saw(deg: float) -> str:
    """An angle as a saw is set to it."""
    return f"{deg:.1f}°"


def fine(deg: float) -> str:
    """An angle to a hundredth of a degree."""
    return f"{deg:.2f}°"


@dataclass(frozen=True, slots=True)
class Labelled:
    """A figure with what it is called, and a remark where there is one."""

    label: str
    figure: str
    remark: str = ""
