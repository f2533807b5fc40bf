"""Partitions, as the plan writes them: walls inside a building, each a run from one point to another."""

from __future__ import annotations

from math import hypot
from typing import Annotated

from pydantic import Field

from takeoff.geometry.rake_line import RakeLine
from takeoff.plan.block import Block
from takeoff.plan.fields import Coordinate, Grade, LumberSize, Openings, SideName, Spacing, Tops, WallHeight, YesNo
from takeoff.plan.openings import WallOpening

Point = tuple[Coordinate, Coordinate]
TopCorner = tuple[Coordinate, WallHeight]


class Partition(Block):
    """A wall inside the building, from one point of its centre line to another.

    An end that lies in another wall is cut back to that wall's face, so that a partition may be written to the outline.
    """

    name: SideName
    """Its name, which no side and no other partition has."""
    start: Annotated[Point, Field(alias="from")]
    """Where its centre line begins, [x, y], in the coordinates of the outline."""
    end: Annotated[Point, Field(alias="to")]
    """Where its centre line ends, [x, y]."""
    studs: LumberSize = "2x4"
    """Size of studs and plates. Left out: 2x4."""
    spacing: Spacing | None = None
    """Spacing of studs, on centre. Left out: as the walls'."""
    grade: Grade | None = None
    """Grade of studs. Left out: as the walls'."""
    height: WallHeight | None = None
    """Bottom of the bottom plate to top of the cap plate. Left out: as the walls'."""
    top: Annotated[tuple[TopCorner, ...] | None, Tops] = None
    """Where its top is not level: corners [along, height] of the top of its plates, along from the point `from`; two at
    one place are a step. Beyond its ends the line runs on. Instead of `height`."""
    bearing: YesNo = False
    """Whether it carries something. Left out: no; then a flat ply of the studs' size is header enough."""

    def height_in(self, usual: float) -> float:
        """Its height where it is highest [in]; ``usual`` is that of the building's walls."""
        return max(v for _, v in self.top) if self.top else self.height or usual

    @property
    def steepest(self) -> float:
        """How much deeper than square its plates are plumb, where its top is steepest; 1 where it is level."""
        parts = RakeLine(points=self.top).parts if self.top else ()
        return max((hypot(1.0, (b[1] - a[1]) / (b[0] - a[0])) for a, b in parts), default=1.0)

    def lowest_in(self, extent: tuple[float, float], usual: float) -> float:
        """Height of its top where that is lowest between two places along it [in]."""
        if not self.top:
            return self.height_in(usual)
        line = RakeLine(points=self.top)
        return min(v for part in line.runs(extent) for _, v in part)

    openings: Annotated[tuple[WallOpening, ...], Openings] = ()
    """Its doors and cased openings, measured along it from the point `from`, seen with `from` at the left."""
