"""Layout lines: what a tape pulls on a plate, a ridge or a beam."""

from __future__ import annotations

from dataclasses import dataclass

from takeoff.geometry.vec import Vec, add, scale, unit


@dataclass(frozen=True, slots=True)
class LayoutMark:
    """One mark: the centre of a member, or the edge of an opening, from the line's start [in]."""

    position_in: float
    symbol: str
    what: str


@dataclass(frozen=True, slots=True)
class Tape:
    """Where a line lies in the world: inside the stick that is marked, from the end that the tape is hooked on."""

    start: Vec
    along: Vec
    """Unit direction; level, or up a slope."""
    toward: Vec | None = None
    """Level direction in which the sticks lie that it is for; None where they lie on both sides, or stand."""

    @classmethod
    def toward_point(cls, start: Vec, other: Vec) -> Tape:
        """From a point toward another, for sticks on both sides."""
        return cls(start, unit(add(other, scale(start, -1.0))))

    def at(self, position_in: float) -> Vec:
        """The point so far along it."""
        return add(self.start, scale(self.along, position_in))


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutLine:
    """A member that carries others, with its marks in order from the end that ``start`` names."""

    name: str
    start: str
    length_in: float
    marks: tuple[LayoutMark, ...]
    load: int = 2
    """With which delivery it is pulled: 1 for walls and floors, 2 for the roof's frame."""
    tape: Tape | None = None
    """Where it lies; None where nobody asks."""
