"""The plan: what a builder writes, as frozen values. Lengths are inches once read."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal, Self

from pydantic import BeforeValidator, Field, PrivateAttr

from takeoff.catalog.waste import default_waste_pct
from takeoff.plan.block import Block
from takeoff.plan.book import Book
from takeoff.plan.by_name import ByName
from takeoff.plan.drawing_in.settings import DrawnOutline
from takeoff.plan.fields import (
    Buildings,
    Coordinate,
    Corners,
    Count,
    FrozenMapping,
    JobName,
    Kerf,
    Leftover,
    LengthCount,
    Name,
    Percent,
    Pounds,
    PriceFile,
    SideName,
    SideNames,
    SnowLoad,
    Trim,
    WasteCategory,
)
from takeoff.plan.floors import Floors
from takeoff.plan.outlines import Outlines
from takeoff.plan.roof import Roof
from takeoff.plan.walls import Walls

Point = tuple[Coordinate, Coordinate]

OrDrawn = BeforeValidator(lambda value: value, json_schema_input_type=tuple[Point, ...] | DrawnOutline)
"""Mark of an outline that a drawing may give: by the time it is read, the drawing's corners stand there."""


LEAST_SNOW_PSF = 30.0
"""Lightest ground snow load of the published tables [psf]."""


class Settings(Block):
    """Settings of the whole job."""

    kerf: Kerf = 0.125
    """What a saw cut takes. Left out: 1/8"."""
    round: Literal[16, 32] = 16
    """Lengths are shown to a sixteenth or a thirty-second of an inch. Left out: 16."""
    species: Literal["spf", "dfl", "hf", "sp"] = "spf"
    """Species of the framing lumber, for its weight. Left out: spf."""
    waste: Annotated[Mapping[WasteCategory, Percent], *FrozenMapping] = Field(default_factory=lambda: ByName({}))
    """Allowance by category of the order [percent], such as {studs: 7}. Left out: the usual ones."""
    prices: PriceFile | None = None
    """Price list, a CSV file in the plan's folder. Left out: built-in placeholder money."""
    on_hand: PriceFile | None = None
    """Boards on the site already, a CSV file in the plan's folder (profile,grade,length_in,qty); they go first."""
    max_lengths: LengthCount | None = None
    """How many different lengths may be bought of one size and grade for one load. Left out: any number."""
    truck: Pounds | None = None
    """What the truck takes at once, such as 8,000 lb. Left out: loads are not compared with it."""
    lift: Pounds | None = None
    """What the crew's lift takes, such as 500 lb. Left out: sticks are not compared with it."""
    trim: Trim = 0.0
    """Cut off each end of a board before use, for checks and dirt; not off precut studs. Left out: nothing."""
    least_leftover: Leftover = 24.0
    """Shortest leftover worth keeping; of boards that cost the same, those are cut that leave such. Left out: 24"."""
    snow: SnowLoad = LEAST_SNOW_PSF
    """Ground snow load, such as 50 psf, for headers under rafters. Left out: 30 psf, the lightest of the table."""
    effort: Literal["quick", "normal", "long"] = "normal"
    """How long the cheapest boards are sought, in steps and not in time. Left out: normal."""

    def waste_pct(self, category: str) -> float:
        """Allowance of a category of the order, as written or the usual one [%].

        Raises:
            UnknownItem: no such category.
        """
        written = self.waste.get(category)
        return default_waste_pct(category) if written is None else written


class Building(Block):
    """One building, built ``count`` times."""

    name: Name
    """Name of the building; no two have the same."""
    count: Count = 1
    """How many of it are built. Left out: 1."""
    outline: Annotated[tuple[Point, ...], Corners, OrDrawn]
    """Corners [x, y] of the outside of the wall framing, in order round the building; x to the east, y to the north.
    Or the drawing that gives them: {dxf: house.dxf, layer: WALLS}."""
    sides: Annotated[tuple[SideName, ...] | None, SideNames] = None
    """Names of the outline's edges, in its order. Left out: by compass if that is clear, otherwise side 1, side 2."""
    walls: Walls
    """Walls."""
    roof: Roof
    """Roof."""
    floors: Floors = Floors()
    """The main floor's platform and lofts. Left out: none is framed."""
    outlines: Outlines = Outlines()
    """Parts told by outline. Left out: all are laid out from the walls."""
    _snow_psf: float = PrivateAttr(default=LEAST_SNOW_PSF)

    def under_snow(self, psf: float) -> Self:
        """The same building, told the ground snow load [psf] of the job's settings."""
        told = self.model_copy()
        told._snow_psf = psf
        return told

    @property
    def snow_psf(self) -> float:
        """Ground snow load [psf]."""
        return self._snow_psf


class Plan(Block):
    """A job: everything that is taken off together."""

    job: JobName
    """Name of the job."""
    buildings: Annotated[tuple[Building, ...], Buildings]
    """Buildings of the job."""
    settings: Settings = Settings()
    """Settings of the whole job."""
    book: Book = Book()
    """The crew's book. Left out: all pages, for letter paper."""
