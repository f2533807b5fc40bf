"""The set of layout symbols: what each means, once for all lines of a delivery."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from takeoff.model.building import FramedBuilding

EDGES = {
    "[": "left edge of an opening",
    "CL": "centre of an opening",
    "]": "right edge of an opening",
    "<": "left side of a wall that ends here",
    "T": "middle of a wall that ends here",
    ">": "right side of a wall that ends here",
    "/": "face of a partition",
    "_": "lower edge",
    "^": "upper edge",
}
"""Symbols of places, whose words on a line name the opening, the wall or the stick."""

PLACES = ("edge of", "side of", "centre of", "middle of a wall", "face of", "top of", "bottom of")


@dataclass(frozen=True, slots=True, kw_only=True)
class SymbolRow:
    """A symbol of the layout marks of a delivery."""

    load: int
    symbol: str
    what: str


def symbol_rows(buildings: Iterable[FramedBuilding]) -> tuple[SymbolRow, ...]:
    """All symbols by delivery: sticks first, then openings and walls."""
    found: dict[tuple[int, bool, str], list[str]] = {}
    for building in buildings:
        for line in building.lines:
            for mark in line.marks:
                place = any(words in mark.what for words in PLACES)
                words = EDGES.get(mark.symbol, mark.what) if place else mark.what.split(",")[0]
                said = found.setdefault((line.load, place, mark.symbol), [])
                if words not in said:
                    said.append(words)
    return tuple(
        SymbolRow(load=load, symbol=symbol, what=" or ".join(sorted(said)))
        for (load, _, symbol), said in sorted(found.items())
    )
