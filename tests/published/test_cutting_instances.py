"""Cutting problems whose least number of sticks is published or follows from how they are made.

Sources
    paper: encyclopedia article on the cutting stock problem, the paper machine example: 73 rolls of 5600 mm; read.
    chvatal: Chvatal, Linear Programming (1983), p. 195 to 198: 453 rolls of 100; data read in a manual that quotes it,
    the optimum recalled.
    eleven weights: a solver's documentation, its bin packing example, capacity 100; data read, the optimum recalled.
    fourer: Fourer, Gay and Kernighan's modelling book, chapter 15; recalled.
    six weights: an example model of a free linear programming kit; recalled.
    fieldhouse: Fieldhouse, The duality gap in trim problems (1990): the linear programme over unlimited patterns gives
    259/132, which rounded up is 2, but three sticks are needed; recalled.
    posts, stakes: Army correspondence courses EN01136, lesson 5, and EN0069, lesson 4, answers; read.
    tens: a solver's benchmark model; data read, no optimum published: 4 is proven by the integer programme alone.
    studs, blocks: derived, beside each.
    triplets and uniform sizes: made anew from the definitions in Falkenauer, A hybrid grouping genetic algorithm for
    bin packing, Journal of Heuristics 2 (1996).

Every optimum was proven again by another formulation, a flow along the stick, in a general solver.
"""

from __future__ import annotations

from random import Random

import pytest
from cutting_checker import check_certificate
from stock_shop import a_piece, by_the_foot

from takeoff.cutting.bench.instances import PAPER, bins, triplets, uniform
from takeoff.cutting.exact.effort import Effort, patient
from takeoff.cutting.exact.group import searched
from takeoff.cutting.exact.pattern import is_whole
from takeoff.cutting.exact.solve import solve
from takeoff.cutting.problem import LumberProblem
from takeoff.cutting.stop import MaxRounds
from takeoff.model.stock import Stop

UNTIDIED = Effort(tidy_columns=0, tidy_nodes=1)


@pytest.mark.parametrize(
    ("stock", "sizes", "least"),
    [
        pytest.param(5600, PAPER, 73, id="paper"),
        pytest.param(100, ((45, 97), (36, 610), (31, 395), (14, 211)), 453, id="chvatal"),
        pytest.param(100, ((48, 1), (42, 2), (36, 3), (30, 2), (27, 1), (24, 1), (19, 1)), 4, id="eleven weights"),
        pytest.param(110, ((75, 8), (55, 10), (50, 24), (45, 35), (20, 48)), 47, id="fourer"),
        pytest.param(100, ((70, 1), (60, 1), (50, 2), (40, 1), (30, 1)), 3, id="six weights"),
        pytest.param(132, ((44, 2), (33, 3), (12, 6)), 3, id="fieldhouse"),
        pytest.param(120, ((61, 4), (43, 2)), 4, id="posts"),
        pytest.param(120, ((28, 4),), 1, id="stakes"),
        pytest.param(10, ((7, 2), (5, 2), (3, 4)), 4, id="tens"),
    ],
)
def test_the_published_least_number_of_sticks_is_found_and_proven(stock, sizes, least):
    instance = bins(stock, sizes)
    found = searched(instance, stock, UNTIDIED, patient())
    assert is_whole(instance, found.plan)
    assert (found.plan.boards, found.bound) == (least, least)
    check_certificate(instance, found.certificate)


@pytest.mark.parametrize("pieces", [60, 120, 249, 501])
def test_triplets_are_put_three_to_a_bin_as_they_were_made(pieces):
    case = triplets(pieces, Random(pieces))
    found = searched(case.instance, 1000, UNTIDIED, patient())
    assert is_whole(case.instance, found.plan)
    assert found.plan.boards == found.bound == pieces // 3


@pytest.mark.parametrize("pieces", [120, 500])
def test_uniform_sizes_take_no_more_than_one_bin_over_the_bound(pieces):
    instance = uniform(pieces, Random(pieces)).instance
    found = searched(instance, 150, UNTIDIED, patient())
    assert is_whole(instance, found.plan)
    assert found.plan.boards <= found.certificate.bound(instance) + 1
    check_certificate(instance, found.certificate)


@pytest.mark.parametrize(
    ("length_in", "qty", "stock_ft", "kerf_in", "least"),
    [
        # Two of 48 in and a cut between them don't come out of 96 in.
        pytest.param(48.0, 8, 8, 0.125, 8, id="studs with a kerf"),
        pytest.param(48.0, 8, 8, 0.0, 4, id="studs without"),
        # 6 x 22-1/2 and 5 cuts are 135-5/8 in: twelve feet give six.
        pytest.param(22.5, 18, 12, 0.125, 3, id="blocks"),
    ],
)
def test_kerfs_are_taken_between_pieces_only(length_in, qty, stock_ft, kerf_in, least):
    problem = LumberProblem(pieces=(a_piece("S1", length_in, qty),), offers=by_the_foot(stock_ft), kerf_in=kerf_in)
    cutting = solve(problem, stop=MaxRounds())
    assert len(cutting.boards) == least
    assert cutting.stopped_by is Stop.PROVEN
