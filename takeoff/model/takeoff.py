"""The whole take-off: everything computed, frozen, before any file is written."""

from __future__ import annotations

from dataclasses import dataclass

from takeoff.findings import Finding
from takeoff.model.building import FramedBuilding
from takeoff.model.comparison import NOTHING_COMPARED, Comparison
from takeoff.model.order import OrderLine
from takeoff.model.stock import LumberCutting, Piece, SheetCutting


@dataclass(frozen=True, slots=True, kw_only=True)
class BookSettings:
    """How the crew's book is set."""

    company: str = ""
    revision: str = ""
    paper: str = "letter"
    pages: tuple[str, ...] = ("walls", "roof", "layout", "boards", "sheathing", "findings")


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """Settings of the job that the files need."""

    denominator: int
    """Lengths are shown to one over this of an inch."""
    kerf_in: float
    species: str
    placeholder_prices: bool
    """True where prices are the built-in placeholder money."""
    book: BookSettings = BookSettings()
    least_leftover_in: float = 24.0
    """Shortest rest of a board that is worth keeping."""
    truck_lb: float | None = None
    """What the truck takes at once; None where the plan doesn't say."""
    lift_lb: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Takeoff:
    """All that the files are made from; each file is a pure function of this."""

    job: str
    plan_file: str
    settings: Settings
    buildings: tuple[FramedBuilding, ...]
    pieces: tuple[Piece, ...]
    lumber: LumberCutting
    sheets: SheetCutting
    order: tuple[OrderLine, ...]
    findings: tuple[Finding, ...]
    comparison: Comparison = NOTHING_COMPARED
    """The cutting of boards beside other ways to buy and cut them."""
