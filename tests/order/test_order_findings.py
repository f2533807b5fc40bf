from __future__ import annotations

import dataclasses

from stock_shop import a_piece

from takeoff.catalog.price_reader import builtin_prices
from takeoff.catalog.prices import PriceList
from takeoff.cutting.lumber import LumberProblem, cut
from takeoff.cutting.offers import offers_for
from takeoff.findings import Severity
from takeoff.model.stock import SheetCutting
from takeoff.order.findings import order_findings
from takeoff.order.lines import order_lines

NO_PRICES = PriceList(())


def found(*pieces, prices=NO_PRICES):
    lumber = cut(LumberProblem(pieces=pieces, offers=offers_for(pieces, prices), kerf_in=0.125))
    lines = order_lines(
        pieces=pieces,
        lumber=lumber,
        sheets=SheetCutting(sheets=(), area_bound=0),
        hardware=(),
        waste={},
        prices=prices,
        species="spf",
    )
    return order_findings(pieces=pieces, lumber=lumber, lines=lines, prices=prices)


def test_a_special_length_is_a_warning_that_says_what_to_order():
    rafter = a_piece("R1", 301.0, 48, load=2, role="common-rafter", profile="2x10", grade="no2")
    warning, *_ = found(rafter)
    assert (warning.rule, warning.severity, warning.where) == ("order.special-length", Severity.WARNING, "R1")
    assert warning.message == "the longest 2x10 no2 on sale is 24'-0\"; order 48 specially, 26'-0\" long, for R1"
    assert (warning.building, warning.found, warning.limit) == ("hut", "26'-0\"", "24'-0\"")


def test_a_special_length_of_several_buildings_names_none():
    rafter = a_piece("R1", 301.0, 2, role="common-rafter", profile="2x10", grade="no2")
    warnings = [
        f for f in found(rafter, dataclasses.replace(rafter, building="barn")) if f.severity is Severity.WARNING
    ]
    assert [(warning.building, warning.where) for warning in warnings] == [("", "R1")]


def test_a_missing_price_is_noted_once_an_item():
    notes = found(a_piece("S1", 92.625), a_piece("C1", 92.625, load=2))
    assert [(note.rule, note.severity, note.where) for note in notes] == [
        ("order.no-price", Severity.NOTE, "2x4 stud, 7'-8 5/8\"")
    ]


def test_placeholder_money_is_noted_once():
    notes = found(a_piece("S1", 92.625), a_piece("BP1", 120.0, role="bottom-plate"), prices=builtin_prices())
    assert [note.rule for note in notes] == ["order.placeholder-prices"]


def test_nothing_is_said_of_an_order_with_prices_and_lengths_on_sale():
    prices = PriceList(tuple(dataclasses.replace(row, source="the yard") for row in builtin_prices().rows))
    assert found(a_piece("S1", 92.625), prices=prices) == ()
