"""The one display list that every drawing is recorded in, and replayed from into each kind of file.

Geometry is in inches in a view's own axes, y up. Lettering, offsets and weights are what the reader sees on paper,
in millimetres. Nothing here draws: ``svg`` and ``dxf`` do, from the same list.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

MM_PER_IN = 25.4
FIGURE_MM = 2.8
"""Height of a dimension's figure on paper [mm]."""
LABEL_MM = 2.0
"""Height of what a dimension is called [mm]."""

Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]
Level = Literal["base", "middle", "top"]
Lettering = Literal["along", "beside", "row", "after"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pen:
    """A layer of the drawing and how its lines look on paper."""

    layer: str
    weight_mm: float
    dashes_mm: tuple[float, ...] = ()
    """Lengths of dash and gap by turns; none for an unbroken line."""


OUTLINE = Pen(layer="OUTLINE", weight_mm=0.6)
EDGE = Pen(layer="EDGE", weight_mm=0.35)
HIDDEN = Pen(layer="HIDDEN", weight_mm=0.2, dashes_mm=(1.6, 1.0))
GUIDE = Pen(layer="GUIDE", weight_mm=0.25, dashes_mm=(4.0, 0.8, 0.8, 0.8))
LAYOUT = Pen(layer="LAYOUT", weight_mm=0.4)
DIMENSIONS = Pen(layer="DIMENSIONS", weight_mm=0.15)
BREAK = Pen(layer="BREAK", weight_mm=0.2)
WASTE = Pen(layer="WASTE", weight_mm=0.1)
LETTERS = Pen(layer="LETTERS", weight_mm=0.2)
FOLDS = Pen(layer="FOLDS", weight_mm=0.7)
RAFTERS = Pen(layer="RAFTERS", weight_mm=0.3)
SMALL = Pen(layer="SMALL", weight_mm=0.13)
EAVES = Pen(layer="EAVES", weight_mm=0.18)
WALLS = Pen(layer="WALLS", weight_mm=0.35, dashes_mm=(2.4, 1.2))
THIN = Pen(layer="THIN", weight_mm=0.12)

PENS = (
    OUTLINE,
    EDGE,
    HIDDEN,
    GUIDE,
    LAYOUT,
    DIMENSIONS,
    BREAK,
    WASTE,
    LETTERS,
    FOLDS,
    RAFTERS,
    SMALL,
    EAVES,
    WALLS,
    THIN,
)
"""All layers, in the order a reader meets them in a list of layers."""


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    a: Point
    b: Point
    pen: Pen


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straight lines through points; closed it is the outline of a piece, which may carry its mark."""

    points: tuple[Point, ...]
    pen: Pen
    closed: bool = False
    mark: str = ""
    covers: bool = False
    """White inside: what was drawn before is hidden behind it. A file for drafting shows it all the same."""


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle, counter-clockwise from ``start_deg`` to ``end_deg``, measured from the x axis."""

    centre: Point
    radius: float
    start_deg: float
    end_deg: float
    pen: Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of lettering. ``height_mm`` is that of a capital on paper; ``level`` says what of it is at ``at``."""

    at: Point
    words: str
    height_mm: float
    anchor: Anchor = "start"
    level: Level = "base"
    turned_deg: float = 0.0
    bold: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """The distance between two points, lettered in feet and inches as measured from the points themselves.

    ``offset_mm`` puts the dimension line to the left of the way from ``a`` to ``b``, negative to the right.
    ``lettering`` is ``along`` the line, level ``beside`` its middle, in a level ``row`` (label, then figure) near its
    start, or level ``after`` its end at ``b``.
    A length too short for its figure along it has the figure outside: at ``b``, or at ``a`` where ``outside_at_a``.
    """

    a: Point
    b: Point
    offset_mm: float
    label: str = ""
    lettering: Lettering = "along"
    outside_at_a: bool = False
    denominator: int = 16
    enlarged: float = 1.0
    """How many times its usual size its lettering and ticks have, to be read from a distance."""


@dataclass(frozen=True, slots=True)
class Hatch:
    """A polygon filled with slanting lines, each with its distance from the next on paper [mm]."""

    points: tuple[Point, ...]
    pen: Pen
    spacing_mm: float = 1.0
    clear: tuple[tuple[Point, ...], ...] = ()
    """Polygons left free of lines, for the lettering that stands in them."""


Item = Line | Polyline | Arc | Text | Dimension | Hatch


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A part of a drawing at one scale: one inch on paper is ``one_to`` inches of the thing."""

    name: str
    one_to: float
    items: tuple[Item, ...]
    origin_mm: Point = (0.0, 0.0)
    """Where its own origin stands on the paper, from the lower left corner [mm]."""

    @property
    def mm_per_in(self) -> float:
        """Paper millimetres to an inch of the thing."""
        return MM_PER_IN / self.one_to

    def to_paper(self, point: Point) -> Point:
        """From the view's axes [in] to the paper [mm], y up from the lower left corner."""
        k = self.mm_per_in
        return (self.origin_mm[0] + point[0] * k, self.origin_mm[1] + point[1] * k)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A title, a description for those who can't see it, and views on one piece of paper."""

    name: str
    """Short, for file names and ids: letters, digits and hyphens."""
    title: str
    description: str
    width_mm: float
    height_mm: float
    views: tuple[View, ...]
