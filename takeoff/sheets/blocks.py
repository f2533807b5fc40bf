"""Parts of a drawing as blocks of paper: each at the largest scale at which it goes into the room it has."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from takeoff.sheets.drawing import MM_PER_IN, Drawing, Item, Text, View
from takeoff.sheets.extent import extent

WIDTH_MM = 190.0
"""Width of a drawing: a letter page less its margins [mm]."""

GAP_MM = 6.0
"""Between blocks [mm]."""

MARGIN_MM = 1.0
"""Around a drawing [mm]."""

SCALES = (1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 24.0, 32.0, 48.0, 64.0, 96.0, 128.0, 192.0, 256.0)
"""Inches of the thing to an inch of paper, largest drawing first."""

_CAPTION_MM = 2.4

Build = Callable[[float], tuple[Item, ...]]
"""Makes the items of a part for a scale."""


@dataclass(frozen=True, slots=True)
class Part:
    """Something to be drawn: its name, what stands under it, and what makes its items."""

    name: str
    caption: str
    build: Build


@dataclass(frozen=True, slots=True)
class Block:
    """Items at a scale, with the paper they cover [mm, from their own origin]."""

    view: View
    left: float
    low: float
    right: float
    high: float

    @property
    def wide(self) -> float:
        """Paper it covers from left to right [mm]."""
        return self.right - self.left

    @property
    def tall(self) -> float:
        """Paper it covers from top to bottom [mm]."""
        return self.high - self.low

    def placed(self, left: float, top: float) -> View:
        """Its view, its upper left corner at that point of the paper [mm]."""
        return replace(self.view, origin_mm=(left - self.left, top - self.high))


@dataclass(frozen=True, slots=True)
class Placed:
    """A block with where its upper left corner stands, right of and over the paper's upper left [mm]."""

    block: Block
    x: float
    y: float

    def lowered(self, mm: float) -> Placed:
        """The same, further down the paper."""
        return replace(self, y=self.y - mm)


def block(part: Part, one_to: float) -> Block:
    """A part at one scale, captioned."""
    k = one_to / MM_PER_IN
    items = part.build(one_to)
    drawn = extent(items, one_to)
    x0, y0 = drawn[:2]
    words = f"{part.caption}, 1:{one_to:.0f}"
    caption = Text(at=(x0, y0 - 4.0 * k), words=words, height_mm=_CAPTION_MM, level="top", bold=True)
    under = extent((caption,), one_to)
    left, low = (min(drawn[side], under[side]) / k for side in (0, 1))
    right, high = (max(drawn[side], under[side]) / k for side in (2, 3))
    return Block(View(name=part.name, one_to=one_to, items=(*items, caption)), left, low, right, high)


def fitted(part: Part, width_mm: float, height_mm: float, *, least: float = SCALES[0]) -> Block:
    """A part at the largest scale at which it goes into that much paper, none larger than one to ``least``.

    Raises:
        ValueError: there is none.
    """
    made = first_fit(part, width_mm, height_mm, least=least)
    if made is None:
        raise ValueError(f"{part.name} is too large for any scale")
    return made


def first_fit(part: Part, width_mm: float, height_mm: float, *, least: float) -> Block | None:
    """As `fitted`; None where there is no such scale.

    What doesn't go in at a scale doesn't at a larger one, so the scales are halved, not gone through.
    """
    found: Block | None = None
    low, high = bisect_left(SCALES, least), len(SCALES)
    while low < high:
        middle = (low + high) // 2
        made = block(part, SCALES[middle])
        if made.wide <= width_mm and made.tall <= height_mm:
            found, high = made, middle
        else:
            low = middle + 1
    return found


def alone(part: Part, one_to: float, *, name: str, title: str, description: str) -> Drawing:
    """A drawing of one part at one scale, in the middle of the paper's width."""
    made = block(part, one_to)
    height = made.tall + 2 * MARGIN_MM
    return Drawing(
        name=name,
        title=title,
        description=description,
        width_mm=WIDTH_MM,
        height_mm=height,
        views=(made.placed(max(0.0, (WIDTH_MM - made.wide) / 2), height - MARGIN_MM),),
    )


def height_of(placed: Sequence[Placed]) -> float:
    """Height of a drawing with these blocks, margins included [mm]."""
    return 2 * MARGIN_MM - min(one.y - one.block.tall for one in placed)
