"""The upper slopes of a gambrel roof, as the plan writes them."""

from __future__ import annotations

from typing import Self

from pydantic import model_validator

from takeoff.catalog.profiles import Kind, profile
from takeoff.plan.block import Block
from takeoff.plan.fields import Distance, Grade, LumberSize, PitchField, missing, refusal


class Purlin(Block):
    """The beam under a break: upper rafters are seated on it, lower ones end on its outer face."""

    size: LumberSize
    """Size, such as 3-1/2x9-1/2 or 4x10."""
    material: Grade | None = None
    """Grade of sawn lumber (left out: no2), or glulam, lvl, psl, lsl: engineered wood has to say which."""

    @model_validator(mode="after")
    def _material_told(self) -> Self:
        if self.material is None and profile(self.size).kind is Kind.ENGINEERED:
            raise missing("material", f"the material of {self.size}: glulam, lvl, psl or lsl")
        return self

    @property
    def grade(self) -> str:
        """Grade or material."""
        return self.material or "no2"


class Upper(Block):
    """The upper slopes of a gambrel roof, above the break."""

    pitch: PitchField
    """Rise in 12 of run of the upper slopes, less than that of the lower ones."""
    run: Distance | None = None
    """Level, from the outside of the wall framing to the break. Give this or `height`."""
    height: Distance | None = None
    """Height of the break above the deck, on the tops of the rafters. Give this or `run`."""
    purlin: Purlin
    """The beam under the break; its outer face is plumb under it."""

    @model_validator(mode="after")
    def _placed_once(self) -> Self:
        if self.run is None and self.height is None:
            raise missing("run", "run or height, to place the break")
        if self.run is not None and self.height is not None:
            raise refusal("one of the two", found="run and height")
        return self
