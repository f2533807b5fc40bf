"""Pieces with parallel slanted ends: one saw cut ends a piece and starts the next."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import cos, degrees, radians, tan

import pytest
from cutting_checker import check_boards
from shapely import Polygon
from shapely.affinity import translate
from stock_shop import a_member, a_piece

from takeoff.cutting.compare import nesting
from takeoff.cutting.exact.solve import solve
from takeoff.cutting.nests import nest_of
from takeoff.cutting.problem import LumberProblem, Offer
from takeoff.cutting.rakes import rakes_of
from takeoff.cutting.stop import MaxRounds
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import SQUARE_ENDS, EndCut

KERF = 0.125
PITCH = radians(33.690067525979785)  # 8 in 12
RIDGE = EndCut((cos(PITCH), -((1 - cos(PITCH) ** 2) ** 0.5), 0.0))  # plumb, the top edge the longer
TAIL = EndCut((-cos(PITCH), (1 - cos(PITCH) ** 2) ** 0.5, 0.0))  # plumb, the top edge the shorter
TOP_EDGE = 100.0  # between the plumb cuts


def rafter(tail_depth=9.25):
    """Seen from the side, 9-1/4 in deep, plumb cut at both ends; its tail may be ripped, the top edge kept."""
    rise = 2 / 3
    side = Polygon(
        [
            (tail_depth * rise, 9.25),
            (0.0, 9.25 - tail_depth),
            (30.0, 9.25 - tail_depth),
            (30.0, 0.0),
            (tail_depth * rise + TOP_EDGE - 9.25 * rise, 0.0),
            (tail_depth * rise + TOP_EDGE, 9.25),
        ]
    )
    return a_member(
        "R1", 0.0, role_name="common-rafter", profile_name="2x10", grade="no2", cuts=(TAIL, RIDGE), side=side
    )


def pieces_like(member, qty):
    piece = a_piece(member.mark, member.length_in, qty, role=member.role.name, profile="2x10", grade="no2")
    left, right = member.cuts
    return replace(
        piece,
        miters_deg=(left.miter_deg, right.miter_deg),
        bevels_deg=(left.bevel_deg, right.bevel_deg),
        rakes_in=rakes_of(member),
    )


def sold(*lengths_in):
    return tuple(
        Offer(profile="2x10", grade="no2", length_in=length_in, price_usd=length_in / 10) for length_in in lengths_in
    )


def a_job(*pieces, offers):
    return LumberProblem(pieces=pieces, offers=offers, kerf_in=KERF)


def test_the_rake_of_a_plumb_cut_is_the_depth_times_the_slope():
    assert rakes_of(rafter()) == pytest.approx((9.25 * 2 / 3, 9.25 * 2 / 3))


def test_a_ripped_tail_has_the_rake_of_its_own_depth():
    assert rakes_of(rafter(tail_depth=5.5)) == pytest.approx((5.5 * 2 / 3, 9.25 * 2 / 3))


def test_square_ends_have_no_rake():
    assert rakes_of(a_member("S1", 92.625)) == (0.0, 0.0)


def test_a_bevelled_end_has_the_rake_of_the_thickness():
    bevelled = EndCut((cos(PITCH), 0.0, -((1 - cos(PITCH) ** 2) ** 0.5)))
    assert rakes_of(a_member("G1", 97.5, cuts=(SQUARE_ENDS[0], bevelled))) == pytest.approx((0.0, 1.5 * 2 / 3))


def test_an_end_cut_short_of_the_top_edge_takes_no_neighbour():
    # A level cut of the top corner leaves the plumb cut below it.
    side = Polygon([(0.0, 0.0), (90.0, 0.0), (94.0, 6.0), (80.0, 9.25), (0.0, 9.25)])
    member = a_member("R1", 0.0, profile_name="2x10", cuts=(SQUARE_ENDS[0], RIDGE), side=side)
    assert rakes_of(member) == (0.0, 0.0)


def test_rafters_use_their_top_edges_and_one_rake_of_a_board_not_all_their_long_points():
    # Three of 100 in along the top edge, the two cuts between them 1/8 in square to the slant, and one rake.
    along = KERF / cos(PITCH)
    needed = 3 * TOP_EDGE + 2 * along + 9.25 * 2 / 3
    just_enough = needed + 3 / 16  # each of two savings is rounded down to a sixteenth, the pieces up
    assert just_enough < 3 * (TOP_EDGE + 9.25 * 2 / 3)
    cutting = solve(a_job(pieces_like(rafter(), 3), offers=sold(just_enough)), stop=MaxRounds())
    (board,) = cutting.boards
    assert [one.lap_in for one in board.cuts] == [0.0, 6.125, 6.125]  # 6-1/6 less 0.025 for the slanted kerf
    assert board.leftover_in == pytest.approx(max(0.0, just_enough - needed - KERF), abs=1 / 8)


@pytest.mark.parametrize("tail_depth", [9.25, 5.5])
def test_nested_pieces_lie_apart_by_the_saw_cut_as_drawn(tail_depth):
    member = rafter(tail_depth)
    (board,) = solve(a_job(pieces_like(member, 3), offers=sold(336.0)), stop=MaxRounds()).boards
    assert any(one.lap_in for one in board.cuts)
    drawn = [translate(member.side, xoff=start) for start in board.starts_in]
    assert all(a.distance(b) >= KERF - TOLERANCE.length for a, b in pairwise(drawn))
    assert drawn[-1].bounds[2] <= board.stock_length_in


def test_pieces_that_do_not_nest_stand_a_saw_cut_apart_from_those_that_do():
    block = a_piece("EB1", 14.5, 3, role="eave-block", profile="2x10", grade="no2")
    problem = a_job(pieces_like(rafter(), 4), block, offers=sold(264.0))
    cutting = solve(problem, stop=MaxRounds())
    check_boards(problem, cutting)
    for board in cutting.boards:
        ends = [start + one.length_in for start, one in zip(board.starts_in, board.cuts, strict=True)]
        for end, start, one in zip(ends, board.starts_in[1:], board.cuts[1:], strict=False):
            assert start - end == pytest.approx(KERF - one.lap_in)
            assert not (one.mark == "EB1" and one.lap_in)


def test_only_ends_that_are_parallel_nest():
    parallel = pieces_like(rafter(), 1)
    assert nest_of(parallel, KERF).saving == 98  # 6-1/8 in
    assert nest_of(replace(parallel, miters_deg=(33.69, 33.69)), KERF) is None  # a trapezoid
    assert nest_of(replace(parallel, bevels_deg=(0.0, 5.0)), KERF) is None
    assert nest_of(a_piece("S1", 92.625), KERF) is None


def test_ends_bevelled_alike_nest_through_the_thickness():
    piece = replace(a_piece("EB1", 22.5), bevels_deg=(30.0, -30.0), rakes_in=(1.5 * tan(radians(30)),) * 2)
    # 0.866 in less (0.1443 - 0.125) in is 0.8467 in: 13 sixteenths.
    assert nest_of(piece, KERF).saving == 13


def test_turned_side_to_side_a_rafter_nests_with_its_like():
    left = pieces_like(rafter(), 1)
    turned = replace(left, miters_deg=left.miters_deg[::-1])
    assert nest_of(left, KERF) == nest_of(turned, KERF)
    assert degrees(PITCH) == pytest.approx(nest_of(left, KERF).miter_deg, abs=1e-3)


def test_a_blade_wider_than_the_rake_saves_nothing():
    assert nest_of(replace(pieces_like(rafter(), 1), rakes_in=(0.02, 0.02)), KERF) is None


def test_the_saving_is_shown_in_money_and_cuts():
    problem = a_job(pieces_like(rafter(), 6), offers=sold(312.0, 336.0))
    nested = solve(problem, stop=MaxRounds())
    compared = nesting(problem, nested)
    # Three long points are 318.5 in and two cuts: only 28 ft holds them apart, 26 ft holds them nested.
    assert compared.apart_usd == pytest.approx(2 * 33.6)
    assert nested.cost_usd == pytest.approx(2 * 31.2)
    assert compared.saving_usd == pytest.approx(4.8)
    assert compared.shared_cuts == 4
    assert compared.overlap_in == pytest.approx(4 * 6.125)
