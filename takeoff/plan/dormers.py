"""Dormers, as the plan writes them: small roofs on a slope of the main one, laid over it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Annotated, Literal, Self

from pydantic import BeforeValidator, model_validator

from takeoff.catalog.profiles import profile
from takeoff.plan.block import Block
from takeoff.plan.fields import (
    Distance,
    DormerHeight,
    Grade,
    HeaderField,
    LumberSize,
    OpeningSize,
    Overhang,
    PitchField,
    SideName,
    Spacing,
    Windows,
    missing,
    refusal,
)
from takeoff.plan.openings import Opening, Size, read_size

VALLEY_IN = 1.5
"""Thickness of the valley rafters of dormers [in]."""


class DormerRafters(Block):
    """Rafters of a dormer. Left out: as the main roof's."""

    size: LumberSize | None = None
    """Size, such as 2x6."""
    spacing: Spacing | None = None
    """Spacing, on centre."""
    grade: Grade | None = None
    """Grade."""


class DormerOverhangs(Block):
    """How far a dormer's roof stands out, level."""

    eave: Overhang | None = None
    """Outside of its wall framing to the tail's cut. Left out: as the main roof."""
    rake: Overhang = 0.0
    """Outside of its wall framing to the outside of the barge. Left out: none."""


class DormerValleys(Block):
    """How a gable dormer's roof meets the slope."""

    method: Literal["overlaid", "supporting"] = "overlaid"
    """overlaid: it is laid on the main sheathing, on valley plates. supporting: its jacks stand on valley rafters that
    hang between the trimmers and a header at its ridge. Left out: overlaid."""
    size: LumberSize | None = None
    """For supporting: size of the valley rafters, 2x. Left out: the next that covers the main rafters' plumb cut."""

    @model_validator(mode="after")
    def _size_of_rafters(self) -> Self:
        if self.size is not None and self.method == "overlaid":
            raise refusal("a size for `method: supporting` only; for valley plates write valley", found="a size")
        if self.size is not None and profile(self.size).thickness_in != VALLEY_IN:
            raise refusal("a size that is 2x, such as 2x10", found=self.size)
        return self


class DormerWindow(Block):
    """A window in the front wall of a dormer."""

    center: Distance | None = None
    """Centre of its rough opening, from the left end of the front seen from outside. Left out: the front's middle."""
    size: Annotated[Size, BeforeValidator(read_size, json_schema_input_type=Size | str | int)]
    """Size of the unit: 3020 is 3'-0" wide and 2'-0" high; or {width: 2'-10", height: 2'-2"}."""
    head: DormerHeight | None = None
    """Underside of its header above the tops of the main rafters at the outside of the front. Left out: as high as the
    front wall allows."""
    header: HeaderField | None = None
    """Header, such as 2-2x6. Left out: the usual size for the width, which is no design."""

    def opening(self, side: str, middle: float) -> Opening:
        """The window as an opening of a wall, at its usual head.

        Args:
            side: name of the wall.
            middle: of the wall, where its centre is if the plan doesn't say [in].
        """
        placed = Opening(side=side, center=middle if self.center is None else self.center, size=self.size)
        return placed.model_copy(update={"header": self.header})


class Dormer(Block):
    """A dormer on a slope of the main roof, which runs on under it round an opening."""

    side: SideName
    """The side whose slope it stands on: the one that the slope's eave is on."""
    shape: Literal["gable", "shed"]
    """gable: two slopes, their ridge running back into the main slope. shed: one slope, flatter than the main one."""
    center: Distance | None = None
    """Its centre, from the left end of the side seen from outside. Give this or `left`."""
    left: Distance | None = None
    """The outside of its left cheek wall, from the left end of the side seen from outside. Give this or `center`."""
    width: OpeningSize
    """Width from outside to outside of its cheek walls."""
    front: Distance
    """Outside of its front wall, measured level from the outside of the main wall's framing."""
    height: DormerHeight
    """Top of its walls' plates above the tops of the main rafters at the outside of its front wall."""
    pitch: PitchField | None = None
    """Rise in 12 of run. Left out: as the main slope's; a shed dormer has to say it."""
    rafters: DormerRafters = DormerRafters()
    """Rafters. Left out: as the main roof's."""
    ridge: LumberSize | None = None
    """For a gable dormer: size of its ridge board. Left out: the next that covers its rafters' plumb cut."""
    valley: LumberSize = "2x6"
    """Size of the valley plates, which lie flat on the main sheathing and carry its rafters' feet. Left out: 2x6."""
    valleys: DormerValleys = DormerValleys()
    """How its roof meets the slope. Left out: laid over it, on valley plates."""
    overhang: DormerOverhangs = DormerOverhangs()
    """How far its roof stands out."""
    windows: Annotated[tuple[DormerWindow, ...], Windows] = ()
    """Windows in its front wall. Left out: none."""

    @model_validator(mode="after")
    def _placed_and_shaped(self) -> Self:
        written = [key for key in ("center", "left") if getattr(self, key) is not None]
        if not written:
            raise missing("center", "center or left, to place it along its eave")
        if len(written) == 2:
            raise refusal("one of the two", found="center and left")
        if self.shape == "shed" and self.pitch is None:
            raise missing("pitch", "pitch, flatter than the main slope's")
        if self.shape == "shed" and self.ridge is not None:
            raise refusal("no ridge: a shed dormer's rafters lie on the main slope", found="a ridge")
        if self.shape == "shed" and self.valleys.method == "supporting":
            raise refusal("no valley rafters: a shed dormer has no valleys", found="valleys")
        return self

    @property
    def across_in(self) -> tuple[float, float]:
        """Outsides of its cheek walls, from the left end of the side seen from outside [in]."""
        left = self.left if self.left is not None else (self.center or 0.0) - self.width / 2
        return left, left + self.width


def dormer_labels(dormers: Sequence[Dormer]) -> tuple[str, ...]:
    """What dormers are called: ``south dormer``, or by number where one side has several."""
    return tuple(_labels(dormers))


def _labels(dormers: Sequence[Dormer]) -> Iterator[str]:
    for index, dormer in enumerate(dormers):
        alike = [k for k, other in enumerate(dormers) if other.side == dormer.side]
        number = f" {alike.index(index) + 1}" if len(alike) > 1 else ""
        yield f"{dormer.side} dormer{number}"
