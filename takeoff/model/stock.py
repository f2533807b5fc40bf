"""Pieces to be cut, and the boards and sheets they are cut from."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from math import inf


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
    rakes_in: tuple[float, float] = (0.0, 0.0)
    """How much of the length is the slanted cut at each end [in]: there a neighbour with a parallel end reaches in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One piece on a board, from its start end."""

    mark: str
    length_in: float
    lap_in: float = 0.0
    """How far it reaches back into the slant of the piece before it, one saw cut making both ends [in]."""


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
    on_hand: bool = False
    """On the site already: not to be bought."""
    trim_in: float = 0.0
    """Cut off each end first, with the saw cut that does it [in]."""

    @property
    def starts_in(self) -> tuple[float, ...]:
        """Where each piece begins, from the end the cutting starts at [in]; long points where ends are slanted."""
        starts: list[float] = []
        reached = self.trim_in
        for cut in self.cuts:
            starts.append(reached - cut.lap_in)
            reached = starts[-1] + cut.length_in + self.kerf_in
        return tuple(starts)

    @property
    def leftover_in(self) -> float:
        """What is left after the cuts and their kerfs [in]; a rest thinner than the blade is dust."""
        used = sum(cut.length_in - cut.lap_in for cut in self.cuts) + self.kerf_in * len(self.cuts)
        return max(0.0, self.stock_length_in - 2 * self.trim_in - used)


@dataclass(frozen=True, slots=True, kw_only=True)
class CostProof:
    """What is known of the cost of the boards of one load, profile and grade."""

    load: int
    profile: str
    grade: str
    cost_usd: float
    bound_usd: float
    """No way of cutting these pieces from the stock on sale costs less [$]."""
    proven: bool
    """The cost is the least there is. Never where a price isn't known."""

    @property
    def gap_usd(self) -> float:
        """What the boards cost more than the bound, at most [$]."""
        return self.cost_usd - self.bound_usd

    @property
    def gap_pct(self) -> float:
        """The gap, of the bound [%]; infinite where nothing is known."""
        if not self.gap_usd:
            return 0.0
        return 100 * self.gap_usd / self.bound_usd if self.bound_usd else inf


@dataclass(frozen=True, slots=True, kw_only=True)
class LumberCutting:
    """All boards of a job, with what is known of how good they are."""

    boards: tuple[Board, ...]
    cost_usd: float
    bound_usd: float
    """No way of cutting these pieces from the stock on sale costs less [$]."""
    stopped_by: Stop
    proofs: tuple[CostProof, ...] = ()
    """For each load, profile and grade."""


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
    outline_in: tuple[tuple[float, float], ...] = ()
    """Corners on the sheet [in], turned as it is cut; none for a rectangle."""

    @property
    def area_sqin(self) -> float:
        """What it takes of its sheet [sq in], notches and slants not counted."""
        corners = self.outline_in
        if not corners:
            return self.length_in * self.width_in
        return abs(sum(corners[k - 1][0] * y - x * corners[k - 1][1] for k, (x, y) in enumerate(corners))) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Leftover:
    """A rectangle of a sheet that nothing is cut from [in]: ``x`` and ``length_in`` along its strength axis."""

    x_in: float
    y_in: float
    length_in: float
    width_in: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet to buy, and what is cut from it."""

    sheet_id: str
    load: int
    product: str
    length_in: float
    width_in: float
    pieces: tuple[SheetPiece, ...]
    leftovers: tuple[Leftover, ...] = ()
    """Worth keeping."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetProof:
    """What is known of the sheets of one product, or of several whose pieces share sheets."""

    products: tuple[str, ...]
    sheets: int
    area_bound: int
    """Of the largest size, no fewer sheets have the panels' area."""
    cost_usd: float | None
    """None where a price isn't known."""
    bound_usd: float | None
    """No way of cutting these panels in rows costs less [$]."""
    sheet_bound: int = 0
    """However they are cut, guillotine or not, these panels take no fewer sheets of the largest size."""

    @property
    def over(self) -> int:
        """Sheets more than the bound, at most; several sizes on sale count alike."""
        return self.sheets - self.sheet_bound

    @property
    def gap_pct(self) -> float | None:
        """What the sheets cost more than the bound, at most, of the bound [%]."""
        if self.cost_usd is None or not self.bound_usd:
            return None
        return 100 * (self.cost_usd - self.bound_usd) / self.bound_usd


class LayUpKind(enum.StrEnum):
    """What a lay-up is tried for."""

    AS_LAID = "as laid"
    COURSES = "other courses"
    WHOLE_COURSE = "whole sheets of the exposed grade"
    ALL_EXPOSED = "all of the exposed grade"
    RUN_PAST = "run past the openings"
    BROKEN = "broken at the openings"


@dataclass(frozen=True, slots=True, kw_only=True)
class LayUpTried:
    """A way to lay faces that was reckoned through, and what its sheets cost."""

    building: str
    faces: str
    words: str
    """``exposed strip 2'-0", courses 4'-0", 4'-0", 3'-5 15/16"``."""
    sheets: int
    cost_usd: float | None
    """None where a price isn't known."""
    kind: LayUpKind

    @property
    def taken(self) -> bool:
        """Whether the faces are laid so."""
        return self.kind is LayUpKind.AS_LAID


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetCutting:
    """All sheets of a job, and for each placed panel the sheet it comes from."""

    sheets: tuple[Sheet, ...]
    area_bound: int
    """No way of cutting these panels takes fewer sheets than their area does."""
    proofs: tuple[SheetProof, ...] = ()
    """For each product."""
    tried: tuple[LayUpTried, ...] = ()
