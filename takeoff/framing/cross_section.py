r"""A gable roof cut square to its ridge: what lies between two rafters that stand opposite each other.

Level distances c run from the outside of the first slope's wall to that of the second's, heights z from the deck.

                      peak
                    ,-'  '-,
                ,-'          '-,
            ,-'   ____________   '-,        a stick between the slopes: its ends cut to the tops of the rafters,
        ,-'     /______________\     '-,     or plumb where a wall or the block over it stands in the way
        |                               |
       c = 0                          span
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

from takeoff.geometry.polygon import cleaned
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import Vec, dot
from takeoff.model.member import SQUARE_ENDS, EndCut

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.framing.rafters import Placed
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.slope import Slope

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Half:
    """One slope in the section, c counted from its own wall."""

    top: float
    """Height of the rafters' tops over the outside of the wall [in]."""
    slope: float
    plumb_depth: float
    plate: float
    """Height of the wall [in]."""
    block: tuple[float, float]
    """Thickness and top of the blocks over the plate [in]; (0, 0) where there are none."""

    def at_top(self, z: float) -> float:
        """Where the rafters' tops pass a height."""
        return (z - self.top) / self.slope

    def at_underside(self, z: float) -> float:
        """Where their undersides pass it."""
        return (z + self.plumb_depth - self.top) / self.slope

    def inner_end(self, low: float, high: float) -> float:
        """How near to the wall's outside a stick between two heights may come: not into the block nor past the wall."""
        thickness, top = self.block
        return thickness if low < top - TOLERANCE.length and high > self.plate else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossStick:
    """A level stick between the slopes."""

    outline: Polygon
    """c and z [in]."""
    cuts: tuple[EndCut, EndCut]

    @property
    def reach(self) -> tuple[float, float]:
        """Its ends [in]: where it starts and stops across the building."""
        x0, _, x1, _ = self.outline.bounds
        return float(x0), float(x1)


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossSection:
    """Both slopes of a gable roof, and the ridge between them."""

    halves: tuple[Half, Half]
    span: float
    ridge_bottom: float
    """Height of the ridge's lower edge [in]."""
    across: Vec
    """Level unit vector from the first wall to the second."""
    along: Vec
    """Level unit vector along the ridge, up the layout of the first slope's wall, left to right."""

    @property
    def peak(self) -> Point:
        """Where the tops meet."""
        one, other = self.halves
        c = (other.top + self.span * other.slope - one.top) / (one.slope + other.slope)
        return c, one.top + c * one.slope

    @property
    def plates(self) -> tuple[float, float]:
        """Height of the lower and of the higher wall [in]."""
        one, other = sorted(half.plate for half in self.halves)
        return one, other

    def stick(self, low: float, depth: float) -> CrossStick | None:
        """A level stick between the slopes, its lower edge at a height; None where it has no room."""
        from shapely import Polygon, box

        one, other = self.halves
        c0, c1 = one.inner_end(low, low + depth), self.span - other.inner_end(low, low + depth)
        bottom = min(half.plate for half in self.halves) - depth
        ends = [(0.0, one.top), self.peak, (self.span, other.top)]
        under = Polygon([(0.0, bottom), (self.span, bottom), *reversed(ends)])
        if c1 <= c0:
            return None
        parts = cleaned(under.intersection(box(c0, low, c1, low + depth)))
        if len(parts) != 1 or parts[0].bounds[1] > low + TOLERANCE.length:
            return None
        sloped = (one.at_top(low) > c0 - TOLERANCE.length, self.span - other.at_top(low) < c1 + TOLERANCE.length)
        left, right = (
            _roof_cut(half, sign) if cut else square
            for half, sign, cut, square in zip(self.halves, (-1.0, 1.0), sloped, SQUARE_ENDS, strict=True)
        )
        return CrossStick(outline=parts[0], cuts=(left, right))

    def laps(self, placed: tuple[Placed, Placed], low: float, depth: float) -> bool:
        """Whether both rafters of a pair are there, whole, beside the ends of a stick."""
        for half, one in zip(self.halves, placed, strict=True):
            cut = one.cuts.geometry
            if cut.start > half.at_top(low) + TOLERANCE.length and cut.start > half.inner_end(low, low + depth):
                return False
            if cut.end < min(half.at_underside(low + depth), cut.run - cut.ridge_half) - TOLERANCE.length:
                return False
        return True


def _roof_cut(half: Half, sign: float) -> EndCut:
    """An end cut along the tops of the rafters."""
    across = hypot(1, half.slope)
    return EndCut((sign * half.slope / across, 1 / across, 0.0))


def cross_section(frame: RoofFrame) -> CrossSection:
    """The section of a roof of two slopes and one ridge; clips at its ends are not in it.

    Raises:
        ValueError: it is another roof.
    """
    (ridge,) = frame.ridges
    first, second = ridge.slopes
    one, other = frame.plan.slopes[first], frame.plan.slopes[second]
    x, y, _ = one.bench.placement.y
    level = hypot(x, y)
    across = (x / level, y / level, 0.0)
    apart = [b - a for a, b in zip(one.bench.placement.origin, other.bench.placement.origin, strict=True)]
    return CrossSection(
        halves=(_half(frame, one, first), _half(frame, other, second)),
        span=dot((apart[0], apart[1], 0.0), across),
        ridge_bottom=ridge.bottom,
        across=across,
        along=one.bench.placement.x,
    )


def _half(frame: RoofFrame, slope: Slope, index: int) -> Half:
    plate = frame.plan.line(slope.side).plate
    block = frame.blocking[index]
    return Half(
        top=slope.bench.placement.origin[2],
        slope=slope.common.slope,
        plumb_depth=slope.common.plumb_depth,
        plate=plate,
        block=(block.profile.thickness_in, plate + block.height) if block else (0.0, 0.0),
    )
