"""Valleys between the wings of a roof, as the plan writes them."""

from __future__ import annotations

from typing import Annotated, Any, Literal, Self

from pydantic import BeforeValidator, model_validator

from takeoff.catalog.profiles import Kind, profile
from takeoff.plan.block import Block
from takeoff.plan.fields import LumberSize, refusal
from takeoff.plan.porches import PorchBeam


class MouthBeam(PorchBeam):
    """The beam across a wing's mouth, its top as high as the plates beside it."""


def _size_alone(written: Any) -> Any:
    return {"size": written} if isinstance(written, str) else written


class Valleys(Block):
    """How the roofs of two wings meet in a valley."""

    method: Literal["supporting", "overlaid"] = "supporting"
    """supporting: valley rafters carry the jacks of both slopes. overlaid: the roof with the higher ridge is framed
    straight on past the wing's mouth and sheathed, and the wing's roof is laid over it on valley plates. Left out:
    supporting."""
    size: LumberSize | None = None
    """For supporting: size of the valley rafters, such as 2x12. Left out: of the rafters' size."""
    plate: LumberSize | None = None
    """For overlaid: size of the valley plates, which lie flat on the main sheathing and carry the jacks' feet. Left
    out: 2x6."""
    beam: Annotated[MouthBeam | None, BeforeValidator(_size_alone, json_schema_input_type=MouthBeam | str | None)] = (
        None
    )
    """For overlaid: the beam across each wing's mouth that carries the main rafters there: plies and size (3-2x10), or
    {size, material}. Left out: partitions as high as the plates, in line with the main wall, have to carry them."""
    post: LumberSize | None = None
    """For overlaid: size of the posts under the beam's ends, such as 6x6. Left out: built up of the walls' studs, as
    many as the beam has plies, and two at least."""

    @model_validator(mode="after")
    def _parts_of_the_method(self) -> Self:
        overlaid = {"plate": self.plate, "beam": self.beam, "post": self.post}
        if self.method == "supporting":
            for key, value in overlaid.items():
                if value is not None:
                    raise refusal(f"{key} for `method: overlaid` only", found=f"a {key}")
        elif self.size is not None:
            raise refusal("no size for `method: overlaid`: there are no valley rafters, write plate", found="a size")
        if self.post and profile(self.post).kind is Kind.ENGINEERED:
            raise refusal("posts of sawn lumber, such as 6x6", found=self.post)
        if self.post and self.beam is None:
            raise refusal("beam, which the posts stand under", found="a post alone")
        return self

    @property
    def plate_size(self) -> str:
        """Size of valley plates."""
        return self.plate or "2x6"
