"""The parts of the exact cutter, each alone."""

from __future__ import annotations

import pytest
from cutting_checker import check_certificate, contents, most_worth, taken
from hypothesis import given, settings
from hypothesis import strategies as st

from takeoff.cutting.exact.certificate import certified, scale_for
from takeoff.cutting.exact.columns import bounded, whole_job
from takeoff.cutting.exact.dive import dived
from takeoff.cutting.exact.effort import Dive, Effort, Meter, patient
from takeoff.cutting.exact.instance import Instance, Item, Stock, coded
from takeoff.cutting.exact.integer import covered
from takeoff.cutting.exact.knapsack import filled_table
from takeoff.cutting.exact.pattern import Pattern, Pool, is_whole, plan_of
from takeoff.cutting.exact.proof import cheap_patterns
from takeoff.cutting.exact.start import cheapened, first_plans
from takeoff.cutting.groups import Demand, Group, Stick
from takeoff.cutting.nests import Nest
from takeoff.cutting.stop import MaxRounds

FEW = settings(max_examples=60, deadline=None)


@st.composite
def instances(draw: st.DrawFn, *, limits: bool = False) -> Instance:
    chains = draw(st.integers(0, 2))
    savings = tuple(draw(st.integers(1, 4)) for _ in range(chains))
    items = []
    for chain in (None, *range(chains)):
        for width in sorted(draw(st.sets(st.integers(5, 24), min_size=1, max_size=2)), reverse=True):
            items.append(Item(width=width, qty=draw(st.integers(1, 3)), chain=chain))
    capacities = sorted(draw(st.sets(st.integers(24, 60), min_size=1, max_size=3)))
    stocks = [Stock(capacity=c, cost=draw(st.integers(1, 40))) for c in capacities]
    if limits:
        stocks.append(Stock(capacity=draw(st.integers(24, 70)), cost=0, limit=draw(st.integers(1, 2))))
    return Instance(items=tuple(items), stocks=tuple(stocks), savings=savings)


def values_for(instance, data):
    return tuple(data.draw(st.integers(0, 30)) for _ in instance.items)


@FEW
@given(instances(), st.data())
def test_the_table_holds_the_best_value_of_every_stock_and_a_content_that_has_it(instance, data):
    values = values_for(instance, data)
    table, most = filled_table(instance, values, instance.demand), most_worth(instance, values)
    for stock in instance.stocks:
        content = table.best_content(stock.capacity)
        assert table.best(stock.capacity) == most[stock.capacity]
        assert sum(values[i] * n for i, n in content) == table.best(stock.capacity)
        assert instance.taken(content) <= stock.capacity
        assert all(n <= instance.demand[i] for i, n in content)


@FEW
@given(instances(), st.data())
def test_every_pattern_proposed_fits_and_is_worth_more_than_it_costs(instance, data):
    values = values_for(instance, data)
    costs = [stock.cost for stock in instance.stocks]
    for pattern in filled_table(instance, values, instance.demand).cheapest(instance, costs, 10):
        assert instance.taken(pattern.content) <= instance.stocks[pattern.stock].capacity
        assert sum(values[i] * n for i, n in pattern.content) > costs[pattern.stock]


@FEW
@given(instances(limits=True), st.data())
def test_any_values_make_a_certificate_that_an_independent_check_accepts(instance, data):
    scale = scale_for(instance)
    values = [value * scale for value in values_for(instance, data)]
    check_certificate(instance, certified(instance, values, scale))


@FEW
@given(instances(), st.integers(0, 30))
def test_all_full_patterns_of_small_loss_are_listed_and_no_others(instance, slack):
    _, certificate = bounded(instance, (), Effort(), patient(), 10**9)
    target = certificate.bound(instance) + slack
    listed = cheap_patterns(instance, certificate, target, Effort())
    allowed = target * certificate.scale - certificate.worth(instance)
    expected = set()
    for counts in contents(instance):
        worth = sum(v * n for v, n in zip(certificate.values, counts, strict=True))
        for t, stock in enumerate(instance.stocks):
            room = taken(instance, counts) <= stock.capacity
            if room and stock.cost * certificate.scale - worth <= allowed and is_full(instance, counts, stock):
                expected.add(Pattern(t, tuple((i, n) for i, n in enumerate(counts) if n)))
    assert set(listed) == expected


