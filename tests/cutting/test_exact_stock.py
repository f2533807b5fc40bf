"""Stock that is limited, on hand, trimmed, or to be bought in few lengths."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from cutting_checker import check_boards, check_certificate
from stock_shop import a_piece

from takeoff.cutting.compare import buyings
from takeoff.cutting.exact.solve import solve, solve_groups
from takeoff.cutting.fitting import fit
from takeoff.cutting.problem import LumberProblem, Offer
from takeoff.cutting.stop import MaxRounds
from takeoff.model.stock import Stop

# Dearer a foot when long, so that no two choices cost the same by chance.
YARD = tuple(
    Offer(profile="2x4", grade="stud", length_in=12.0 * feet, price_usd=usd)
    for feet, usd in ((8, 7.2), (10, 9.05), (12, 10.95), (14, 12.9), (16, 14.9))
)


def a_job(*pieces, offers=YARD, **more):
    return LumberProblem(pieces=pieces, offers=offers, kerf_in=0.125, **more)


def on_hand(length_in, qty=1, **more):
    return Offer(profile="2x4", grade="stud", length_in=length_in, price_usd=0.0, limit=qty, on_hand=True, **more)


def solved(problem):
    cutting = solve(problem, stop=MaxRounds())
    check_boards(problem, cutting)
    return cutting


def test_boards_on_hand_are_used_before_any_is_bought_and_cost_nothing():
    pieces = (a_piece("S1", 92.625, 3), a_piece("C1", 30.0, 2))
    cutting = solved(a_job(*pieces, offers=(*YARD, on_hand(100.0, 2), on_hand(61.0))))
    assert [(board.on_hand, board.stock_length_in) for board in cutting.boards] == [
        (True, 100.0),
        (True, 100.0),
        (False, 96.0),
        (True, 61.0),
    ]
    assert (cutting.cost_usd, cutting.stopped_by) == (7.2, Stop.PROVEN)


def test_no_more_of_a_limited_length_is_bought_than_there_is():
    offers = (replace(YARD[0], limit=2), YARD[1])
    cutting = solved(a_job(a_piece("S1", 92.625, 5), offers=offers))
    lengths = sorted(board.stock_length_in for board in cutting.boards)
    assert lengths == [96.0, 96.0, 120.0, 120.0, 120.0]
    assert cutting.cost_usd == pytest.approx(2 * 7.2 + 3 * 9.05)
    assert cutting.stopped_by is Stop.PROVEN


def test_too_little_stock_is_an_error_that_names_the_pieces():
    offers = (YARD[0], replace(YARD[-1], limit=1))
    problem = a_job(a_piece("S1", 92.625, 5), a_piece("BP1", 181.5, 2), offers=offers)
    with pytest.raises(ValueError, match=r"there isn't enough 2x4 stud to be had for BP1 \(15'-1 1/2\"\)"):
        solve(problem, stop=MaxRounds())
    with pytest.raises(ValueError, match="there isn't enough"):  # however short the search
        solve(problem, stop=MaxRounds(1))


def test_too_few_whole_boards_are_an_error_even_where_fractions_would_do():
    # Three of 60 in from two boards of 96 in: by fractions one and a half boards would hold them.
    problem = a_job(a_piece("C1", 60.0, 3), offers=(replace(YARD[0], limit=2),))
    with pytest.raises(ValueError, match=r"2x4 stud.*C1"):
        solve(problem, stop=MaxRounds())


def test_when_long_boards_on_hand_run_out_the_rest_is_ordered_specially():
    special = Offer(profile="2x4", grade="stud", length_in=252.0, price_usd=40.0, special=True)
    problem = a_job(a_piece("BP1", 250.0, 3), offers=(*YARD, special, on_hand(264.0, 2)))
    cutting = solved(problem)
    assert [(board.stock_length_in, board.special) for board in cutting.boards] == [
        (264.0, False),
        (264.0, False),
        (252.0, True),
    ]
    assert (cutting.cost_usd, cutting.stopped_by) == (40.0, Stop.PROVEN)


def test_a_board_on_hand_is_taken_by_one_load_only_and_nothing_false_is_claimed():
    pieces = (a_piece("S1", 90.0, load=1), a_piece("C1", 90.0, load=2))
    cutting = solved(a_job(*pieces, offers=(*YARD, on_hand(96.0))))
    assert [(board.load, board.on_hand) for board in cutting.boards] == [(1, True), (2, False)]
    assert cutting.bound_usd == 0.0  # each load alone could have it
    assert cutting.stopped_by is Stop.FITTED


def test_ends_are_trimmed_before_the_first_piece():
    offers = tuple(replace(offer, trim_in=0.5) for offer in YARD)
    cutting = solved(a_job(a_piece("C1", 47.0, 2), a_piece("S1", 95.0), offers=offers))
    assert [(board.stock_length_in, board.starts_in) for board in cutting.boards] == [
        (96.0, (0.5,)),  # 95 in and half an inch off each end
        (96.0, (0.5, 47.625)),
    ]
    assert [board.leftover_in for board in cutting.boards] == [0.0, 0.75]  # 96 - 1 - 2 x (47 + 1/8)


def test_prices_of_scarce_stock_stand_an_independent_check():
    offers = (*YARD, on_hand(100.0, 2), on_hand(150.5, 3), replace(YARD[0], limit=3, price_usd=5.0))
    problem = a_job(*(a_piece(f"S{n}", 20.0 + 7.3 * n, 3 + n % 4) for n in range(12)), offers=offers)
    (one,) = solve_groups(problem, stop=MaxRounds())
    check_certificate(one.coded.instance, one.certificate)
    cutting = solved(problem)
    assert cutting.stopped_by is Stop.PROVEN


def test_a_plain_fit_leaves_limited_stock_alone():
    cutting = fit(a_job(a_piece("S1", 92.625, 2), offers=(*YARD, on_hand(96.0))), stop=MaxRounds())
    assert [board.on_hand for board in cutting.boards] == [False, False]
    with pytest.raises(ValueError, match="S1"):
        fit(a_job(a_piece("S1", 92.625), offers=(replace(YARD[0], limit=1),)), stop=MaxRounds())


PIECES = tuple(a_piece(f"S{n}", length, qty) for n, (length, qty) in enumerate([(92.0, 5), (61.0, 4), (110.0, 3)]))


@pytest.mark.parametrize("most", [1, 2, 3])
def test_few_lengths_cost_the_least_of_all_choices_of_so_many(most):
    cutting = solved(a_job(*PIECES, max_lengths=most))
    each = [solved(a_job(*PIECES, offers=some)) for some in combinations(YARD, most) if some[-1].length_in > 110]
    assert cutting.cost_usd == min(one.cost_usd for one in each)
    assert len({board.stock_length_in for board in cutting.boards}) <= most
    assert cutting.stopped_by is Stop.PROVEN


def test_what_is_on_hand_does_not_count_among_the_lengths_bought():
    cutting = solved(a_job(*PIECES, offers=(*YARD, on_hand(100.0, 2), on_hand(115.0)), max_lengths=1))
    assert len({board.stock_length_in for board in cutting.boards if not board.on_hand}) == 1
    assert any(board.on_hand for board in cutting.boards)


def test_buying_one_length_two_or_any_is_compared():
    problem = a_job(*PIECES)
    one, two, any_number = buyings(problem, solved(problem))
    assert (one.lengths, two.lengths) == (1, 2)
    assert one.cost_usd >= two.cost_usd >= any_number.cost_usd
    assert one.cost_usd == solved(replace(problem, max_lengths=1)).cost_usd
    assert [way.chosen for way in (one, two, any_number)] == [False, False, True]


def test_what_the_plan_asks_for_is_compared_as_it_was_cut():
    problem = a_job(*PIECES, max_lengths=2)
    ways = buyings(problem, solved(problem))
    assert [(way.max_lengths, way.chosen) for way in ways] == [(1, False), (2, True), (None, False)]
    assert ways[2].cost_usd <= ways[1].cost_usd


def test_nothing_is_compared_where_no_price_is_known():
    problem = a_job(*PIECES, offers=tuple(replace(offer, price_usd=None) for offer in YARD))
    assert buyings(problem, solved(problem)) == ()


def test_a_stop_in_the_midst_of_choosing_lengths_still_gives_boards():
    problem = a_job(*PIECES, max_lengths=2)
    cutting = solve(problem, stop=MaxRounds(1))
    check_boards(problem, cutting)
    assert cutting.bound_usd <= solved(problem).cost_usd <= cutting.cost_usd


def test_impossible_settings_are_refused():
    with pytest.raises(ValueError, match="at least one length"):
        a_job(max_lengths=0)
    with pytest.raises(ValueError, match="be had"):
        on_hand(96.0, -1)
    with pytest.raises(ValueError, match="trimmed"):
        on_hand(96.0, trim_in=-0.5)
