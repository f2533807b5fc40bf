"""Offers: what is on sale for the pieces of a job, and at what price."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.prices import PriceList
from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import SheetProduct, sheet_product
from takeoff.cutting.natural import natural_key
from takeoff.cutting.problem import Offer
from takeoff.cutting.sheet_problem import PanelPiece, SheetOffer
from takeoff.cutting.steps import holds, is_whole_feet, whole_feet_up
from takeoff.model.stock import Piece

_EASY_IN = 288.0
"""Sticks up to this length come on any truck, whatever is cut from them [in]. Common practice, no source."""


def offers_for(pieces: tuple[Piece, ...], prices: PriceList, trim_in: float = 0.0) -> tuple[Offer, ...]:
    """Every stock length of each profile and grade among the pieces, and special lengths for those too long for it.

    Args:
        pieces: what is to be cut.
        prices: of the sticks.
        trim_in: to be cut off each end of a stick sold by the foot [in]; a precut one is made to its length.
    """
    kinds = sorted({(piece.profile, piece.grade) for piece in pieces}, key=lambda kind: (natural_key(kind[0]), kind[1]))
    return tuple(offer for kind in kinds for offer in _offers_of_kind(*kind, pieces, prices, trim_in))


def _offers_of_kind(
    name: str, grade: str, pieces: tuple[Piece, ...], prices: PriceList, trim_in: float
) -> Iterator[Offer]:
    wanted = {piece.length_in for piece in pieces if (piece.profile, piece.grade) == (name, grade)}
    on_sale = _liftable(stock_lengths(profile(name), grade), max(wanted, default=0.0) + 2 * trim_in)
    too_long = {
        whole_feet_up(length + 2 * trim_in)
        for length in wanted
        if not any(holds(stock - 2 * _trim(stock, trim_in), length) for stock in on_sale)
    }
    for lengths, special in ((on_sale, False), (sorted(too_long), True)):
        for length_in in lengths:
            price_usd = prices.lookup(name, grade, length_in)
            yield Offer(
                profile=name,
                grade=grade,
                length_in=length_in,
                price_usd=price_usd,
                special=special,
                trim_in=_trim(length_in, trim_in),
            )


def _liftable(lengths: tuple[float, ...], longest: float) -> tuple[float, ...]:
    """Without what is longer than any piece asks for: beams for two spans don't arrive as one stick."""
    enough = max(_EASY_IN, min((length for length in lengths if holds(length, longest)), default=longest))
    return tuple(length for length in lengths if length <= enough)


def _trim(stock_length_in: float, trim_in: float) -> float:
    return trim_in if is_whole_feet(stock_length_in) else 0.0


def sheet_offers_for(pieces: tuple[PanelPiece, ...], prices: PriceList) -> tuple[SheetOffer, ...]:
    """Every size of every sheet product among the pieces."""
    return sheet_offers({piece.product for piece in pieces}, prices)


def sheet_offers(names: Collection[str], prices: PriceList) -> tuple[SheetOffer, ...]:
    """Every size of some sheet products: those of the catalog, and lengths that only the price list has."""
    products = (sheet_product(name) for name in sorted(names, key=natural_key))
    return tuple(
        SheetOffer(
            product=product.name,
            length_in=length_in,
            width_in=width_in,
            gap_in=product.gap_in,
            price_usd=prices.lookup(product.name, product.face, length_in),
        )
        for product in products
        for width_in, length_in in _sizes(product, prices)
    )


def _sizes(product: SheetProduct, prices: PriceList) -> tuple[tuple[float, float], ...]:
    """Such as sheets made for one height of wall, 97-1/8" long; as wide as the catalog's first."""
    width_in = product.sizes[0][0]
    priced = ((width_in, length_in) for length_in in prices.lengths_of(product.name) if length_in >= width_in)
    return tuple(sorted({*product.sizes, *priced}))
