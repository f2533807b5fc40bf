"""Nails and clips on the order, counted from the edges of the panels."""

from __future__ import annotations

from dataclasses import replace

import pytest
from shapely import box
from shop import built, gable

from takeoff.catalog.nails import nail
from takeoff.catalog.prices import PriceList, PriceRow
from takeoff.catalog.unknown import UnknownItem
from takeoff.model.building import FramedBuilding
from takeoff.order.allowance import Allowances
from takeoff.order.fastener_lines import fastener_lines
from takeoff.order.fasteners import FastenerCount, count_fasteners, edge_block_notes
from takeoff.sheathing.edges import panel_edges
from takeoff.sheathing.sheathe import sheathe

NAILS = FastenerCount(load=3, name="8d-common", fits="", qty=3901, faces=("wall", "slope"))
CLIPS = FastenerCount(load=3, name="panel-clip", fits='5/8"', qty=41, faces=("slope",))
PRICES = PriceList((PriceRow(item="8d-common", unit="lb", price_usd=2.1), PriceRow(item="panel-clip", price_usd=0.18)))


@pytest.fixture(scope="module")
def hut() -> FramedBuilding:
    return sheathe(built(gable()))


def test_nails_are_those_of_all_faces(hut: FramedBuilding) -> None:
    per_face = [panel_edges(face, [p for p in hut.panels if p.face == face.name]) for face in hut.faces]
    (nails, *_) = (count for count in count_fasteners([hut, hut]) if count.name == "8d-common")
    assert nails.qty == 2 * sum(edges.edge_nails + edges.field_nails for edges in per_face)
    assert nails.faces == ("wall", "slope")


def test_nails_are_ordered_by_the_pound_and_weigh_it() -> None:
    (line,) = fastener_lines((NAILS,), Allowances({}), PRICES)
    # 3901 at 100 a pound: 40 lb; with 5 % 42
    assert (line.qty_net, line.qty_order, line.unit, line.weight_lb) == (40, 42, "lb", 42.0)
    assert (line.unit_price, line.cost, line.used_for) == (2.1, 88.2, ("roof", "walls"))


def test_clips_are_ordered_by_the_piece_for_the_thickness_of_the_sheets() -> None:
    (line,) = fastener_lines((CLIPS,), Allowances({"fasteners": 0.0}), PRICES)
    assert (line.item, line.qty_order, line.unit, line.unit_price) == ('panel clip, for 5/8" sheets', 41, "each", 0.18)


def test_fasteners_without_a_price_stay_open() -> None:
    assert [line.cost for line in fastener_lines((NAILS, CLIPS), Allowances({}), PriceList(()))] == [None, None]


def test_blocks_that_are_not_ordered_are_told_by_face(hut: FramedBuilding) -> None:
    assert list(edge_block_notes([hut])) == []
    # Courses of 8 in: too narrow for clips, so that every bay takes a block.
    slope = next(face for face in hut.faces if face.kind == "slope")
    u0, v0, u1, _ = slope.outline.bounds
    narrow = [
        replace(panel, polygon=box(u0, v0 + 8 * k, u1, v0 + 8 * k + 8))
        for k, panel in enumerate([p for p in hut.panels if p.face == slope.name][:2])
    ]
    (note,) = edge_block_notes([replace(hut, panels=tuple(narrow))])
    assert (note.where, note.rule) == (slope.name, "order.edge-blocks")


def test_an_unknown_nail_is_refused() -> None:
    with pytest.raises(UnknownItem):
        nail("9d common")
