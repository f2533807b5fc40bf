"""Openings in roof slopes, as the plan writes them: skylights and chimneys."""

from __future__ import annotations

from math import hypot
from typing import Literal, Self

from pydantic import model_validator

from takeoff.catalog.profiles import profile, profiles
from takeoff.catalog.rules import rule
from takeoff.measure import format_length
from takeoff.plan.block import Block
from takeoff.plan.fields import Distance, LumberSize, OpeningSize, SideName, missing, refusal

Headers = Literal["square", "plumb"]


def covering_size(rafters: str, slope: float) -> str:
    """The least size as thick as the rafters that covers their plumb cuts; the rafters' own where none does.

    Args:
        rafters: their size.
        slope: of them, rise over run.
    """
    stock = profile(rafters)
    plumb_cut = stock.depth_in * hypot(1, slope)
    deeper = [
        size
        for size in profiles()
        if size.kind == stock.kind and size.thickness_in == stock.thickness_in and size.depth_in >= plumb_cut
    ]
    return min(deeper, key=lambda size: size.depth_in).name if deeper else rafters


class Skylight(Block):
    """An opening in a slope of the roof: a skylight, or a chimney that passes through it."""

    side: SideName
    """The side whose slope it is in: the one that the slope's eave is on."""
    kind: Literal["skylight", "chimney"] = "skylight"
    """A skylight is given by its rough opening; a chimney by its own size, clearance to the framing being added."""
    center: Distance | None = None
    """Its centre, from the left end of the side seen from outside. Give this or `left`."""
    left: Distance | None = None
    """Its left edge, from the left end of the side seen from outside. Give this or `center`."""
    up: Distance | None = None
    """Its lower edge, measured up the slope along the tops of the rafters, from plumb over the outside of the wall
    framing. Give this or `from_wall`."""
    from_wall: Distance | None = None
    """Its lower edge, measured level from the outside of the wall framing. Give this or `up`."""
    width: OpeningSize
    """Width along the eave: of a skylight's rough opening, or of the chimney."""
    height: OpeningSize | None = None
    """For a skylight: height of its rough opening, along the slope."""
    depth: OpeningSize | None = None
    """For a chimney: its depth from lower to upper face, level."""
    headers: Headers | None = None
    """How the headers stand: square to the slope, or plumb. Left out: square; plumb round a chimney."""
    header: LumberSize | None = None
    """Size of the headers. Left out: the rafters' size; of plumb ones the next that covers the rafters' plumb cut."""
    plies: Literal[1, 2] = 2
    """Plies of each header, and trimmer rafters at each side. Left out: 2."""

    @model_validator(mode="after")
    def _placed_and_sized(self) -> Self:
        for one, other, what in (("center", "left", "along its eave"), ("up", "from_wall", "up its slope")):
            written = [key for key in (one, other) if getattr(self, key) is not None]
            if not written:
                raise missing(one, f"{one} or {other}, to place it {what}")
            if len(written) == 2:
                raise refusal("one of the two", found=f"{one} and {other}")
        wanted, other = ("height", "depth") if self.kind == "skylight" else ("depth", "height")
        if getattr(self, other) is not None:
            raise refusal(f"{wanted} for a {self.kind}", found=other)
        if getattr(self, wanted) is None:
            raise missing(wanted, f"{wanted}, the size of a {self.kind} up the slope")
        return self

    @property
    def clearance_in(self) -> float:
        """Level space kept between it and the framing [in]; none round a rough opening."""
        return rule("chimney.clearance").value if self.kind == "chimney" else 0.0

    @property
    def plumb(self) -> bool:
        """Whether its headers stand plumb."""
        return (self.headers or ("plumb" if self.kind == "chimney" else "square")) == "plumb"

    @property
    def across_in(self) -> tuple[float, float]:
        """Left and right edge of the rough opening, from the left end of the side seen from outside [in]."""
        left = self.left if self.left is not None else (self.center or 0.0) - self.width / 2
        return left - self.clearance_in, left + self.width + self.clearance_in

    def reach_in(self, slope: float, depth: float) -> tuple[float, float]:
        """Lower and upper edge of the rough opening along the tops of the rafters [in].

        Plumb faces of a chimney between square headers come nearer to the lower one the deeper they go.

        Args:
            slope: rise over run.
            depth: of square headers [in].
        """
        along = hypot(1, slope)
        low = self.up if self.up is not None else (self.from_wall or 0.0) * along
        high = low + (self.height if self.height is not None else (self.depth or 0.0) * along)
        leaning = depth * slope if self.kind == "chimney" and not self.plumb else 0.0
        return low - self.clearance_in * along - leaning, high + self.clearance_in * along

    def header_size(self, rafters: str, slope: float) -> str:
        """Size of its headers: as written, or decided from the rafters' size and the slope (rise over run)."""
        if self.header is not None or not self.plumb:
            return self.header or rafters
        return covering_size(rafters, slope)

    def header_reach_in(self, slope: float, size: str) -> float:
        """What a header of a size takes up along the slope [in]."""
        return self.plies * profile(size).thickness_in * (hypot(1, slope) if self.plumb else 1.0)

    @property
    def call(self) -> str:
        """What a builder calls it, with its size as written."""
        high = self.height if self.height is not None else self.depth or 0.0
        return f"{self.kind} {format_length(self.width)} x {format_length(high)}"
