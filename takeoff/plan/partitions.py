"""Partitions, as the plan writes them: walls inside a building, each a run from one point to another."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from takeoff.plan.block import Block
from takeoff.plan.fields import Coordinate, Grade, LumberSize, Openings, SideName, Spacing, WallHeight, YesNo
from takeoff.plan.openings import WallOpening

Point = tuple[Coordinate, Coordinate]


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
    bearing: YesNo = False
    """Whether it carries something. Left out: no; then a flat ply of the studs' size is header enough."""
    openings: Annotated[tuple[WallOpening, ...], Openings] = ()
    """Its doors and cased openings, measured along it from the point `from`, seen with `from` at the left."""
