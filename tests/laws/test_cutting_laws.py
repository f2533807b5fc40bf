"""Laws of cutting: what holds of any pieces, any stock and any saw, whatever cutter is in use."""

from __future__ import annotations

from collections import Counter
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box
from stock_shop import a_panel_piece, a_piece

from takeoff.cutting.lumber import LumberProblem, Offer, cut
from takeoff.cutting.sheets import SheetOffer, SheetProblem, cut_sheets

TINY = 1e-6
CENT = 0.005
MANY = settings(max_examples=60, deadline=None)

nasty_lengths = st.sampled_from(
    [0.0625, 12.0, 31.9375, 48.0, 92.625, 96.0, 100 / 3, 163.8125, 163.81, 240.0, 240.01, 288.0]
)
lengths = nasty_lengths | st.floats(0.5, 300.0)
kerfs = st.sampled_from([0.0, 0.0625, 0.125, 0.25, 0.1])
prices = st.none() | st.floats(0.0, 60.0)
stock_lengths = st.lists(
    st.sampled_from([92.625, 96.0, 120.0, 144.0, 168.0, 192.0, 216.0, 240.0]), min_size=1, max_size=5, unique=True
)


@st.composite
def lumber_problems(draw: st.DrawFn) -> LumberProblem:
    kinds = draw(st.lists(st.tuples(st.sampled_from([1, 2]), st.sampled_from(["2x4", "2x10"])), min_size=1, max_size=3))
    pieces = tuple(
        a_piece(f"S{number}", draw(lengths), draw(st.integers(1, 12)), load=load, profile=profile)
        for number, (load, profile) in enumerate(kinds * draw(st.integers(1, 4)), start=1)
    )
    offers = tuple(
        Offer(profile=profile, grade="stud", length_in=length_in, price_usd=draw(prices))
        for profile in ("2x4", "2x10")
        for length_in in draw(stock_lengths)
    )
    return LumberProblem(pieces=pieces, offers=offers, kerf_in=draw(kerfs))


@st.composite
def sheet_problems(draw: st.DrawFn) -> SheetProblem:
    products = ("cdx-5/8", "osb-7/16")
    pieces = tuple(
        a_panel_piece(
            f"F{number}",
            draw(st.sampled_from([16.0, 32.0, 48.0, 64.0, 95.875, 96.0]) | st.floats(0.5, 96.0)),
            draw(st.sampled_from([12.0, 16.0, 24.0, 48.0]) | st.floats(0.5, 48.0)),
            draw(st.integers(1, 6)),
            product=draw(st.sampled_from(products)),
        )
        for number in range(1, draw(st.integers(1, 9)) + 1)
    )
    offers = tuple(
        SheetOffer(product=product, length_in=length_in, width_in=48.0, gap_in=0.125, price_usd=draw(prices))
        for product in products
        for length_in in (96.0, 108.0)
    )
    return SheetProblem(pieces=pieces, offers=offers, kerf_in=draw(kerfs))


@MANY
@given(lumber_problems())
def test_cuts_and_kerfs_never_exceed_their_stock(problem):
    for board in cut(problem).boards:
        used = sum(one.length_in for one in board.cuts) + problem.kerf_in * (len(board.cuts) - 1)
        assert used <= board.stock_length_in + TINY


@MANY
@given(lumber_problems())
def test_every_piece_is_cut_exactly_as_often_as_wanted(problem):
    wanted = Counter()
    for piece in problem.pieces:
        wanted[piece.mark, piece.length_in, piece.load, piece.profile] += piece.qty
    boards = cut(problem).boards
    assert Counter((c.mark, c.length_in, board.load, board.profile) for board in boards for c in board.cuts) == wanted
    assert len({board.stock_id for board in boards}) == len(boards)


@MANY
@given(lumber_problems())
def test_boards_are_of_lengths_on_sale_and_special_only_for_pieces_that_are_too_long(problem):
    for board in cut(problem).boards:
        on_sale = {offer.length_in for offer in problem.offers if offer.profile == board.profile}
        if board.special:
            (only,) = board.cuts
            assert only.length_in > max(on_sale)
            assert board.stock_length_in % 12 == 0
        else:
            assert board.stock_length_in in on_sale


@MANY
@given(lumber_problems())
def test_no_cutting_costs_less_than_its_bound(problem):
    cutting = cut(problem)
    assert cutting.bound_usd <= cutting.cost_usd + CENT / 10


@MANY
@given(lumber_problems(), st.randoms(use_true_random=False))
def test_boards_do_not_depend_on_the_order_of_pieces_and_offers(problem, random):
    pieces, offers = list(problem.pieces), list(problem.offers)
    random.shuffle(pieces)
    random.shuffle(offers)
    shuffled = LumberProblem(pieces=tuple(pieces), offers=tuple(offers), kerf_in=problem.kerf_in)
    assert cut(shuffled, seed=1) == cut(problem, seed=1)


@MANY
@given(sheet_problems())
def test_no_panel_leaves_its_sheet_nor_overlaps_another(problem):
    for sheet in cut_sheets(problem).sheets:
        whole = box(0.0, 0.0, sheet.length_in, sheet.width_in).buffer(TINY)
        shapes = [box(p.x_in, p.y_in, p.x_in + p.length_in, p.y_in + p.width_in) for p in sheet.pieces]
        assert all(whole.covers(shape) for shape in shapes)
        assert all(a.intersection(b).area < TINY for a, b in combinations(shapes, 2))


@MANY
@given(sheet_problems())
def test_every_panel_is_cut_exactly_as_often_as_wanted(problem):
    wanted = Counter()
    for piece in problem.pieces:
        wanted[piece.mark, piece.product, piece.length_in, piece.width_in] += piece.qty
    sheets = cut_sheets(problem).sheets
    assert Counter((p.mark, s.product, p.length_in, p.width_in) for s in sheets for p in s.pieces) == wanted
    assert len({sheet.sheet_id for sheet in sheets}) == len(sheets)


@MANY
@given(sheet_problems())
def test_no_cutting_takes_fewer_sheets_than_its_bounds(problem):
    cutting = cut_sheets(problem)
    assert len(cutting.sheets) >= cutting.area_bound
    assert all(proof.sheets >= proof.sheet_bound >= proof.area_bound for proof in cutting.proofs)


@MANY
@given(sheet_problems(), st.randoms(use_true_random=False))
def test_sheets_do_not_depend_on_the_order_of_panels_and_offers(problem, random):
    pieces, offers = list(problem.pieces), list(problem.offers)
    random.shuffle(pieces)
    random.shuffle(offers)
    shuffled = SheetProblem(pieces=tuple(pieces), offers=tuple(offers), kerf_in=problem.kerf_in)
    assert cut_sheets(shuffled, seed=1) == cut_sheets(problem, seed=1)
