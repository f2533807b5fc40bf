"""Porch roofs, as the plan writes them: a small roof at a wall, on a beam and posts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Annotated, Literal, Self

from pydantic import model_validator

from takeoff.catalog.profiles import Kind
from takeoff.plan.block import Block
from takeoff.plan.fields import (
    BeamField,
    Distance,
    Grade,
    Level,
    LumberSize,
    Overhang,
    PitchField,
    PorchDepth,
    PorchHeight,
    PorchPosts,
    PorchWidth,
    PostSpacing,
    Seat,
    SideName,
    Spacing,
    missing,
    refusal,
)


class PorchRafters(Block):
    """Rafters of a porch. Left out: as the main roof's."""

    size: LumberSize | None = None
    """Size, such as 2x6."""
    spacing: Spacing | None = None
    """Spacing, on centre."""
    grade: Grade | None = None
    """Grade."""
    seat: Seat | None = None
    """Level length of the seat cut. Left out: the beam's width, but no notch deeper than a quarter of the rafter."""


class PorchOverhangs(Block):
    """How far a porch roof stands out, level. Left out: as the main roof."""

    eave: Overhang | None = None
    """Outside of the beam to the tail's cut."""
    rake: Overhang | None = None
    """End of the beam to the outside of the barge."""


class PorchRidge(Block):
    """The ridge of a gabled porch."""

    kind: Literal["beam", "board"] = "board"
    """A beam carries the rafters; a board only lies between them. Left out: board."""
    size: LumberSize
    """Size, such as 2x8."""
    material: Grade | None = None
    """Grade of sawn lumber (left out: no2), or glulam, lvl, psl, lsl."""


class PorchLedger(Block):
    """The ledger of a shed porch."""

    size: LumberSize
    """Size, such as 2x8."""


class PorchBeam(Block):
    """The beam that the rafters stand on."""

    size: BeamField
    """Plies and size of one (3-2x10), or a solid size (6x10)."""
    material: Grade | None = None
    """Grade of sawn lumber (left out: no2), or glulam, lvl, psl, lsl: engineered wood has to say which."""

    @model_validator(mode="after")
    def _material_told(self) -> Self:
        if self.material is None and self.size.profile.kind is Kind.ENGINEERED:
            raise missing("material", f"the material of {self.size}: glulam, lvl, psl or lsl")
        return self

    @property
    def grade(self) -> str:
        """Grade or material."""
        return self.material or "no2"

    @property
    def words(self) -> str:
        """What it is made of."""
        return self.size.words

    @property
    def width_in(self) -> float:
        """Of all plies together [in]."""
        return self.size.plies * self.size.profile.thickness_in


class Posts(Block):
    """The posts under the beams of a porch."""

    size: LumberSize
    """Size, such as 6x6."""
    grade: Grade = "treated"
    """Grade. Left out: treated."""
    spacing: PostSpacing = 96.0
    """Greatest distance of neighbouring posts, on centre; they are spaced evenly between the ends. Left out: 8'."""
    places: Annotated[tuple[Distance, ...] | None, PorchPosts] = None
    """Centres of the posts along the front, from the porch's left end. Left out: at both ends and evenly between."""


class Porch(Block):
    """A porch roof at one wall of the building."""

    side: SideName
    """The side that it stands at."""
    center: Distance | None = None
    """Its centre, from the left end of the side seen from outside. Give this or `left`."""
    left: Distance | None = None
    """Its left end, from the left end of the side seen from outside. Give this or `center`."""
    width: PorchWidth
    """Width along the wall, from end to end of the front beam."""
    depth: PorchDepth
    """How far it stands out: outside of the wall framing to the outside of the front beam."""
    shape: Literal["shed", "gable"]
    """shed: one slope, down from the wall. gable: two slopes, their ridge running out from the wall."""
    pitch: PitchField
    """Rise in 12 of run, such as 3/12."""
    beam_height: PorchHeight | None = None
    """Top of the beams above the main floor deck. Give this or `roof_height`."""
    roof_height: PorchHeight | None = None
    """Tops of the rafters at the wall (of a gabled porch: at its peak) above the main floor deck."""
    meets: Literal["wall", "roof"] = "wall"
    """wall: its roof ends at the wall. roof: it runs on over the main roof's eave and is laid on the main slope, on a
    sleeper on the sheathing; its height is then told by `beam_height`. Left out: wall."""
    sleeper: LumberSize = "2x8"
    """For `meets: roof`: size of the sleepers, flat on the main sheathing under its upper edge. Left out: 2x8."""
    deck_height: Level = 0.0
    """Where the posts start, above the main floor deck: the top of the porch's floor or piers, such as -7". Left out:
    level with the deck."""
    rafters: PorchRafters = PorchRafters()
    """Rafters. Left out: as the main roof's."""
    overhang: PorchOverhangs = PorchOverhangs()
    """How far it stands out. Left out: as the main roof."""
    ledger: PorchLedger | None = None
    """For a shed porch: its ledger on the wall. Left out: of the rafters' size."""
    ridge: PorchRidge | None = None
    """For a gabled porch: its ridge."""
    beam: PorchBeam
    """The beams: along the front of a shed porch, along the front and both sides of a gabled one."""
    posts: Posts
    """The posts."""
    ceiling: Literal["open", "closed"] = "open"
    """open: all of the sheathing shows from below and is of the exposed grade. closed: it shows at the overhangs only.
    Left out: open."""
    barge: LumberSize | None = None
    """Size of its barge rafters. Left out: as the main roof's."""
    fascia: LumberSize | None = None
    """Size of its fascia. Left out: as the main roof's."""

    @model_validator(mode="after")
    def _placed_and_shaped(self) -> Self:
        written = [key for key in ("center", "left") if getattr(self, key) is not None]
        if not written:
            raise missing("center", "center or left, to place it along its wall")
        if len(written) == 2:
            raise refusal("one of the two", found="center and left")
        if self.meets == "roof" and self.roof_height is not None:
            raise refusal("beam_height for `meets: roof`; where the roofs meet follows", found="roof_height")
        if self.meets == "roof" and self.beam_height is None:
            raise missing("beam_height", "beam_height; where the roofs meet follows")
        if self.beam_height is None and self.roof_height is None:
            raise missing("beam_height", "beam_height or roof_height; the other follows from the pitch")
        if self.shape == "gable" and self.ridge is None:
            raise missing("ridge", "ridge, its kind and size")
        if self.shape == "shed" and self.ridge is not None:
            raise refusal("no ridge: a shed porch has a ledger on the wall", found="a ridge")
        if self.meets == "roof" and self.ledger is not None:
            raise refusal("no ledger: a porch that meets the roof lies on sleepers", found="a ledger")
        if self.shape == "gable" and self.ledger is not None:
            raise refusal("no ledger: the ridge of a gabled porch meets the wall", found="a ledger")
        return self

    @property
    def across_in(self) -> tuple[float, float]:
        """Its left and right end along the wall, from the left end of the side seen from outside [in]."""
        left = self.left if self.left is not None else (self.center or 0.0) - self.width / 2
        return left, left + self.width


def porch_labels(porches: Sequence[Porch]) -> tuple[str, ...]:
    """What porches are called: ``south porch``, or by number where one side has several."""
    return tuple(_labels(porches))


def _labels(porches: Sequence[Porch]) -> Iterator[str]:
    for index, porch in enumerate(porches):
        alike = [k for k, other in enumerate(porches) if other.side == porch.side]
        number = f" {alike.index(index) + 1}" if len(alike) > 1 else ""
        yield f"{porch.side} porch{number}"
