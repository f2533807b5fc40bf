"""Walls, as the plan writes them and as they hold for one side."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from takeoff.catalog.profiles import profile
from takeoff.geometry.rake_line import RakeLine
from takeoff.model.face import AtOpenings
from takeoff.plan.block import Block
from takeoff.plan.by_name import ByName
from takeoff.plan.fields import (
    BoltDiameter,
    BoltSpacing,
    Coordinate,
    Distance,
    FrozenMapping,
    Grade,
    Level,
    LumberSize,
    Openings,
    Partitions,
    SheetName,
    SideName,
    Spacing,
    ThroughSides,
    Tops,
    WallHeight,
    WallHeightPoint,
    YesNo,
)
from takeoff.plan.openings import HeaderAt, Opening
from takeoff.plan.partitions import Partition, TopCorner

Frame = Literal["platform", "balloon"]
BottomCorner = tuple[Coordinate, Level]
DownTo = Literal["sill", "rim", "deck"]

PLATES = 2
"""Plates over the studs: top plate and cap plate."""


class WallSheathing(Block):
    """Sheathing of a wall."""

    product: SheetName
    """Sheet, such as osb-7/16."""
    down_to: DownTo | None = None
    """How far down the sheets of outside walls on a framed floor reach: over rim and mud sill, over the rim, or to the
    deck, so that the rim stays bare. Left out: sill; deck where the floor has an outline of its own."""
    at_openings: AtOpenings | None = None
    """run_past: whole sheets go over windows and doors, which are cut out afterwards. broken: sheets end at the sides
    of openings, smaller pieces go over and under them. The other way's price is told. Left out: run_past."""


class Sill(Block):
    """How walls stand on concrete."""

    plate: Literal["treated"] = "treated"
    """Bottom plates of treated lumber."""
    bolt: BoltDiameter = 0.5
    """Diameter of the anchor bolts. Left out: 1/2"."""
    bolts_apart: BoltSpacing = 72.0
    """Anchor bolts apart, at most. Left out: 6'."""
    gasket: YesNo = True
    """A gasket under the plates of the outside walls. Left out: yes."""


def _read_sill(value: object) -> object:
    """``sill: treated`` is short for a block of keys that states the plate."""
    return {"plate": value} if isinstance(value, str) else value


class Backing(Block):
    """Blocks between studs for what hangs on a wall: grab rails, cabinets, handrails."""

    wall: SideName
    """The side or the partition it is in."""
    height: WallHeightPoint
    """Middle of the blocks, from the bottom of the bottom plate."""
    start: Annotated[Distance, Field(alias="from")]
    """Where it begins along the wall, from its left end (of a side, seen from outside)."""
    end: Annotated[Distance, Field(alias="to")]
    """Where it ends."""
    size: LumberSize = "2x6"
    """Of the blocks, on edge and flush with the inside (in a partition, with its left-hand side). Left out: 2x6."""


class SideWalls(Block):
    """What one side has otherwise than the rest of the walls. Left out: as the rest."""

    height: WallHeight | None = None
    """Bottom of its bottom plate to top of its cap plate: for a roof that stands higher on one side."""
    frame: Frame | None = None
    """How this side is framed: platform, or balloon (studs run on to the rake; gable sides only)."""
    studs: LumberSize | None = None
    """Size of its studs and plates."""
    spacing: Spacing | None = None
    """Spacing of its studs, on centre."""
    grade: Grade | None = None
    """Grade of its studs."""
    sheathing: WallSheathing | None = None
    """Its sheathing."""
    rake_plates: YesNo | None = None
    """Whether a plate runs up the rake over its balloon-framed studs."""
    top: Annotated[tuple[TopCorner, ...] | None, Tops] = None
    """Where its plates are not level: corners [along, height] of the top of its plates, along from its left end seen
    from outside; two at one place are a step. Instead of `height`, and only where no rafters stand on the wall: in a
    platform-framed gable, whose studs over the plates run on to the rake, or on an abutment side, which has a wall of
    its own then, under the roof."""


