"""What is on sale of a product, in whole numbers, and the stocks that pieces are cut from."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from takeoff.cutting.sheet.block import Block, blocks_of
from takeoff.cutting.sheet.pricing import Source, Stock
from takeoff.cutting.sheet.shape import Shape
from takeoff.cutting.sheet_groups import excess_of, sizes_of
from takeoff.cutting.sheet_problem import SheetOffer

Numbers = Mapping[tuple[str, Shape], int]
"""Numbers of the items, which are shapes of products."""

Guests = Mapping[str, Collection[str]]
"""For a product the others whose pieces its sheets may give as well."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sale:
    """The sizes of a product as sources."""

    sources: tuple[Source, ...]
    sizes_in: tuple[tuple[float, float], ...]
    """Length and width of each [in]."""
    excess: int
    """What the kerf takes beyond the gap between sheets [steps]."""

    @property
    def longest(self) -> int:
        """The longest size [steps]."""
        return max(source.length for source in self.sources)

    @property
    def rate(self) -> float:
        """What the cheapest size costs [cents]."""
        return float(min(source.cost for source in self.sources))


def sales_of(products: Collection[str], offers: tuple[SheetOffer, ...], kerf_in: float) -> Mapping[str, Sale]:
    """What is on sale of each product."""
    return {product: _sale(tuple(o for o in offers if o.product == product), kerf_in) for product in sorted(products)}


def _sale(offers: tuple[SheetOffer, ...], kerf_in: float) -> Sale:
    excess = excess_of(offers, kerf_in)
    sizes = sizes_of(offers, excess)
    return Sale(
        sources=tuple(Source(size.length, size.width, size.cost) for size in sizes),
        sizes_in=tuple((size.length_in, size.width_in) for size in sizes),
        excess=excess,
    )


def stocks_of(
    products: Collection[str], sales: Mapping[str, Sale], numbers: Numbers, guests: Guests
) -> tuple[Stock, ...]:
    """A stock for each product, with the blocks of its own pieces and of its guests'.

    Args:
        products: in the order of the stocks.
        sales: what is on sale of each.
        numbers: of the items.
        guests: of a product.
    """
    known: dict[tuple[str, int, int], tuple[Block, ...]] = {}

    def blocks(product: str, sale: Sale) -> tuple[Block, ...]:
        key = product, sale.excess, sale.longest
        if key not in known:
            own = [(number, shape) for (name, shape), number in numbers.items() if name == product]
            # In an order of their own, so that the same pieces are cut alike whatever their numbers are.
            own.sort(key=lambda one: (one[1].width, one[1].length, one[1].corners, one[1].flips, one[1].off))
            shapes, of_shapes = [shape for _, shape in own], [number for number, _ in own]
            known[key] = blocks_of(shapes, sale.excess, sale.longest, numbers=of_shapes)
        return known[key]

    def stock(product: str) -> Stock:
        sale, hosted = sales[product], sorted(guests.get(product, ()))
        widest, longest = max(source.width for source in sale.sources), sale.longest
        found = [b for name in (product, *hosted) for b in blocks(name, sale) if name == product or b.length <= longest]
        return Stock(
            blocks=tuple(sorted((b for b in found if b.height <= widest), key=lambda b: (b.height, b.length)))
            if hosted
            else tuple(found),
            sources=sale.sources,
            guests=frozenset(number for (name, _), number in numbers.items() if name in hosted),
        )

    return tuple(stock(product) for product in products)
