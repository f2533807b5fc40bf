"""The exact cutter as a whole: least cost, what is proven of it, and how ties are broken."""

from __future__ import annotations

from dataclasses import replace

import pytest
from cutting_checker import check_boards, check_certificate, least_cost
from hypothesis import given, settings
from hypothesis import strategies as st
from stock_shop import a_piece, by_the_foot

from takeoff.cutting.exact.effort import Effort, patient
from takeoff.cutting.exact.group import searched
from takeoff.cutting.exact.instance import Instance, Item, Stock
from takeoff.cutting.exact.pattern import is_whole
from takeoff.cutting.exact.solve import solve, solve_groups
from takeoff.cutting.fitting import fit
from takeoff.cutting.problem import LumberProblem, Offer
from takeoff.cutting.stop import MaxRounds
from takeoff.model.stock import Stop

FEW = settings(max_examples=25, deadline=None)
CENT = 0.005

# Dearer a foot when long, as at a yard; so that no two cuttings cost the same by chance.
YARD = tuple(
    Offer(profile="2x4", grade="stud", length_in=12.0 * feet, price_usd=usd)
    for feet, usd in ((8, 6.67), (10, 8.34), (12, 10.01), (14, 11.68), (16, 13.35), (18, 15.92), (20, 18.02))
)


def solved(problem):
    return solve(problem, stop=MaxRounds())


def a_job(*lengths_and_counts, offers=YARD, **more):
    pieces = tuple(a_piece(f"S{n}", *one) for n, one in enumerate(lengths_and_counts, start=1))
    return LumberProblem(pieces=pieces, offers=offers, kerf_in=0.125, **more)


HOUSE = a_job(
    (92.625, 42), (81.0, 6), (31.0, 7), (6.125, 9), (104.042, 4), (125.375, 4), (146.708, 4), (229.0, 2), (14.5, 24)
)


@st.composite
def small_instances(draw: st.DrawFn) -> Instance:
    saving = draw(st.sampled_from([(), (3,)]))
    widths = draw(st.lists(st.integers(8, 30), min_size=1, max_size=3, unique=True))
    items = [Item(width=w, qty=draw(st.integers(1, 3))) for w in sorted(widths, reverse=True)]
    if saving:
        items.append(Item(width=draw(st.integers(8, 30)), qty=draw(st.integers(1, 3)), chain=0))
    stocks = [
        Stock(capacity=c, cost=draw(st.integers(0, 30)), limit=draw(st.none() | st.integers(1, 3)))
        for c in draw(st.lists(st.integers(30, 64), min_size=1, max_size=3, unique=True).map(sorted))
    ]
    return Instance(items=tuple(items), stocks=tuple(stocks), savings=saving)


@FEW
@given(small_instances())
def test_small_problems_are_solved_and_proven_as_trying_everything_has_it(instance):
    least = least_cost(instance)
    if least is None:
        with pytest.raises(ValueError, match="not enough stock"):
            searched(instance, 10, Effort(), patient())
    else:
        found = searched(instance, 10, Effort(), patient())
        assert is_whole(instance, found.plan)
        assert (found.plan.cost(instance), found.bound) == (least, least)
        check_certificate(instance, found.certificate)


@FEW
@given(st.lists(st.tuples(st.floats(3.0, 240.0), st.integers(1, 9)), min_size=1, max_size=9), st.randoms())
def test_boards_and_their_proof_pass_an_independent_check_and_cost_no_more_than_a_fit(lengths, shuffle):
    problem = a_job(*lengths)
    (one,) = solve_groups(problem, stop=MaxRounds())
    cutting = solved(problem)
    check_boards(problem, cutting)
    bound = check_certificate(one.coded.instance, one.certificate)
    assert cutting.cost_usd <= fit(problem, stop=MaxRounds()).cost_usd + CENT
    assert bound / one.certificate.scale / 100 <= cutting.bound_usd + CENT <= cutting.cost_usd + 2 * CENT
    turned = list(problem.pieces)
    shuffle.shuffle(turned)
    assert solved(replace(problem, pieces=tuple(turned), offers=YARD[::-1])) == cutting


