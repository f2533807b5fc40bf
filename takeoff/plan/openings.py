"""Openings in walls, as the plan writes them and as they are framed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal, Self

from pydantic import BeforeValidator, PrivateAttr, model_validator

from takeoff.catalog.openings import OpeningKind, opening_kind, usual_header
from takeoff.measure import MeasureError, format_length, parse_call
from takeoff.plan.block import Block
from takeoff.plan.carried import Carried
from takeoff.plan.fields import (
    Allowance,
    Distance,
    HeaderField,
    HeadHeight,
    JackCount,
    OpeningSize,
    SideName,
    missing,
    refusal,
)
from takeoff.plan.header import HeaderSize

if TYPE_CHECKING:
    from takeoff.catalog.header_spans import HeaderSpan


HeaderAt = Literal["head", "plates"]


class Size(Block):
    """Size of an opening, written out."""

    width: OpeningSize
    """Width of the window or door unit."""
    height: OpeningSize
    """Height of the window or door unit."""


class RoughAllowance(Block):
    """What is added to the unit's size for the rough opening."""

    width: Allowance
    """Added to the width, both sides together."""
    height: Allowance
    """Added to the height."""


def read_size(value: object) -> object:
    """A call of four figures, or text such as 3'-0" x 4'-0", as the keys of `Size`; anything else is left to `Size`."""
    if isinstance(value, bool) or not isinstance(value, str | int):
        return value
    try:
        width, height = parse_call(value)
    except MeasureError as error:
        raise refusal(f"the size of an opening ({error.fault})") from None
    return {"width": width, "height": height}


class WallOpening(Block):
    """An opening of a wall: a window, a door or a cased opening."""

    center: Distance | None = None
    """Centre of the rough opening, from the left end of the wall (of a side, seen from outside). This or `left`."""
    left: Distance | None = None
    """Left edge of the rough opening, from the left end of the wall (of a side, seen from outside). Or `center`."""
    size: Annotated[Size, BeforeValidator(read_size, json_schema_input_type=Size | str | int)]
    """Size of the unit: 3040 is 3'-0" wide and 4'-0" high; or {width: 2'-10", height: 6'-8"}."""
    kind: Literal["window", "door", "sliding", "garage", "cased"] = "window"
    """A window has a sill; doors (also sliding and garage doors) and a cased opening reach the floor."""
    head: HeadHeight | None = None
    """Underside of the header, from the bottom of the bottom plate. Left out: 6'-10 1/2"; of doors the rough height."""
    header: HeaderField | None = None
    """Header, such as 2-2x8. Left out: under rafters from the published table, elsewhere usual for the width."""
    top: Literal["square", "round"] = "square"
    """Round tops are framed square, to their full height; the curve is left to trim. Left out: square."""
    header_at: HeaderAt | None = None
    """Where its header is: head, on the opening; or plates, high under them, over cripples. Left out: as the walls'."""
    jacks: JackCount | None = None
    """Jack studs at each side. Left out: under rafters from the published table, elsewhere usual for the kind."""
    rough: RoughAllowance | None = None
    """What the rough opening adds to the size. Left out: the usual allowance for the kind."""
    _carried: Carried | None = PrivateAttr(default=None)

    @model_validator(mode="after")
    def _placed_once(self) -> Self:
        if self.center is None and self.left is None:
            raise missing("center", "center or left, to place the opening along its side")
        if self.center is not None and self.left is not None:
            raise refusal("one of the two", found="center and left")
        return self

    def carrying(self, carried: Carried) -> Self:
        """The same opening, told what its header carries."""
        told = self.model_copy()
        told._carried = carried
        return told

    @property
    def carried(self) -> Carried | None:
        """What its header carries; None where that is nothing, or isn't known."""
        return self._carried

    @property
    def usual(self) -> OpeningKind:
        """Usual framing of this kind of opening."""
        return opening_kind(self.kind)

    @property
    def rough_width_in(self) -> float:
        """Width of the rough opening, between jacks [in]."""
        return self.size.width + (self.rough.width if self.rough else self.usual.add_width_in)

    @property
    def rough_height_in(self) -> float:
        """Height of the rough opening as its kind and size ask for it [in]."""
        return self.size.height + (self.rough.height if self.rough else self.usual.add_height_in)

    @property
    def left_in(self) -> float:
        """Left edge of the rough opening, from the left end of the wall; of a side, seen from outside [in]."""
        if self.left is not None:
            return self.left
        assert self.center is not None  # one of the two is there: see _placed_once
        return self.center - self.rough_width_in / 2

    @property
    def right_in(self) -> float:
        """Right edge of the rough opening, from the same end [in]."""
        return self.left_in + self.rough_width_in

    @property
    def has_sill(self) -> bool:
        """Whether the wall goes on below it; otherwise it reaches the floor."""
        return self.usual.sill

    @property
    def head_in(self) -> float:
        """Underside of the header above the bottom of the bottom plate [in]."""
        if self.head is not None:
            return self.head
        return self.usual.head_in if self.has_sill else self.rough_height_in

    @property
    def sill_in(self) -> float:
        """Top of the rough sill above the bottom of the bottom plate [in]; 0 where it reaches the floor."""
        return self.head_in - self.rough_height_in if self.has_sill else 0.0

    @property
    def jack_count(self) -> int:
        """Jack studs at each side."""
        if self.jacks:
            return self.jacks
        row = self.header_row
        return row.jacks if row else self.usual.jacks

    @property
    def table_header(self) -> HeaderSpan | None:
        """The published header for what it carries; None where no row spans it, or it carries nothing."""
        if self._carried is None:
            return None
        usual = usual_header(self.rough_width_in)
        row = self._carried.row(HeaderSize(usual.plies, usual.profile.name)) if self._carried.inside and usual else None
        # Inside, the usual header stays where the table has it span as much.
        return row if row and row.span_in >= self.rough_width_in else self._carried.chosen(self.rough_width_in)

    @property
    def header_row(self) -> HeaderSpan | None:
        """The published row for the header that it has; None where there is none, or it carries nothing."""
        header = self.header_size
        return self._carried.row(header) if self._carried and header else None

    @property
    def header_size(self) -> HeaderSize | None:
        """The header written, or the published, or the usual one.

        None (which no plan that is read has) where no usual one is as wide.
        """
        if self.header:
            return self.header
        if row := self.table_header:
            return HeaderSize(row.plies, row.profile)
        usual = usual_header(self.rough_width_in)
        return HeaderSize(usual.plies, usual.profile.name) if usual else None

    @property
    def call(self) -> str:
        """Its size in the trade's words: four figures where they can say it, otherwise width x height."""
        figures = [part for side in (self.size.width, self.size.height) for part in divmod(side, 12)]
        if all(figure.is_integer() and figure < 10 for figure in figures):
            return "".join(f"{figure:.0f}" for figure in figures)
        return f"{format_length(self.size.width)} x {format_length(self.size.height)}"


class Opening(WallOpening):
    """A window, a door or a cased opening in a side."""

    side: SideName
    """Side of the building it is in."""
