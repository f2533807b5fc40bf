"""Pieces to be cut, and the boards and sheets they are cut from."""

from __future__ import annotations

import enum
from dataclasses import dataclass


class Stop(enum.StrEnum):
    """Why a cutting search ended."""

    PROVEN = "proven"
    FITTED = "fitted"
    OUT_OF_TIME = "out of time"


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """Equal sticks to be cut: ``qty`` of one mark in one building (all its copies together)."""

    building: str
    load: int
    mark: str
    role: str
    profile: str
    grade: str
    face: str
    qty: int
    length_in: float
    """Long-point length [in]."""
    miters_deg: tuple[float, float]
    bevels_deg: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One piece on a board, from its start end."""

    mark: str
    length_in: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """One stick to buy, and what is cut from it, in order."""

    stock_id: str
    load: int
    profile: str
    grade: str
    stock_length_in: float
    cuts: tuple[Cut, ...]
    kerf_in: float
    special: bool = False
    """Longer than anything the catalog has on sale: to be ordered specially."""

    @property
    def leftover_in(self) -> float:
        """What is left after the cuts and their kerfs [in]; a rest thinner than the blade is dust."""
        used = sum(cut.length_in for cut in self.cuts) + self.kerf_in * len(self.cuts)
        return max(0.0, self.stock_length_in - used)


@dataclass(frozen=True, slots=True, kw_only=True)
class LumberCutting:
    """All boards of a job, with what is known of how good they are."""

    boards: tuple[Board, ...]
    cost_usd: float
    bound_usd: float
    """No way of cutting these pieces from the stock on sale costs less [$]."""
    stopped_by: Stop


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPiece:
    """One panel piece on its sheet: ``x`` along the sheet's strength axis. Module coordinates: no kerf between."""

    building: str
    mark: str
    x_in: float
    y_in: float
    length_in: float
    """Along x."""
    width_in: float
    """Along y."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet to buy, and what is cut from it."""

    sheet_id: str
    load: int
    product: str
    length_in: float
    width_in: float
    pieces: tuple[SheetPiece, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetCutting:
    """All sheets of a job, and for each placed panel the sheet it comes from."""

    sheets: tuple[Sheet, ...]
    area_bound: int
    """No way of cutting these panels takes fewer sheets than their area does."""
