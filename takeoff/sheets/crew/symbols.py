"""The set of layout symbols: what each means, once for all lines of a delivery."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from takeoff.model.building import FramedBuilding
    from takeoff.model.layout import LayoutMark

EDGES = {
    "[": "left edge of an opening",
    "CL": "centre of an opening",
    "]": "right edge of an opening",
    "<": "left side of a wall that ends here",
    "T": "middle of a wall that ends here",
    ">": "right side of a wall that ends here",
    "/": "face of a partition",
    "_": "bottom of a stick",
    "^": "top of a stick or of the deck",
}
"""Symbols of places, whose words on a line name the opening, the wall or the stick."""

_SOLE = "edge of a dormer's sole"
"""Which one is told under its own line."""
_PLACES = ("[", "]", "|")


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
                words = _words(mark)
                place = mark.symbol in _PLACES or words in EDGES.values()
                said = found.setdefault((line.load, place, mark.symbol), [])
                if words not in said:
                    said.append(words)
    return tuple(
        SymbolRow(load=load, symbol=symbol, what=" or ".join(sorted(said)))
        for (load, _, symbol), said in sorted(found.items())
    )


def _words(mark: LayoutMark) -> str:
    """What a mark is, whatever the opening, the wall or the dormer is called."""
    edge = EDGES.get(mark.symbol)
    if edge and f"{edge.partition(' of ')[0]} of " in mark.what:
        return edge
    if mark.symbol in _PLACES and "sole" in mark.what:
        return _SOLE
    return mark.what.split(",")[0]
