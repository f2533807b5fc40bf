"""The sheet cutter: all panels of a job from sheets at least cost."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import replace

from takeoff.catalog.sheets import sheet_product
from takeoff.cutting.bound import area_bound
from takeoff.cutting.ids import stock_ids
from takeoff.cutting.natural import natural_key
from takeoff.cutting.sheet.block import blocks_of
from takeoff.cutting.sheet.columns import Job
from takeoff.cutting.sheet.dual_feasible import fewest_sheets
from takeoff.cutting.sheet.pack import Packed, packed
from takeoff.cutting.sheet.placing import Posed, leftovers, placed
from takeoff.cutting.sheet.pricing import Stock
from takeoff.cutting.sheet.shape import Shape, shape_of
from takeoff.cutting.sheet.stocks import Sale, sales_of
from takeoff.cutting.sheet_groups import sheet_groups_of
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
    groups = sheet_groups_of(problem)
    sales = sales_of({group.product for group in groups}, problem.offers, problem.kerf_in)
    sheets: list[Sheet] = []
    proofs: list[SheetProof] = []
    for group in groups:
        pieces = tuple(piece for piece in problem.pieces if piece.product == group.product)
        found, proof = _cut(problem, group.product, pieces, sales[group.product])
        sheets += found
        proofs.append(proof)
    return SheetCutting(sheets=_named(sheets), area_bound=area_bound(problem), proofs=tuple(proofs))


def _cut(
    problem: SheetProblem, product: str, pieces: tuple[PanelPiece, ...], sale: Sale
) -> tuple[tuple[Sheet, ...], SheetProof]:
    waiting: dict[Shape, deque[Posed]] = {}
    for piece in sorted(pieces, key=lambda p: (natural_key(p.mark), p.building)):
        shape, pose = _shape(piece)
        waiting.setdefault(shape, deque()).extend([Posed(piece, pose)] * piece.qty)
    wanted = tuple(len(queue) for queue in waiting.values())
    stock = Stock(blocks=blocks_of(tuple(waiting), sale.excess, sale.longest), sources=sale.sources)
    cut = packed(Job(stocks=(stock,), wanted=wanted, most=wanted))
    sheets = tuple(_sheets(problem, product, cut, stock, sale, dict(enumerate(waiting.values()))))
    largest = sale.longest - sale.excess, max(source.width for source in sale.sources) - sale.excess
    fewest = fewest_sheets(tuple(waiting), wanted, largest, sale.excess)
    return sheets, _proof(problem, product, cut, len(sheets), fewest)


def _shape(piece: PanelPiece) -> tuple[Shape, tuple[int, int]]:
    around = ((0.0, 0.0), (piece.length_in, 0.0), (piece.length_in, piece.width_in), (0.0, piece.width_in))
    return shape_of(piece.corners_in or around, flips=piece.flips)


def _sheets(
    problem: SheetProblem, product: str, cut: Packed, stock: Stock, sale: Sale, waiting: dict[int, deque[Posed]]
) -> Iterator[Sheet]:
    # The fullest first, so that what is made too much is made on the last, which may then not be needed at all.
    for pattern in sorted(cut.patterns, key=lambda p: (p.source, tuple((-s.height, -s.length) for s in p.strips))):
        pieces = placed(pattern, stock, waiting)
        length_in, width_in = sale.sizes_in[pattern.source]
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


def _proof(problem: SheetProblem, product: str, cut: Packed, sheets: int, fewest: int) -> SheetProof:
    offers = tuple(offer for offer in problem.offers if offer.product == product)
    priced = all(offer.price_usd is not None for offer in offers)
    alone = replace(problem, pieces=tuple(piece for piece in problem.pieces if piece.product == product))
    least = area_bound(alone)
    return SheetProof(
        product=product,
        sheets=sheets,
        area_bound=least,
        sheet_bound=max(least, fewest),
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
