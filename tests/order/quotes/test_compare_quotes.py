"""The cheapest yard and the cheapest split, against trying everything."""

from __future__ import annotations

from itertools import product
from types import MappingProxyType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from takeoff.order.quotes.asked import AskedItem
from takeoff.order.quotes.compare import compare
from takeoff.order.quotes.reader import Quote


def item(code: str, *by_load: tuple[int, int]) -> AskedItem:
    return AskedItem(code=code, text=f"2x4 {code}", unit="each", by_load=by_load, special=False)


def quote(yard: str, delivery: float, **prices: float) -> Quote:
    return Quote(yard=yard, prices=MappingProxyType(prices), delivery=delivery, delivery_told=True)


def test_a_delivery_is_charged_once_for_each_load_a_yard_brings_something_on() -> None:
    asked = [item("A", (1, 10), (2, 5)), item("B", (2, 4))]
    total = compare(asked, [quote("one", 30.0, A=2.0, B=5.0)]).totals[0]
    assert (total.goods, total.deliveries) == (15 * 2.0 + 4 * 5.0, 2 * 30.0)


def test_a_second_yard_comes_only_where_it_saves_more_than_its_delivery() -> None:
    asked = [item("A", (1, 10)), item("B", (1, 10))]
    near, far = quote("near", 50.0, A=10.0, B=10.0), quote("far", 30.0, A=12.0, B=7.5)
    # 25 saved on B against 30 for the second delivery: all from one
    assert compare(asked, [near, far]).split[0].yards == ("far",)
    assert compare(asked, [near, far]).split_total == 10 * 12.0 + 10 * 7.5 + 30.0
    nearer = quote("near", 5.0, A=10.0, B=10.0)
    assert compare(asked, [nearer, far]).split[0].yards == ("near",)
    nearest = quote("near", 5.0, A=6.0, B=12.0)
    assert compare(asked, [nearest, far]).split[0].yards == ("near", "far")


def test_the_single_yard_is_one_that_offers_all_that_anybody_does() -> None:
    asked = [item("A", (1, 1)), item("B", (1, 1)), item("C", (1, 1))]
    compared = compare(asked, [quote("cheap", 0.0, A=1.0), quote("whole", 0.0, A=2.0, B=2.0)])
    assert compared.single is not None
    assert compared.single.quote.yard == "whole"
    assert [each.code for each in compared.offered_by_none] == ["C"]
    assert compare(asked, [quote("one", 0.0, A=1.0), quote("two", 0.0, B=1.0)]).single is None


prices = st.integers(1, 4000).map(lambda cents: cents / 100)


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_no_assignment_of_lines_to_yards_is_cheaper_than_the_split(data: st.DataObject) -> None:
    asked = [
        item(code, *((load, data.draw(st.integers(1, 9))) for load in (1, 2) if data.draw(st.booleans())))
        for code in "ABCD"
    ]
    quotes = [
        quote(name, data.draw(prices), **{code: data.draw(prices) for code in "ABCD" if data.draw(st.booleans())})
        for name in ("one", "two", "three")
    ]
    compared = compare(asked, quotes)
    for load in (1, 2):
        lines = [(each, dict(each.by_load)[load]) for each in asked if load in dict(each.by_load)]
        offered = [(each, n) for each, n in lines if any(each.code in q.prices for q in quotes)]
        if not offered:
            assert all(split.load != load for split in compared.split)
            continue
        best = min(
            sum(round(n * q.prices[each.code], 2) for (each, n), q in zip(offered, choice, strict=True))
            + sum(q.delivery for q in {q.yard: q for q in choice}.values())
            for choice in product(quotes, repeat=len(offered))
            if all(each.code in q.prices for (each, _), q in zip(offered, choice, strict=True))
        )
        (split,) = (split for split in compared.split if split.load == load)
        assert split.total == pytest.approx(best, abs=0.01)
        assert {one.code for one, _ in split.buys} == {each.code for each, _ in offered}


def test_more_answers_than_can_be_tried_out_are_refused() -> None:
    with pytest.raises(ValueError, match="9 answers"):
        compare([], [quote(str(k), 0.0) for k in range(9)])
