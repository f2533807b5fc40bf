"""What a sheet cutter is asked, and what it is to be: the nouns of the cutting of sheets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from takeoff.cutting.stop import StopRule
from takeoff.model.stock import SheetCutting


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelPiece:
    """Equal panels to be cut: ``qty`` of one mark in one building (all its copies together)."""

    building: str
    mark: str
    product: str
    qty: int
    length_in: float
    """Extent along the strength axis, joint to joint [in]."""
    width_in: float
    """Extent across it [in]."""
    area_sqin: float
    """What one of them covers [sq in]; less than length by width where it isn't a rectangle."""
    corners_in: tuple[tuple[float, float], ...] = ()
    """Corners, x along the strength axis [in]; none for a rectangle."""
    flips: bool = False
    """It may be cut with either side up."""
    also: tuple[str, ...] = ()
    """Products whose sheets it may be cut from as well: what is left of a better grade does for the field."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetOffer:
    """A size of a product that can be bought, as many as wanted. The strength axis runs along its length."""

    product: str
    length_in: float
    width_in: float
    gap_in: float
    """Space left between sheets where they are nailed, or by which they are made scant [in]."""
    price_usd: float | None
    """For one sheet [$]; None where it isn't known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetProblem:
    """Panels, the sheets to cut them from, and what the saw takes away."""

    pieces: tuple[PanelPiece, ...]
    offers: tuple[SheetOffer, ...]
    kerf_in: float

    def __post_init__(self) -> None:
        if self.kerf_in < 0:
            raise ValueError(f"a kerf is zero or more, not {self.kerf_in}")


class SheetCutter(Protocol):
    """A way to cut a problem's panels."""

    def __call__(self, problem: SheetProblem, *, stop: StopRule, seed: int = 0) -> SheetCutting:
        """Cut every panel exactly as often as it is wanted.

        Args:
            problem: what to cut, and from what.
            stop: when to be content with what is found.
            seed: start of any chance the cutter takes; the same seed gives the same sheets.

        Raises:
            ValueError: a panel is larger than every sheet of its product.
        """
        ...
