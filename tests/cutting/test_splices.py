"""Where plates and fascia are joined: on studs and tails, apart, in few pieces, and where the boards are cheapest."""

from __future__ import annotations

from itertools import pairwise, product

import pytest
from shop import CABIN

from takeoff.catalog.price_reader import builtin_prices
from takeoff.cutting.exact.choice import Choice, chosen_ways
from takeoff.cutting.exact.instance import Instance, Item, Stock
from takeoff.cutting.lumber import LumberProblem, cut
from takeoff.cutting.offers import offers_for
from takeoff.cutting.pieces import pieces_of
from takeoff.cutting.splices import cheapest_splices
from takeoff.cutting.ways import LEAST_PIECE_IN, clash, lengths_of, ways_of
from takeoff.findings import Place
from takeoff.framing.frame import frame
from takeoff.framing.runs import rejoined
from takeoff.model.marks import mark_buildings
from takeoff.model.run import Run
from takeoff.plan.read import read_plan

PLATE = Run(pieces=(0, 1), length_in=360.0, joints_in=(240.0,), places_in=tuple(range(16, 360, 16)))


def test_a_run_is_made_of_as_few_pieces_as_the_longest_board_lets():
    ways = ways_of(PLATE, 240.0)
    assert ways == tuple((float(at),) for at in range(128, 241, 16))  # the rest of 120 to 232 fits a board, too
    assert {len(way) for way in ways_of(PLATE, 150.0)} == {2}


def test_every_piece_of_every_way_fits_a_board_and_no_end_is_short():
    run = Run(pieces=(0,), length_in=500.0, joints_in=(), places_in=tuple(range(8, 500, 16)))
    ways = ways_of(run, 192.0)
    assert ways
    for way in ways:
        assert all(LEAST_PIECE_IN <= length <= 192.0 for length in lengths_of(run, way))
        assert set(way) <= set(run.places_in)


def test_a_very_long_run_has_few_ways_that_all_are_good():
    # Ten pieces of 20 ft with room to spare: nearly a million ways.
    run = Run(pieces=(0,), length_in=2170.0, joints_in=(), places_in=tuple(range(16, 2170, 16)))
    ways = ways_of(run, 240.0, 25)
    assert 1 < len(ways) <= 25
    assert all(len(way) == 9 and max(lengths_of(run, way)) <= 240.0 for way in ways)


def test_where_no_place_is_in_reach_there_is_no_way():
    assert ways_of(Run(pieces=(0,), length_in=360.0, joints_in=(), places_in=(20.0, 350.0)), 240.0) == ()


def test_joints_of_a_cap_plate_keep_away_from_those_of_the_plate_under_it():
    cap = Run(pieces=(0,), length_in=349.0, joints_in=(), places_in=(), under=0, offset_in=24.0, starts_in=5.5)
    assert clash(cap, (200.0,), (220.0,))  # 205-1/2 on the plate below: 14-1/2 apart
    assert not clash(cap, (200.0,), (229.5,))


def test_the_chosen_ways_are_those_of_least_cost_of_all():
    # Boards of 8, 12 and 16; a run of 20 is 12 + 8 or 10 + 10; another of 24 is 12 + 12, 16 + 8 or 14 + 10.
    widths = (16, 14, 12, 10, 8)
    ways = (({12: 1, 8: 1}, {10: 2}), ({14: 1, 10: 1}, {12: 2}, {16: 1, 8: 1}))
    instance = Instance(
        items=tuple(Item(width=width, qty=9) for width in widths),
        stocks=(Stock(capacity=8, cost=80), Stock(capacity=12, cost=150), Stock(capacity=16, cost=210)),
    )
    choice = Choice(
        instance=instance,
        wanted=(0, 0, 0, 0, 1),
        ways=tuple(
            tuple(tuple(sorted((widths.index(width), n) for width, n in way.items())) for way in run) for run in ways
        ),
    )
    least = {8: 80, 10: 150, 12: 150, 14: 210, 16: 210}  # nothing shares a board but 8 with 8, which is no cheaper

    def cost(chosen):
        pieces = [
            width for run, way in zip(ways, chosen, strict=True) for width, n in run[way].items() for _ in range(n)
        ]
        return sum(least[width] for width in pieces)

    every = list(product(range(2), range(3)))
    assert cost(chosen_ways(choice, (1, 0))) == min(cost(chosen) for chosen in every)


def test_ways_that_clash_are_never_chosen_together():
    instance = Instance(items=(Item(width=10, qty=2), Item(width=8, qty=2)), stocks=(Stock(capacity=10, cost=10),))
    both_cheap = (((1, 1),), ((0, 1), (1, 1)))
    choice = Choice(instance=instance, wanted=(0, 0), ways=(both_cheap, both_cheap), clashes=(((1, 0), (0, 0)),))
    assert chosen_ways(choice, (1, 0)) in ((1, 0), (0, 1))


@pytest.fixture(scope="module")
def cabin():
    written, _ = read_plan(CABIN)
    return frame(written.plan.buildings[0], lambda path: Place(path=path))[0]


def problem_of(building, trim_in=0.0):
    pieces = pieces_of([building])
    return LumberProblem(pieces=pieces, offers=offers_for(pieces, builtin_prices(), trim_in), kerf_in=0.125)


def test_the_cabin_joined_for_its_boards_is_no_dearer_and_stands_on_its_studs(cabin):
    (draft,) = mark_buildings([cabin])
    problem = problem_of(draft)
    (joints,) = cheapest_splices(problem, [draft])
    (made,) = mark_buildings([rejoined(cabin, joints)])
    assert cut(problem_of(made)).cost_usd <= cut(problem).cost_usd
    for run, at in zip(cabin.runs, joints, strict=True):
        assert set(at) <= set(run.places_in)
        if run.under is not None:
            lower = joints[run.under]
            assert all(abs(a + run.starts_in - b) >= 24.0 - 1e-6 for a in at for b in lower)
    for run, at in zip(cabin.runs, joints, strict=True):
        old = [cabin.members[number] for number in run.pieces]
        new = [m for m in made.members if (m.role, m.face) == (old[0].role, old[0].face)]
        assert len(new) >= len(at) + 1
        assert sum(m.length_in for m in old) == pytest.approx(run.length_in)


def test_a_frame_joined_otherwise_has_the_same_wood_in_the_same_places(cabin):
    (draft,) = mark_buildings([cabin])
    (joints,) = cheapest_splices(problem_of(draft), [draft])
    made = rejoined(cabin, joints)
    for role in ("bottom-plate", "top-plate", "cap-plate", "fascia"):
        one = [m for m in cabin.members if m.role.name == role]
        two = [m for m in made.members if m.role.name == role]
        assert sum(m.length_in for m in one) == pytest.approx(sum(m.length_in for m in two))
        ends = [m.centre_line for m in two]
        assert {m.centre_line[0] for m in one} & {end for end, _ in ends}
    assert sorted(j.kind for j in made.joints) == sorted(j.kind for j in cabin.joints)
    assert made.runs == () or made is cabin


def test_with_trimmed_ends_a_plate_of_full_boards_is_joined_anew(cabin):
    (draft,) = mark_buildings([cabin])
    (joints,) = cheapest_splices(problem_of(draft, 0.5), [draft])
    for run, at in zip(cabin.runs, joints, strict=True):
        assert all(b - a <= 239.0 for a, b in pairwise((0.0, *at, run.length_in)))