def is_full(instance, counts, stock):
    more = (tuple(n + (i == j) for j, n in enumerate(counts)) for i in range(len(counts)))
    return not any(
        all(n <= item.qty for n, item in zip(one, instance.items, strict=True))
        and taken(instance, one) <= stock.capacity
        for one in more
    )


def test_a_listing_of_too_many_patterns_is_given_up():
    instance = Instance(
        items=tuple(Item(width=w, qty=4) for w in range(20, 9, -1)), stocks=(Stock(capacity=90, cost=7),)
    )
    _, certificate = bounded(instance, (), Effort(), patient(), 10**9)
    assert cheap_patterns(instance, certificate, 10**4, Effort(proof_columns=20)) is None
    assert cheap_patterns(instance, certificate, 10**4, Effort(proof_steps=50)) is None


@FEW
@given(instances())
def test_best_fit_and_dives_make_every_piece_as_often_as_wanted(instance):
    plans = list(first_plans(instance))
    assert plans
    root, _ = bounded(instance, (), Effort(), patient(), 10**9)
    for whole_from in (0, 25):
        dive = Dive(share=0.5, threshold=0.5, whole_from=whole_from)
        plans.append(dived(instance, Pool(), root, dive, Effort(), patient()))
    assert all(is_whole(instance, plan) for plan in plans)


def test_surplus_is_left_out_where_it_saves_a_stick():
    instance = Instance(items=(Item(width=10, qty=3),), stocks=(Stock(capacity=10, cost=3), Stock(capacity=20, cost=5)))
    plan = cheapened(instance, [Pattern(1, ((0, 2),)), Pattern(1, ((0, 2),))])
    assert plan == plan_of([(Pattern(0, ((0, 1),)), 1), (Pattern(1, ((0, 2),)), 1)])


def test_an_integer_programme_says_when_its_patterns_suffice_for_no_plan():
    instance = Instance(items=(Item(width=10, qty=3),), stocks=(Stock(capacity=20, cost=5, limit=1),))
    answer = covered(instance, [Pattern(0, ((0, 2),))], whole_job(instance), nodes=10)
    assert (answer.uses, answer.complete) == (None, True)


def test_a_plan_that_breaks_a_limit_is_not_whole():
    instance = Instance(items=(Item(width=10, qty=2),), stocks=(Stock(capacity=10, cost=3, limit=1),))
    assert not is_whole(instance, plan_of([(Pattern(0, ((0, 1),)), 2)]))


def a_stick(capacity, cost, **more):
    return Stick(length_in=float(capacity), capacity=capacity, cost=cost, known=True, **more)


def a_group(sticks, demands):
    return Group(load=1, profile="2x4", grade="stud", sticks=tuple(sticks), demands=tuple(demands), specials=())


def test_sticks_that_a_longer_one_undercuts_are_left_out_but_not_those_on_hand():
    short, dear = a_stick(90, 5), a_stick(100, 9)
    long, found = a_stick(120, 8), a_stick(100, 0, limit=1, on_hand=True)
    group = a_group([short, dear, found, long], [Demand(mark="S1", length_in=80.0, width=80, qty=1)])
    assert coded(group).sticks == (short, found, long)


def test_pieces_of_one_slant_are_a_chain_and_stand_after_all_others():
    nest = Nest(miter_deg=33.69, bevel_deg=0.0, saving=58)
    demands = (
        Demand(mark="R1", length_in=60.0, width=60, qty=2, nest=nest),
        Demand(mark="S1", length_in=50.0, width=50, qty=1),
        Demand(mark="R2", length_in=40.0, width=40, qty=1, nest=nest),
    )
    made = coded(a_group([a_stick(200, 1)], demands))
    assert [(item.width, item.chain) for item in made.instance.items] == [(50, None), (60, 0), (40, 0)]
    assert made.instance.taken(((0, 1), (1, 2), (2, 1))) == 50 + (60 + 60 + 40 - 2 * 58)


def test_once_stopped_a_search_stays_stopped():
    meter = Meter(MaxRounds(2))
    assert [meter.tick() for _ in range(3)] == [False, True, True]


@pytest.mark.parametrize("costs", [(0,), (1,), (590, 834), (2**30,)])
def test_the_scale_is_a_power_of_two_that_keeps_the_dearest_stick_within_28_bits(costs):
    stocks = tuple(Stock(capacity=10, cost=cost) for cost in costs)
    scale = scale_for(Instance(items=(Item(width=5, qty=1),), stocks=stocks))
    assert scale & (scale - 1) == 0
    assert scale == 1 or scale * max(costs) <= 2**27
