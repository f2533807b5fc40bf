"""Prices: what a piece costs, from a builder's price list or from the built-in one, which is placeholder money."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from takeoff.catalog.grades import grade
from takeoff.catalog.nails import nails
from takeoff.catalog.profiles import profile
from takeoff.catalog.unknown import UnknownItem

PLACEHOLDER = "placeholder, not a quotation"
"""Source of made-up prices; a list with such a row says so on the order."""

UNITS = ("each", "ft", "mbf", "lb")
"""A price is for one piece, for a foot of length, for a thousand board feet, or for a pound."""

_PARTS_PER_IN = 32  # lengths are the same when they round to the same thirty-second

PriceKey = tuple[str, str, int | None]
"""Item, grade and length of a price."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceRow:
    """One line of a price list."""

    item: str
    """Name of a profile, sheet product, hardware or nail, as the catalog writes it."""
    grade: str = ""
    """Empty: any grade."""
    length_in: float | None = None
    """Length of the board or sheet [in]; None: any length."""
    unit: str = "each"
    price_usd: float
    source: str = ""
    line: int = 0
    """Of the list it was read from; 0: not known."""

    def __post_init__(self) -> None:
        if self.unit not in UNITS:
            raise ValueError(f"a price is for {', '.join(UNITS)}, not {self.unit!r}")
        if not 0 <= self.price_usd < math.inf:
            raise ValueError(f"a price is zero or more, not {self.price_usd}")
        if self.unit == "mbf" and not board_feet_per_ft(self.item):
            raise ValueError(f"{self.item} isn't measured in board feet")
        if (self.unit == "lb") != is_by_lb(self.item):
            raise ValueError(f"{self.item} is {'' if is_by_lb(self.item) else 'not '}sold by the pound")

    @property
    def key(self) -> PriceKey:
        """What the price is for; one list has one price for it."""
        return self.item, self.grade, None if self.length_in is None else round(self.length_in * _PARTS_PER_IN)

    def piece_usd(self, length_in: float | None) -> float | None:
        """Price of one piece of a length [USD]; None where the unit asks for a length that isn't given.

        Args:
            length_in: length of the piece [in], or None for what has no length.
        """
        if self.unit in ("each", "lb"):
            return self.price_usd
        if length_in is None:
            return None
        per_ft = self.price_usd if self.unit == "ft" else self.price_usd * board_feet_per_ft(self.item) / 1000
        return per_ft * length_in / 12


@dataclass(frozen=True)  # no slots: the index is kept on the list, so that a look-up is one step
class PriceList:
    """Prices by item, grade and length."""

    rows: tuple[PriceRow, ...]

    @cached_property
    def _by_key(self) -> Mapping[PriceKey, PriceRow]:
        return {row.key: row for row in self.rows}

    @cached_property
    def is_placeholder(self) -> bool:
        """Whether any of it is made-up money."""
        return any(row.source == PLACEHOLDER for row in self.rows)

    def lookup(self, item: str, grade: str = "", length_in: float | None = None) -> float | None:
        """Price of one piece [USD], not rounded; None where the list has none.

        The most exact row holds: for that grade and length, then for that grade in any length, then for any grade in
        that length, then for the item alone.

        Args:
            item: name of a profile, sheet product or hardware, as the catalog writes it.
            grade: its grade or material; empty where it has none.
            length_in: stock length or sheet length [in]; None where it has none.
        """
        length_key = None if length_in is None else round(length_in * _PARTS_PER_IN)
        for key in ((item, grade, length_key), (item, grade, None), (item, "", length_key), (item, "", None)):
            if key in self._by_key:
                return self._by_key[key].piece_usd(length_in)
        return None

    def lengths_of(self, item: str) -> tuple[float, ...]:
        """Lengths that the list has a price of an item for [in], shortest first."""
        return tuple(sorted({row.length_in for row in self.rows if row.item == item and row.length_in is not None}))


def board_feet_per_ft(item: str) -> float:
    """Board feet in a foot of an item; 0 for what isn't sold by the board foot."""
    try:
        return profile(item).board_feet_per_ft
    except UnknownItem:
        return 0.0


def is_by_lb(item: str) -> bool:
    """Whether an item is ordered by the pound, as nails are."""
    return any(item == known.name for known in nails())


def item_name(written: str) -> str:
    """An item's name as the catalog writes it: ``2 X 10`` is ``2x10``; what isn't a profile is kept, in lower case."""
    try:
        return profile(written).name
    except UnknownItem:
        return "-".join(written.lower().split())


def grade_name(written: str) -> str:
    """A grade's name as the catalog writes it: ``No. 2`` is ``no2``; what isn't one is kept, in lower case."""
    try:
        return grade(written).name
    except UnknownItem:
        return written.strip().lower()
