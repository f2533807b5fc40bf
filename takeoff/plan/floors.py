"""Floors, as the plan writes them: the main floor's platform and lofts over part of the building."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from takeoff.catalog.grades import grades_for
from takeoff.catalog.profiles import Kind, profile
from takeoff.plan.block import Block
from takeoff.plan.fields import (
    Coordinate,
    Corners,
    Distance,
    Grade,
    HeaderField,
    LumberSize,
    Name,
    OpeningSize,
    SheetName,
    SideName,
    Spacing,
    WallHeight,
    YesNo,
    missing,
    refusal,
)

Point = tuple[Coordinate, Coordinate]

WAYS = ("north-south", "east-west")
"""Words for the way that joists run; the name of a side is the other one."""


class Joists(Block):
    """Joists of a floor."""

    size: LumberSize
    """Size, such as 2x10, i-joist-11-7/8 or open-web-14."""
    spacing: Spacing = 16.0
    """On centre. Left out: 16"."""
    grade: Grade | None = None
    """Grade. Left out: no2, or what the size is made in."""
    span: SideName | None = None
    """Which way they run: north-south, east-west, or along the side of that name. Left out: the shorter way."""

    @property
    def made_of(self) -> str:
        """Grade as written, or the usual one."""
        return self.grade or usual_grade(self.size)


def usual_grade(size: str) -> str:
    """No. 2 of sawn lumber; of anything else the first material it is made in, of rims strand lumber."""
    known = profile(size)
    if known.kind is Kind.ENGINEERED:
        return "lsl"
    names = [grade.name for grade in grades_for(known)]
    if known.kind is Kind.PREFAB:
        return next(name for name in names if size.startswith(name))
    return "no2" if "no2" in names else names[0]


class Girder(Block):
    """A girder or beam that carries joists, level and across them."""

    start: Annotated[Point, Field(alias="from")]
    """Where its centre line starts, [x, y]."""
    end: Annotated[Point, Field(alias="to")]
    """Where its centre line ends, [x, y]."""
    size: HeaderField
    """Plies and size, such as 3-2x10, or 5-1/2x14."""
    grade: Grade = "no2"
    """Grade or material, such as no2 or glulam. Left out: no2."""
    joists: Literal["over", "hang"] = "over"
    """Joists lie over it, or hang on its faces. Left out: over."""
    posts: tuple[Distance, ...] = ()
    """Middles of its posts, from `from` along it. Left out: none."""
    post: LumberSize = "4x4"
    """Size of its posts. Left out: 4x4."""


class LoftBeam(Block):
    """The beam along the free edge of a loft that is written by side and depth."""

    size: HeaderField
    """Plies and size, such as 3-2x10, or 5-1/2x14."""
    grade: Grade = "no2"
    """Grade or material. Left out: no2."""
    joists: Literal["over", "hang"] = "hang"
    """Joists lie over it, or hang on its face. Left out: they hang."""
    posts: tuple[Distance, ...] = ()
    """Middles of its posts, from its left end seen from the side the loft lies on. Left out: none."""
    post: LumberSize = "4x4"
    """Size of its posts. Left out: 4x4."""


class FloorOpening(Block):
    """An opening in a floor, by its rough size."""

    kind: Literal["stair", "hatch"] = "stair"
    """What it is for. Left out: stair."""
    corner: Point
    """Its corner with the least x and y, [x, y]."""
    size: tuple[OpeningSize, OpeningSize]
    """Its extent along x and along y, [x, y]."""
    plies: Literal[1, 2] = 2
    """Plies of each header, and trimmers at each side. Left out: 2."""


class Doubled(Block):
    """A line that joists are doubled on, as under a partition that runs their way."""

    start: Annotated[Point, Field(alias="from")]
    """Where it starts, [x, y]."""
    end: Annotated[Point, Field(alias="to")]
    """Where it ends, [x, y]."""


