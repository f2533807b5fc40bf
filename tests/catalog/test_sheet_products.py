"""Sheet products and their span ratings."""

from __future__ import annotations

import pytest

from takeoff.catalog.sheets import sheet_product, sheet_products
from takeoff.catalog.spans import max_roof_span, span_ratings
from takeoff.catalog.unknown import UnknownItem


def test_strand_board_for_walls_is_sold_in_three_lengths():
    assert sheet_product("osb-7/16").sizes == ((48.0, 96.0), (48.0, 108.0), (48.0, 120.0))


@pytest.mark.parametrize("written", ["osb-7/16", "OSB 7/16", 'osb 7/16"', "OSB-7/16"])
def test_a_sheet_is_taken_in_any_writing(written):
    assert sheet_product(written).name == "osb-7/16"


def test_both_five_eighths_grades_lie_in_one_plane():
    field, exposed = sheet_product("cdx-5/8"), sheet_product("sanded-5/8")
    assert field.thickness_in == exposed.thickness_in == 0.625
    assert (field.face, exposed.face) == ("standard", "premium")
    assert "19/32" in field.note
    assert "19/32" in exposed.note


def test_only_sanded_sheets_may_show():
    assert {product.face for product in sheet_products() if product.name.startswith("sanded-")} == {"premium"}
    assert {product.face for product in sheet_products() if not product.name.startswith("sanded-")} == {"standard"}


@pytest.mark.parametrize("product", sheet_products(), ids=lambda product: product.name)
def test_every_sheet_has_a_rating_that_the_span_table_knows(product):
    assert max_roof_span(product.span_rating, edge_support=True) >= max_roof_span(
        product.span_rating, edge_support=False
    )
    assert product.gap_in == 0.125
    assert all(width == 48 and length >= 96 for width, length in product.sizes)


def test_an_unknown_sheet_offers_the_nearest():
    with pytest.raises(UnknownItem) as caught:
        sheet_product("cdx-5/9")
    assert caught.value.nearest[0] == "cdx-5/8"


def test_sheathing_ratings_are_the_roof_span_with_edges_supported():
    # "40/20" is stamped for roof supports 40 in apart: the first figure is the table's own column.
    for rating in span_ratings():
        if "/" in rating.name:
            assert max_roof_span(rating.name, edge_support=True) == float(rating.name.partition("/")[0])


def test_unsupported_edges_shorten_the_span():
    assert max_roof_span("40/20", edge_support=False) == 32
    with pytest.raises(UnknownItem):
        max_roof_span("41/20", edge_support=True)
