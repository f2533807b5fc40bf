"""What the other ways to lay the sheets would cost, in words: simpler grades, and the other way to meet openings."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from takeoff.model.stock import LayUpKind, LayUpTried
from takeoff.model.takeoff import Takeoff

_AGAINST = {
    LayUpKind.WHOLE_COURSE: "whole sheets of the exposed grade along its edges",
    LayUpKind.ALL_EXPOSED: "all sheets of the exposed grade",
    LayUpKind.RUN_PAST: "sheets that run past the openings, cut out afterwards,",
    LayUpKind.BROKEN: "sheets broken at the sides of the openings",
}


def grade_words(takeoff: Takeoff) -> Iterator[str]:
    """A sentence for each building and other way: what it costs beside what is laid."""
    return _sentences(takeoff, _AGAINST)


def opening_words(takeoff: Takeoff) -> Iterator[str]:
    """Those sentences that are about how sheets meet openings."""
    return _sentences(takeoff, (LayUpKind.RUN_PAST, LayUpKind.BROKEN))


def _sentences(takeoff: Takeoff, kinds: Collection[LayUpKind]) -> Iterator[str]:
    laid: LayUpTried | None = None
    for tried in takeoff.sheets.tried:  # what is laid stands before what was tried in its place
        if tried.kind is LayUpKind.AS_LAID:
            laid = tried
        elif tried.kind in kinds and laid is not None:
            yield _sentence(laid, tried)


def _sentence(laid: LayUpTried, tried: LayUpTried) -> str:
    against = f"{tried.building}: with {_AGAINST[tried.kind]} on {tried.faces}, {tried.sheets} sheets"
    if tried.cost_usd is None or laid.cost_usd is None:
        return f"{against} in place of {laid.sheets}; prices to be asked."
    saved = tried.cost_usd - laid.cost_usd
    more = f"${saved:,.2f} more" if saved >= 0 else f"${-saved:,.2f} less"
    return f"{against} for ${tried.cost_usd:,.2f}: {more} than the {laid.sheets} for ${laid.cost_usd:,.2f} laid here."
