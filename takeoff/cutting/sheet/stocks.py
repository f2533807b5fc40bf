"""What is on sale of a product, in whole numbers."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from takeoff.cutting.sheet.pricing import Source
from takeoff.cutting.sheet_groups import excess_of, sizes_of
from takeoff.cutting.sheet_problem import SheetOffer


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