class PonyWall(Block):
    """A low wall between a stepped foundation and the main floor, in place of a part of the mud sill."""

    bottom: Annotated[tuple[BottomCorner, ...], Tops]
    """Corners [along, height] of the top of the foundation under it: along from the left end of its side seen from
    outside, height above the deck and so below 0; level between steps, two corners at one place being a step. The wall
    runs from the first to the last of them."""
    spacing: Spacing | None = None
    """Spacing of its studs, on centre. Left out: as of the wall over it."""
    grade: Grade | None = None
    """Grade of its studs. Left out: as of the wall over it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WallSettings:
    """How one side's wall is built, everything decided."""

    height_in: float
    """Bottom of the bottom plate to top of the cap plate [in]."""
    studs: str
    spacing_in: float
    grade: str
    plates_grade: str
    frame: Frame
    sheathing: str | None
    """Sheet product; None where no sheathing is ordered."""
    down_to: DownTo | None
    """What its foot reaches, as the plan says."""
    at_openings: AtOpenings
    """How its sheets meet openings."""
    bearing_in: float
    """Width of what rafters stand on [in]: of its plates, or of a beam."""
    rake_plates: bool = False
    top: tuple[tuple[float, float], ...] | None = None
    """Corners of the top of its plates along it [in], where that is not level."""

    def top_line(self) -> RakeLine | None:
        """The top of its plates where that is not level."""
        return RakeLine(points=self.top) if self.top else None

    def plates_over(self, extent: tuple[float, float]) -> float:
        """Height of the underside of its plates where that is lowest between two places along it [in]."""
        line, thickness = self.top_line(), PLATES * profile(self.studs).thickness_in
        if line is None:
            return self.height_in - thickness
        return min(v for part in line.lowered(thickness).runs(extent) for _, v in part)


class Walls(Block):
    """The walls of a building."""

    height: WallHeight = 97.125
    """Bottom of the bottom plate to top of the cap plate. Left out: 8'-1 1/8" (92-5/8" studs and three plates)."""
    studs: LumberSize
    """Size of studs and plates, such as 2x6."""
    spacing: Spacing = 16.0
    """Spacing of studs, on centre. Left out: 16"."""
    grade: Grade = "stud"
    """Grade of studs. Left out: stud."""
    plates_grade: Grade = "no2"
    """Grade of plates. Left out: no2."""
    frame: Frame = "platform"
    """Platform: walls end at the plate, gables stand on it. Balloon: studs run on to the rake (gable sides only)."""
    rake_plates: YesNo = False
    """Whether a plate runs up the rake over balloon-framed studs, under the end rafters. Left out: no."""
    sheathing: WallSheathing | None = None
    """Sheathing. Left out: none is ordered."""
    openings: Annotated[tuple[Opening, ...], Openings] = ()
    """Windows, doors and cased openings."""
    header_at: HeaderAt = "head"
    """Where headers are: head, on their openings; or plates, hung high under the plates, on longer jacks with a flat
    plate and cripples at the head. Left out: head."""
    partitions: Annotated[tuple[Partition, ...], Partitions] = ()
    """Walls inside the building. Where one ends in another wall, that wall gets backing for it."""
    backing: Annotated[tuple[Backing, ...], Partitions] = ()
    """Blocks between studs, for what is hung on the walls later."""
    corner_posts: Literal["two-stud", "three-stud", "four-stud"] = "three-stud"
    """Studs of a corner, its two end studs among them; with two, clips hold the inside finish. Left out: three-stud."""
    through: Annotated[tuple[SideName, ...], ThroughSides] = ()
    """Sides whose walls run through at corners with others alike, as of a hip roof. Left out: every other one. Walls
    that carry rafters run through beside gables always."""
    tees: Literal["channel", "blocks"] = "channel"
    """Behind the end of a partition: a channel of three studs, or blocks 24" apart. Left out: channel."""
    sill: Annotated[Sill | None, BeforeValidator(_read_sill, json_schema_input_type=Sill | str | None)] = None
    """On concrete: treated bottom plates, gasket and anchor bolts. Left out: the walls stand on a wooden floor."""
    by_side: Annotated[Mapping[SideName, SideWalls], *FrozenMapping] = Field(default_factory=lambda: ByName({}))
    """What single sides have otherwise, by the side's name."""
    pony: Annotated[Mapping[SideName, PonyWall], *FrozenMapping] = Field(default_factory=lambda: ByName({}))
    """Pony walls under the main floor where the foundation steps down, by the side's name. Left out: none."""

    def for_side(self, name: str) -> WallSettings:
        """How the wall of one side is built.

        Args:
            name: of the side; one that isn't under ``by_side`` has what all walls have.
        """
        own = self.by_side.get(name, SideWalls())
        sheathing = own.sheathing or self.sheathing
        return WallSettings(
            height_in=max(v for _, v in own.top) if own.top else own.height or self.height,
            top=own.top,
            studs=own.studs or self.studs,
            spacing_in=own.spacing or self.spacing,
            grade=own.grade or self.grade,
            plates_grade=self.plates_grade,
            frame=own.frame or self.frame,
            sheathing=sheathing.product if sheathing else None,
            down_to=sheathing.down_to if sheathing else None,
            at_openings=next(
                (one.at_openings for one in (own.sheathing, self.sheathing) if one and one.at_openings), "run_past"
            ),
            rake_plates=self.rake_plates if own.rake_plates is None else own.rake_plates,
            bearing_in=profile(own.studs or self.studs).depth_in,
        )
