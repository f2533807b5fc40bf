"""Of cuttings that cost the same: fewest boards, then fewest patterns, then the longest single leftovers."""

from __future__ import annotations

from dataclasses import replace

from stock_shop import a_piece

from takeoff.cutting.exact.effort import Effort, patient
from takeoff.cutting.exact.group import made_tidy, searched, sought
from takeoff.cutting.exact.instance import Instance, Item, Stock
from takeoff.cutting.lumber import LumberProblem, cut
from takeoff.cutting.problem import Offer

UNTIDIED = replace(Effort(), tidy_columns=0)


def test_of_equal_costs_the_fewest_boards_are_cut():
    # Four pieces of 40 in: two boards of 80-1/8 in at $4, or one of 160-3/8 in at $8.
    offers = tuple(
        Offer(profile="2x4", grade="stud", length_in=length, price_usd=usd) for length, usd in ((80.125, 4), (161.0, 8))
    )
    cutting = cut(LumberProblem(pieces=(a_piece("C1", 40.0, 4),), offers=offers, kerf_in=0.125))
    assert (cutting.cost_usd, len(cutting.boards)) == (8.0, 1)


def test_the_number_of_patterns_is_lowered_at_the_same_cost_and_boards():
    # Bins of 100 take these by twos and threes in many ways; the first plan found has more set-ups than needed.
    sizes = ((61, 6), (52, 6), (47, 8), (39, 9), (33, 7), (27, 10), (21, 9), (14, 8))
    items = tuple(Item(width=width, qty=qty) for width, qty in sizes)
    instance = Instance(items=items, stocks=(Stock(capacity=100, cost=1),))
    found = sought(instance, Effort(), patient())
    assert found.plan is not None
    tidy = made_tidy(instance, found.plan, found, 1000, Effort(), patient())
    assert tidy.cost(instance) == found.plan.cost(instance) == found.bound
    assert tidy.boards == found.plan.boards
    assert len(tidy.uses) < len(found.plan.uses)


def test_fewer_patterns_never_cost_a_board_and_fewer_boards_never_cost_money():
    items = tuple(Item(width=width, qty=3 + width % 4) for width in (43, 38, 31, 26, 19, 12))
    instance = Instance(items=items, stocks=(Stock(capacity=96, cost=48), Stock(capacity=144, cost=72)))
    plain, tidy = (searched(instance, 24, effort, patient()).plan for effort in (UNTIDIED, Effort()))

    def rank(plan):
        return plan.cost(instance), plan.boards, len(plan.uses)

    assert rank(tidy) < rank(plain)


def test_of_equal_patterns_the_longest_single_leftover_is_kept():
    # 60 with 40 and 59 with 41 leave twice 20; 60 with 59 leaves 1, and 39 in one piece. Two patterns either way.
    pieces = (a_piece("A1", 60.0), a_piece("A2", 59.0), a_piece("B1", 41.0), a_piece("B2", 40.0))
    offers = (Offer(profile="2x4", grade="stud", length_in=120.0, price_usd=10.0),)
    cutting = cut(LumberProblem(pieces=pieces, offers=offers, kerf_in=0.125, least_leftover_in=30.0))
    assert sorted(board.leftover_in for board in cutting.boards) == [0.75, 38.75]
