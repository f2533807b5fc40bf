from __future__ import annotations

import pytest
from stock_shop import a_panel_piece, a_piece

from takeoff.catalog.prices import PriceList, PriceRow
from takeoff.cutting.offers import offers_for, sheet_offers_for

NO_PRICES = PriceList(())


def test_each_length_on_sale_is_offered_with_its_price():
    prices = PriceList((PriceRow(item="2x10", grade="no2", length_in=168.0, price_usd=21.5),))
    offers = offers_for((a_piece("R1", 163.81, profile="2x10", grade="no2"),), prices)
    assert {offer.length_in: offer.price_usd for offer in offers}[168.0] == 21.5
    assert {offer.length_in: offer.price_usd for offer in offers}[192.0] is None


def test_studs_are_offered_precut():
    assert 92.625 in [offer.length_in for offer in offers_for((a_piece("S1", 92.625),), NO_PRICES)]


def test_engineered_wood_is_priced_by_the_foot():
    prices = PriceList((PriceRow(item="5-1/2x14", grade="glulam", unit="ft", price_usd=23.1),))
    offers = offers_for((a_piece("RB1", 352.0, profile="5-1/2x14", grade="glulam"),), prices)
    assert {o.length_in: o.price_usd for o in offers}[360.0] == pytest.approx(30 * 23.1)


def test_a_piece_too_long_for_what_is_on_sale_gets_a_special_offer():
    specials = [o for o in offers_for((a_piece("BP1", 300.5), a_piece("S1", 92.625)), NO_PRICES) if o.special]
    assert [offer.length_in for offer in specials] == [312.0]  # 25'-0 1/2" is 26 ft


def test_offers_do_not_depend_on_the_order_of_pieces():
    pieces = (a_piece("R1", 163.81, profile="2x10", grade="no2"), a_piece("S1", 92.625), a_piece("BP1", 300.0))
    assert offers_for(pieces, NO_PRICES) == offers_for(pieces[::-1], NO_PRICES)


def test_each_size_of_a_sheet_is_offered_with_its_price():
    prices = PriceList((PriceRow(item="osb-7/16", length_in=108.0, price_usd=15.9),))
    offers = sheet_offers_for((a_panel_piece("F1", 97.125, 48.0),), prices)
    assert [(o.length_in, o.width_in, o.price_usd) for o in offers] == [
        (96.0, 48.0, None),
        (108.0, 48.0, 15.9),
        (120.0, 48.0, None),
    ]


def test_a_sheet_length_that_only_the_price_list_has_is_offered_too():
    prices = PriceList((PriceRow(item="osb-7/16", length_in=97.125, price_usd=13.9),))
    offers = sheet_offers_for((a_panel_piece("F1", 97.125, 48.0),), prices)
    assert [(o.length_in, o.price_usd) for o in offers] == [(96.0, None), (97.125, 13.9), (108.0, None), (120.0, None)]


def test_two_beams_are_not_bought_as_one_stick_longer_than_either():
    beams = tuple(
        a_piece(mark, long, profile="5-1/2x14", grade="glulam") for mark, long in (("RB1", 432), ("RB2", 222))
    )
    lengths = {offer.length_in for offer in offers_for(beams, NO_PRICES)}
    assert max(lengths) == 432.0
    assert 228.0 in lengths