class FloorBlocking(Block):
    """Rows of blocks between joists."""

    rows: Literal["auto", "none"] | Annotated[int, Field(ge=0, le=5)] = "auto"
    """Rows in each span; auto puts them where depth to thickness asks for it. Left out: auto."""
    over_girders: bool = False
    """A row over each girder that joists lie on. Left out: none."""
    bridging: Literal["blocks", "cross"] = "blocks"
    """What stands in the rows between the bearings: blocks as deep as the joists, or steel cross bridging, which is
    counted by the pair. Left out: blocks."""
    under_partitions: Literal["doubled", "blocks"] = "doubled"
    """Under partitions that run along the joists and bear nothing: doubled joists, or blocks between the two joists
    beside, as far apart as the joists are. Bearing ones stand on doubled joists. Left out: doubled."""


class Floor(Block):
    """What all floors have."""

    joists: Joists
    """Joists."""
    girders: tuple[Girder, ...] = ()
    """Girders and beams that carry joists between the walls."""
    splice: Literal["butt", "lap", "none"] = "butt"
    """What joists do over a girder: butt on its middle, lap side by side, or run on as far as stock reaches. Left out:
    butt."""
    openings: tuple[FloorOpening, ...] = ()
    """Stairs and hatches."""
    doubled: tuple[Doubled, ...] = ()
    """Lines that joists are doubled on."""
    rim: LumberSize | None = None
    """Size of the rim. Left out: the joists', or strand lumber of their depth round prefabricated ones."""
    blocking: FloorBlocking = FloorBlocking()
    """Rows of blocks."""
    deck: SheetName = "tg-23/32"
    """Sheets of the deck. Left out: tg-23/32, tongue and groove."""
    glue: YesNo = True
    """Glue between joists and deck, counted by the foot. Left out: yes."""

    @property
    def rim_size(self) -> str:
        """Size of the rim as written or decided."""
        if self.rim:
            return self.rim
        joist = profile(self.joists.size)
        return f"1-1/4x{self.joists.size.split('-', 2)[-1]}" if joist.kind is Kind.PREFAB else joist.name


class MainFloor(Floor):
    """The platform that the walls stand on, its deck at height 0."""

    outline: Annotated[tuple[Point, ...] | None, Corners] = None
    """Corners [x, y], where it is not the building's outline: beyond it joists reach out over the sill."""
    sill: LumberSize | Literal["none"] = "2x6"
    """Treated mud sill on the foundation under the building's outline. Left out: 2x6."""
    footing: Coordinate | None = None
    """Height of the tops of the piers under girders' posts, below 0. Left out: no posts are framed there."""


class Loft(Floor):
    """A floor over part of the building, inside its walls."""

    name: Name = "loft"
    """What it is called; no two have the same name. Left out: loft."""
    height: WallHeight
    """Top of its deck above the main floor deck."""
    outline: Annotated[tuple[Point, ...] | None, Corners] = None
    """Corners [x, y]; give this, or `side` and `depth`. What lies in the walls is cut off."""
    side: SideName | None = None
    """The side that it lies along."""
    depth: Distance | None = None
    """How far it reaches from the outside of that side's wall framing."""
    walls: Literal["hang", "bear", "plates"] = "hang"
    """At the walls joists hang on the face of a ledger, bear on top of one, or lie on the plates of walls that end
    under them. Left out: they hang."""
    beam: LoftBeam | None = None
    """Beam along the edge opposite `side`."""

    @model_validator(mode="after")
    def _placed(self) -> Self:
        if self.outline is None and self.side is None:
            raise missing("outline", "outline, or side and depth, to place it")
        if self.outline is not None and (self.side is not None or self.depth is not None):
            raise refusal("one of the two", found="an outline beside side and depth")
        if self.side is not None and self.depth is None:
            raise missing("depth", "depth, how far it reaches from that side")
        if self.beam is not None and self.side is None:
            raise refusal("beam beside side and depth only; elsewhere write girders", found="beam beside an outline")
        return self


class Floors(Block):
    """Floors of a building."""

    main: MainFloor | None = None
    """The platform under the walls. Left out: none is framed."""
    lofts: tuple[Loft, ...] = ()
    """Lofts."""
