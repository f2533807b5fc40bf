"""The sheet cutter: all panels of a job from sheets at least cost."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from takeoff.catalog.sheets import sheet_product
from takeoff.cutting.bound import area_bound
from takeoff.cutting.ids import stock_ids
from takeoff.cutting.natural import natural_key
from takeoff.cutting.sheet.columns import Job
from takeoff.cutting.sheet.dual_feasible import fewest_sheets
from takeoff.cutting.sheet.pack import Packed, packed
from takeoff.cutting.sheet.placing import Posed, leftovers, placed
from takeoff.cutting.sheet.pricing import Pattern, Stock
from takeoff.cutting.sheet.shape import Shape, shape_of
from takeoff.cutting.sheet.stocks import Sale, sales_of, stocks_of
from takeoff.cutting.sheet_groups import guests_of, products_of, sharing
from takeoff.cutting.sheet_problem import PanelPiece, SheetProblem
from takeoff.cutting.stop import StopRule
from takeoff.model.stock import Sheet, SheetCutting, SheetProof

SHEATHING_LOAD = 3
"""Sheets of walls and roofs ride on one delivery; those of floors come with the floors."""

FLOOR_LOAD = 1


def sheet_load(product: str) -> int:
    """The delivery that sheets of a product ride on."""
    return FLOOR_LOAD if sheet_product(product).for_floors else SHEATHING_LOAD


def cut_exactly(problem: SheetProblem, *, stop: StopRule, seed: int = 0) -> SheetCutting:
    """Sheets by column generation. There is no chance in it, and its limits are its own: neither changes anything.

    Raises:
        ValueError: a panel is larger than every sheet of its product.
    """
    del stop, seed
    products = products_of(problem)
    sales = sales_of(products, problem.offers, problem.kerf_in)
    sheets: list[Sheet] = []
    proofs: list[SheetProof] = []
    for shared in sharing(problem):
        found, proof = _cut(problem, shared, sales)
        sheets += found
        proofs.append(proof)
    return SheetCutting(sheets=_named(sheets), area_bound=area_bound(problem), proofs=tuple(proofs))


def _cut(
    problem: SheetProblem, products: tuple[str, ...], sales: Mapping[str, Sale]
) -> tuple[tuple[Sheet, ...], SheetProof]:
    alone = replace(problem, pieces=tuple(piece for piece in problem.pieces if piece.product in products))
    waiting: dict[tuple[str, Shape], deque[Posed]] = {}
    for piece in sorted(alone.pieces, key=lambda p: (natural_key(p.mark), p.building)):
        shape, pose = _shape(piece)
        waiting.setdefault((piece.product, shape), deque()).extend([Posed(piece, pose)] * piece.qty)
    wanted = tuple(len(queue) for queue in waiting.values())
    numbers = {key: number for number, key in enumerate(waiting)}
    guests = {product: guests_of(product, alone) for product in products}
    stocks = stocks_of(products, sales, numbers, guests)
    cut = packed(Job(stocks=stocks, wanted=wanted, most=wanted))
    sheets = tuple(_sheets(problem, products, cut, stocks, sales, dict(enumerate(waiting.values()))))
    least = max(area_bound(alone), _fewest(tuple(waiting), wanted, [sales[product] for product in products]))
    return sheets, _proof(alone, products, cut, len(sheets), least)


def _fewest(keys: Sequence[tuple[str, Shape]], wanted: Sequence[int], shared: Sequence[Sale]) -> int:
    """Sheets that no cutting goes below, of whichever product they are."""
    excess = min(sale.excess for sale in shared)
    longest = max(sale.longest - sale.excess for sale in shared)
    widest = max(source.width - sale.excess for sale in shared for source in sale.sources)
    return fewest_sheets([shape for _, shape in keys], wanted, (longest, widest), excess)


def _shape(piece: PanelPiece) -> tuple[Shape, tuple[int, int]]:
    around = ((0.0, 0.0), (piece.length_in, 0.0), (piece.length_in, piece.width_in), (0.0, piece.width_in))
    return shape_of(piece.corners_in or around, flips=piece.flips)


def _sheets(
    problem: SheetProblem,
    products: Sequence[str],
    cut: Packed,
    stocks: Sequence[Stock],
    sales: Mapping[str, Sale],
    waiting: dict[int, deque[Posed]],
) -> Iterator[Sheet]:
    # Of every stock the fullest first, so that what is made too much is made on the last, which may then not be needed
    # at all; before them what has guests, whose own sheets are cheaper.
    def order(pattern: Pattern) -> tuple[object, ...]:
        filled = tuple((-strip.height, -strip.length) for strip in pattern.strips)
        return (not stocks[pattern.stock].guests, pattern.stock, pattern.source, filled)

    for pattern in sorted(cut.patterns, key=order):
        product = products[pattern.stock]
        pieces = placed(pattern, stocks[pattern.stock], waiting)
        length_in, width_in = sales[product].sizes_in[pattern.source]
        if pieces:
            yield Sheet(
                sheet_id="",
                load=sheet_load(product),
                product=product,
                length_in=length_in,
                width_in=width_in,
                pieces=pieces,
                leftovers=tuple(leftovers(pieces, length_in, width_in, problem.kerf_in)),
            )


def _proof(alone: SheetProblem, products: tuple[str, ...], cut: Packed, sheets: int, least: int) -> SheetProof:
    priced = all(offer.price_usd is not None for offer in alone.offers if offer.product in products)
    return SheetProof(
        products=products,
        sheets=sheets,
        area_bound=area_bound(alone),
        sheet_bound=least,
        cost_usd=cut.cost / 100 if priced else None,
        bound_usd=cut.bound / 100 if priced else None,
    )


def _named(sheets: list[Sheet]) -> tuple[Sheet, ...]:
    """In order, by product, size and what is cut, with ids."""
    in_order = sorted(sheets, key=_place)
    ids = stock_ids((sheet.load, sheet.product, "") for sheet in in_order)
    return tuple(replace(sheet, sheet_id=sheet_id) for sheet, sheet_id in zip(in_order, ids, strict=True))


def _place(sheet: Sheet) -> tuple[object, ...]:
    sizes = tuple((piece.y_in, piece.x_in, -piece.length_in, -piece.width_in) for piece in sheet.pieces)
    names = tuple((natural_key(piece.mark), piece.building) for piece in sheet.pieces)
    return (natural_key(sheet.product), sheet.length_in, sheet.width_in, sizes, names)
