"""Where a wing opens into the building that its roof is laid over."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from takeoff.geometry.placement import Placement

EAVE_VALLEY = "eave valley"
"""Role of the line in which two eaves meet outside an inner corner; no stick runs along it."""

MOUTH = "mouth"
"""Role of the edge where main rafters end on the beam across a wing's mouth."""

SEAM = "seam"
"""Role of the edge of a main slope beside a wing's ridge, where the wing's outer slope goes on as the roof's own."""


STEP = "step"
"""Role of the edge of a wing's slope over the line of the main wall, from the wing's wall up to the valley plates."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mouth:
    """A wing's mouth, as seen from a main slope that runs on past it: u along its eave, v up, v = 0 over its wall."""

    end: str
    """The side at the wing's end."""
    main: int
    """Place of the main slope among the plan's slopes."""
    wings: tuple[int, ...]
    """Places of the wing's slopes that are laid on it."""
    span: tuple[float, float]
    """From where to where main rafters end on the beam [in] along u."""
    plane: Placement
    """The main slope in the tops of the valley plates, its third axis out."""

    @property
    def label(self) -> str:
        """What a builder calls the wing."""
        return f"{self.end} wing"
