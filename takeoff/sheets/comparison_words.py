"""Other ways to buy and cut the boards, in words."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.measure import format_inches
from takeoff.model.comparison import Buying, Comparison, Nesting

_NUMBERS = {1: "one length", 2: "two lengths", 3: "three lengths"}


def buying_words(comparison: Comparison) -> Iterator[str]:
    """``in two lengths at most: $3,305.26, $50.99 more, 176 boards of 13 kinds``, a line for each way to buy."""
    here = next((buying for buying in comparison.buyings if buying.chosen), None)
    for buying in comparison.buyings:
        yield f"{_lengths(buying)}: ${buying.cost_usd:,.2f}{_beside(buying, here)}, {_boards(buying)}"


def _lengths(buying: Buying) -> str:
    if buying.max_lengths is None:
        return "in any lengths"
    words = _NUMBERS.get(buying.max_lengths, f"{buying.max_lengths} lengths")
    return f"in {words} only" if buying.max_lengths == 1 else f"in {words} at most"


def _beside(buying: Buying, here: Buying | None) -> str:
    if here is None or buying.chosen:
        return ", as cut here"
    more = buying.cost_usd - here.cost_usd
    if abs(more) < 0.005:  # half a cent
        return ", the same"
    about = "" if buying.cost_usd == buying.bound_usd else " at most" if more > 0 else " at least"
    return f", ${abs(more):,.2f} {'more' if more > 0 else 'less'}{about}"


def _boards(buying: Buying) -> str:
    boards = "1 board" if buying.boards == 1 else f"{buying.boards:,} boards"
    return f"{boards} of {buying.lengths} kind{'s' * (buying.lengths != 1)}"


def nesting_words(nesting: Nesting | None, denominator: int) -> str:
    """What slanted ends that lie against each other save; nothing where there are none."""
    if nesting is None:
        return ""
    length = format_inches(nesting.overlap_in, denominator=denominator)
    money = f" and ${nesting.saving_usd:,.2f}" if nesting.saving_usd >= 0.005 else ""
    return f"{shared_cuts(nesting.shared_cuts)}, which saves {length} of board{money}"


def shared_cuts(count: int) -> str:
    """``9 saw cuts make two slanted ends each``."""
    return "1 saw cut makes two slanted ends" if count == 1 else f"{count} saw cuts make two slanted ends each"
