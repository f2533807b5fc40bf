"""The legend of layout symbols: one row a symbol and delivery, whatever the openings are called."""

from __future__ import annotations

from shop import built, gable

from takeoff.sheets.crew.symbols import symbol_rows

OPENINGS = [{"side": "south", "center": c, "size": s} for c, s in (("6'", "3040"), ("14'", "4040"))]


def test_every_symbol_on_a_line_is_told_once_for_its_delivery() -> None:
    hut = built(gable(walls={"openings": OPENINGS}))
    rows = symbol_rows([hut])
    keys = [(row.load, row.symbol) for row in rows]
    on_lines = {(line.load, mark.symbol) for line in hut.lines for mark in line.marks}
    assert len(keys) == len(set(keys))
    assert set(keys) == on_lines


def test_edges_of_openings_share_one_meaning() -> None:
    rows = {row.symbol: row.what for row in symbol_rows([built(gable(walls={"openings": OPENINGS}))])}
    assert rows["["] == "left edge of an opening"
    assert rows["X"] == "stud"


def test_each_symbol_stands_once_a_delivery_with_a_dormers_soles_and_headers_among_the_lines() -> None:
    size = {"center": "15'", "width": "4'", "front": '8"', "height": '30"'}
    dormer = {"side": "south", "shape": "gable", "pitch": "6/12", "rafters": {"size": "2x6"}, **size}
    rows = symbol_rows([built(gable(roof={"dormers": [dormer]}))])
    keys = [(row.load, row.symbol) for row in rows]
    assert len(keys) == len(set(keys))
    assert next(row.what for row in rows if row.symbol == "|") == "lower header or upper header"
