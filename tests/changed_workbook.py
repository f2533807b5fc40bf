"""A workbook calculated anew by a spreadsheet program: as it is, and with other prices and allowances."""

from __future__ import annotations

import io
from math import ceil, floor
from pathlib import Path

import openpyxl
import pytest
from calculator import assert_same, calculated, opened

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.workbook.items import items_of

SHARE = 0.125
"""Allowance of everything in the changed workbooks."""


def changed(content: bytes) -> tuple[bytes, dict[int, float | None]]:
    """Every third price raised, to half cents, and one taken out; all allowances set. With the prices by item."""
    book = opened(content, values=False)
    prices: dict[int, float | None] = {}
    for number, _, _, _, _, price, *_ in book["Prices"].iter_rows():
        if isinstance(number.value, int):
            if number.value % 3 == 0 and price.value is not None:
                price.value = round(price.value * 1.37, 2) + 0.005
            elif number.value == 4:
                price.value = None
            prices[number.value] = price.value
    for _, share, *_ in book["Allowances"].iter_rows():
        if isinstance(share.value, (int, float)):
            share.value = SHARE
    written = io.BytesIO()
    book.save(written)
    return written.getvalue(), prices


def expected(takeoff: Takeoff, prices: dict[int, float | None]) -> tuple[float, float]:
    """Cost and weight of the changed order, reckoned from its lines."""
    items = items_of(takeoff.order)
    cost = weight = 0.0
    for line in takeoff.order:
        item, qty = items[line.item], ceil(line.qty_net * (1 + SHARE) - 1e-9)
        price = prices[item.number]
        cost += 0.0 if price is None else floor(qty * price * 100 + 0.5 + 1e-6) / 100
        weight += qty * item.weight_lb
    return cost, weight


def value(book: openpyxl.Workbook, sheet: str, words: str, column: int) -> float:
    row = next(row for row in book[sheet].iter_rows(values_only=True) if words in row)
    return float(row[column])


def assert_follows(takeoff: Takeoff, content: bytes, folder: Path) -> None:
    """A workbook calculated anew has our figures, and after a change of prices and allowances those of its lines."""
    other, prices = changed(content)
    anew, followed = calculated([content, other], folder)
    assert_same(content, anew)
    cost, weight = expected(takeoff, prices)
    assert value(followed, "Order by load", "Sum of all loads", 11) == pytest.approx(cost, abs=0.001)
    assert value(followed, "Totals", "All items", 8) == pytest.approx(cost, abs=0.001)
    for sheet, words, column in (("Order by load", "Sum of all loads", 9), ("Weights", "All loads", 3)):
        assert value(followed, sheet, words, column) == pytest.approx(weight)
