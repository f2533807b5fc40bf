"""A sheet problem in whole numbers: one group for each product, since only those share sheets.

A kerf wider than the gap takes the difference from the sheet with every cut, along and across; as with sticks, it is
added to every panel and, once, to the sheet, whose edges need no cut.
"""

from __future__ import annotations

from dataclasses import dataclass

from takeoff.cutting.costs import compared_costs
from takeoff.cutting.natural import natural_key
from takeoff.cutting.sheet_problem import PanelPiece, SheetOffer, SheetProblem
from takeoff.cutting.steps import steps_down, steps_up


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """A sheet on sale. ``cost`` is its price in cents, or stands in for it where that isn't known."""

    length_in: float
    width_in: float
    length: int
    width: int
    cost: int

    def holds(self, length: int, width: int) -> bool:
        """Whether something of that length and width fits on it."""
        return length <= self.length and width <= self.width


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """A single panel to cut, by its least rectangle."""

    piece: PanelPiece
    length: int
    width: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetGroup:
    """Panels that may share sheets, and those sheets."""

    product: str
    sizes: tuple[Size, ...]
    """On sale, shortest first."""
    blanks: tuple[Blank, ...]
    """Widest first, then longest, then by mark and building."""


def sheet_groups_of(problem: SheetProblem) -> tuple[SheetGroup, ...]:
    """The groups of a problem, by product.

    Raises:
        ValueError: a panel is larger than every sheet of its product.
    """
    products = sorted({piece.product for piece in problem.pieces}, key=natural_key)
    return tuple(_group(problem, product) for product in products)


def _group(problem: SheetProblem, product: str) -> SheetGroup:
    offers = tuple(offer for offer in problem.offers if offer.product == product)
    pieces = [piece for piece in problem.pieces if piece.product == product]
    excess = excess_of(offers, problem.kerf_in)
    sizes = sizes_of(offers, excess)
    blanks = [
        Blank(piece=piece, length=steps_up(piece.length_in) + excess, width=steps_up(piece.width_in) + excess)
        for piece in pieces
        for _ in range(piece.qty)
    ]
    for blank in blanks:
        if not any(size.holds(blank.length, blank.width) for size in sizes):
            piece = blank.piece
            raise ValueError(
                f"no sheet of {product} holds panel {piece.mark} of {piece.building},"
                f" {piece.length_in:g} in along the strength axis by {piece.width_in:g} in"
            )
    return SheetGroup(product=product, sizes=sizes, blanks=tuple(sorted(blanks, key=_widest_first)))


def _widest_first(blank: Blank) -> tuple[object, ...]:
    return (-blank.width, -blank.length, natural_key(blank.piece.mark), blank.piece.building)


def excess_of(offers: tuple[SheetOffer, ...], kerf_in: float) -> int:
    """What a kerf [in] takes beyond the gap between sheets [steps]."""
    return steps_up(max(0.0, kerf_in - min((offer.gap_in for offer in offers), default=0.0)))


def sizes_of(offers: tuple[SheetOffer, ...], excess: int) -> tuple[Size, ...]:
    """The sizes of one product on sale, shortest first; what can't be told apart is there once.

    Args:
        offers: of the product.
        excess: what the kerf takes beyond the gap [steps].
    """
    costs = compared_costs(
        [offer.length_in * offer.width_in for offer in offers], [offer.price_usd for offer in offers]
    )
    sizes = (
        Size(
            length_in=offer.length_in,
            width_in=offer.width_in,
            length=steps_down(offer.length_in) + excess,
            width=steps_down(offer.width_in) + excess,
            cost=cost,
        )
        for offer, cost in zip(offers, costs, strict=True)
    )
    return tuple(sorted(dict.fromkeys(sizes), key=lambda size: (size.length, size.width, size.cost)))
