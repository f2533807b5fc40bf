"""A sheet problem in whole numbers: sizes, and which products share sheets.

A kerf wider than the gap takes the difference from the sheet with every cut, along and across; as with sticks, it is
added to every panel and, once, to the sheet, whose edges need no cut.
"""

from __future__ import annotations

from dataclasses import dataclass

from takeoff.cutting.costs import compared_costs
from takeoff.cutting.natural import natural_key
from takeoff.cutting.sheet_problem import SheetOffer, SheetProblem
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


def products_of(problem: SheetProblem) -> tuple[str, ...]:
    """The products of a problem's pieces, in natural order.

    Raises:
        ValueError: a panel is larger than every sheet of its product.
    """
    for piece in problem.pieces:
        offers = tuple(offer for offer in problem.offers if offer.product == piece.product)
        excess = excess_of(offers, problem.kerf_in)
        length, width = steps_up(piece.length_in) + excess, steps_up(piece.width_in) + excess
        if not any(size.holds(length, width) for size in sizes_of(offers, excess)):
            raise ValueError(
                f"no sheet of {piece.product} holds panel {piece.mark} of {piece.building},"
                f" {piece.length_in:g} in along the strength axis by {piece.width_in:g} in"
            )
    return tuple(sorted({piece.product for piece in problem.pieces}, key=natural_key))


def sharing(problem: SheetProblem) -> tuple[tuple[str, ...], ...]:
    """Products in groups: pieces of one product of a group may be cut from sheets of another of it."""
    groups: list[tuple[str, ...]] = []
    for product in products_of(problem):
        near = {product, *guests_of(product, problem)}
        joined = [group for group in groups if near.intersection(_with_guests(group, problem))]
        groups = [group for group in groups if group not in joined]
        groups.append(tuple(sorted({product, *(name for group in joined for name in group)}, key=natural_key)))
    return tuple(sorted(groups, key=lambda group: natural_key(group[0])))


def guests_of(product: str, problem: SheetProblem) -> frozenset[str]:
    """Products whose pieces may be cut from sheets of a product as well: only if all of a product's pieces may."""
    others = {piece.product for piece in problem.pieces if product in piece.also}
    barred = {piece.product for piece in problem.pieces if product not in piece.also}
    return frozenset(others - barred)


def _with_guests(group: tuple[str, ...], problem: SheetProblem) -> set[str]:
    return {*group, *(name for product in group for name in guests_of(product, problem))}


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
