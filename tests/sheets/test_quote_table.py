"""The table of answers: what came from outside stays text."""

from __future__ import annotations

from types import MappingProxyType

from takeoff.order.quotes.asked import AskedItem
from takeoff.order.quotes.compare import compare
from takeoff.order.quotes.reader import Quote
from takeoff.sheets.quote_text import quote_csv, quote_text

NAILS = AskedItem(code="NAIL", text="8d common nail", unit="lb", by_load=((1, 12), (3, 39)), special=False)


def answer(yard: str) -> Quote:
    return Quote(yard=yard, prices=MappingProxyType({"NAIL": 2.1}), delivery=0.0, delivery_told=True)


def test_a_yards_name_never_becomes_a_formula() -> None:
    table = quote_csv(compare([NAILS], [answer("=1+1")])).decode()
    assert table.splitlines() == [
        "code,item,qty,unit,'=1+1,load 1 from,load 3 from",
        "NAIL,8d common nail,51,lb,2.10,'=1+1,'=1+1",
    ]


def test_a_unit_stands_beside_its_quantity() -> None:
    assert "8d common nail       51 lb" in quote_text("Hut", compare([NAILS], [answer("north")]))
