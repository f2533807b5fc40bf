"""The clip of a gable, as the plan writes it: a short hip slope in place of the gable's peak."""

from __future__ import annotations

from typing import Self

from pydantic import model_validator

from takeoff.plan.block import Block
from takeoff.plan.fields import Distance, PitchField, missing, refusal


class Clip(Block):
    """A clip: the gable wall ends level under it, and a hip slope rises from there to the ridge."""

    run: Distance | None = None
    """Level, from the outside of the gable wall's framing to where its hips meet the ridge. Give this or `height`."""
    height: Distance | None = None
    """Height of the gable wall under the clip above the deck, to the top of its plates. Give this or `run`."""
    pitch: PitchField | None = None
    """Pitch of the clip's slope. Left out: the roof's."""

    @model_validator(mode="after")
    def _placed_once(self) -> Self:
        if self.run is None and self.height is None:
            raise missing("run", "run or height, to place the clip")
        if self.run is not None and self.height is not None:
            raise refusal("one of the two", found="run and height")
        return self