def test_a_house_is_cut_at_the_least_cost_and_that_is_proven():
    cutting = solved(HOUSE)
    assert cutting.stopped_by is Stop.PROVEN
    assert cutting.cost_usd == cutting.bound_usd < fit(HOUSE, stop=MaxRounds()).cost_usd
    (proof,) = cutting.proofs
    assert (proof.proven, proof.gap_usd, proof.gap_pct) == (True, 0.0, 0.0)


def test_the_same_boards_come_whatever_was_solved_before_and_whatever_the_seed():
    cutting = solve(HOUSE, stop=MaxRounds(), seed=1)
    solved(a_job((50.0, 40), (33.0, 21)))
    assert solve(HOUSE, stop=MaxRounds(), seed=2) == cutting


def test_of_equally_cheap_cuttings_the_one_of_fewest_boards_is_taken():
    # Two of 90 in come out of two of 8 ft or one of 16 ft, at a dollar a foot both.
    cutting = solved(a_job((90.0, 4), offers=by_the_foot(8, 16)))
    assert [board.stock_length_in for board in cutting.boards] == [192.0, 192.0]


def test_then_the_one_of_fewest_patterns():
    instance = Instance(items=(Item(width=50, qty=12), Item(width=40, qty=12)), stocks=(Stock(capacity=150, cost=1),))
    found = searched(instance, 150, Effort(), patient())
    assert found.plan.boards == 8  # 12 x 50 and 12 x 40 are 1080: more than seven boards hold
    assert len(found.plan.uses) == 2


def test_then_the_one_of_the_longest_single_leftovers():
    # Three of 50 and three of 40 in from boards of 180 in: two boards, and 90 in are left over, best in one piece.
    instance = Instance(items=(Item(width=50, qty=3), Item(width=40, qty=3)), stocks=(Stock(capacity=180, cost=1),))
    found = searched(instance, 24, Effort(), patient())
    rests = sorted(180 - instance.taken(pattern.content) for pattern, n in found.plan.uses for _ in range(n))
    assert rests == [0, 90]  # 50 + 50 + 40 + 40 fill one


def test_a_search_that_is_stopped_gives_the_best_so_far_with_a_bound_that_holds():
    least = solved(HOUSE).cost_usd
    for rounds in (1, 2, 3, 5, 9):
        cutting = solve(HOUSE, stop=MaxRounds(rounds))
        check_boards(HOUSE, cutting)
        assert cutting.bound_usd <= least + CENT <= cutting.cost_usd + 2 * CENT
        assert cutting.stopped_by is (Stop.PROVEN if cutting.cost_usd == cutting.bound_usd else Stop.OUT_OF_TIME)
    assert solve(HOUSE, stop=MaxRounds(1)).stopped_by is Stop.OUT_OF_TIME


def test_least_cost_is_not_claimed_where_a_price_is_not_known():
    offers = (*YARD[:3], replace(YARD[3], price_usd=None))
    cutting = solved(a_job((92.625, 5), (14.5, 9), offers=offers))
    assert cutting.stopped_by is Stop.FITTED
    assert (cutting.bound_usd, cutting.proofs[0].proven) == (0.0, False)


def test_sticks_that_cost_nothing_are_no_trouble():
    cutting = solved(a_job((92.625, 5), (14.5, 9), offers=(replace(YARD[0], price_usd=0.0), YARD[3])))
    assert (cutting.cost_usd, cutting.stopped_by) == (0.0, Stop.PROVEN)


def test_nothing_is_printed(capfd):
    solved(HOUSE)
    assert capfd.readouterr() == ("", "")


def test_a_gap_that_is_not_closed_is_told_and_no_least_cost_claimed():
    # Without dives, integer programmes and proof only the fit and the bound of the prices are left.
    effort = Effort(dives=(), whole_columns=0, whole_cells=0, big_items=1, tidy_nodes=1)
    (one,) = solve_groups(a_job((61.0, 4), (43.0, 7), (17.0, 3)), stop=MaxRounds(), effort=effort)
    cost = sum(filled.stick.cost for filled in one.filling.sticks)
    assert one.filling.bound < cost
    assert one.filling.finished
