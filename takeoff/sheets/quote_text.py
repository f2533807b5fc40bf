"""Answers of yards side by side, as text for the terminal and as a table to keep."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from takeoff.catalog.roles import load_words
from takeoff.order.quotes.asked import AskedItem
from takeoff.order.quotes.compare import Comparison, YardTotal
from takeoff.order.quotes.reader import Quote
from takeoff.sheets.tables.table import not_a_formula

_NARROWEST, _WIDEST = 12, 24


def quote_text(job: str, compared: Comparison) -> str:
    """Line by line, then in all: a star stands by the least price of a line."""
    row = _Rows(compared)
    lines = [f"{job}: {_counted(len(compared.quotes), 'answer')}", ""]
    lines.append(row("", "qty", [quote.yard[:_WIDEST] for quote in compared.quotes]))
    lines += [row(item.text, _quantity(item), _prices(item, compared)) for item in compared.asked]
    lines.append(row("delivery, each load", "", [_delivery(quote) for quote in compared.quotes]))
    lines.append(row("goods and delivery", "", [_money(total.total) for total in compared.totals]))
    lines.append(row("not offered, lines", "", [str(len(total.lacking) or "") for total in compared.totals]))
    return "\n".join([*lines, "", *_verdict(compared)]) + "\n"


def quote_csv(compared: Comparison) -> bytes:
    """One row an item: its quantity, each yard's price, and who brings it in the cheapest split, by load."""
    file = io.StringIO()
    table = csv.writer(file, lineterminator="\n")
    yards = [not_a_formula(quote.yard) for quote in compared.quotes]
    loads = [split.load for split in compared.split]
    table.writerow(["code", "item", "qty", "unit", *yards, *(f"load {load} from" for load in loads)])
    for item in compared.asked:
        prices = [quote.prices.get(item.code) for quote in compared.quotes]
        chosen = [next((not_a_formula(q.yard) for one, q in split.buys if one is item), "") for split in compared.split]
        shown = ["" if price is None else f"{price:.2f}" for price in prices]
        table.writerow([item.code, item.text, item.quantity, item.unit, *shown, *chosen])
    return file.getvalue().encode()


class _Rows:
    """Sets words, a quantity and a cell for each yard into columns; a cell's star stands right of its figure."""

    def __init__(self, compared: Comparison) -> None:
        self._words = max(len("delivery, each load"), *(len(item.text) for item in compared.asked), 0)
        self._cells = [min(_WIDEST, max(_NARROWEST, len(quote.yard))) for quote in compared.quotes]

    def __call__(self, words: str, quantity: str, cells: list[str]) -> str:
        starred = (cell if cell.endswith("*") else f"{cell} " for cell in cells)
        aligned = (f"{cell:>{wide + 2}}" for cell, wide in zip(starred, self._cells, strict=True))
        return f"{words:<{self._words}} {quantity:>6} {''.join(aligned)}".rstrip()


def _quantity(item: AskedItem) -> str:
    return f"{item.quantity} {item.unit}" if item.unit != "each" else str(item.quantity)


def _prices(item: AskedItem, compared: Comparison) -> list[str]:
    prices = [quote.prices.get(item.code) for quote in compared.quotes]
    least = min((price for price in prices if price is not None), default=None)
    return ["" if price is None else f"{_money(price)}{'*' if price == least else ''}" for price in prices]


def _delivery(quote: Quote) -> str:
    return _money(quote.delivery) if quote.delivery_told else "not told"


def _verdict(compared: Comparison) -> Iterator[str]:
    yield from _single(compared)
    yield f"Cheapest split, deliveries counted: $ {_money(compared.split_total)}{_saving(compared)}"
    for split in compared.split:
        yards = " and ".join(split.yards)
        yield f"  load {split.load}  {load_words(split.load):<24} $ {_money(split.total):>11}  from {yards}"
        if len(split.yards) > 1:
            for yard in split.yards:
                items = "; ".join(item.text for item, quote in split.buys if quote.yard == yard)
                yield f"          {yard}: {items}"
    if compared.offered_by_none:
        yield f"Nobody offers: {'; '.join(item.text for item in compared.offered_by_none)}"
    silent = [quote.yard for quote in compared.quotes if not quote.delivery_told]
    if silent:
        yield f"No charge for delivery is told by {', '.join(silent)}: it is counted as none; ask."


def _single(compared: Comparison) -> Iterator[str]:
    single = compared.single
    if single:
        yield f"Cheapest single yard: {single.quote.yard}, $ {_money(single.total)}"
        return
    yield "No single yard offers all of it; nearest:"
    for total in sorted(compared.totals, key=lambda each: (len(each.lacking), each.total)):
        yield f"  {total.quote.yard}, $ {_money(total.total)} without {_lacking(total)}"


def _lacking(total: YardTotal) -> str:
    return _counted(len(total.lacking), "line")


def _saving(compared: Comparison) -> str:
    single = compared.single
    saved = single.total - compared.split_total if single else 0.0
    return f", {_money(saved)} less than from {single.quote.yard} alone" if single and saved >= 0.005 else ""


def _counted(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


def _money(amount: float) -> str:
    return f"{amount:,.2f}"
