"""The order as a table."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.tables.table import BOARD_FEET, LENGTH, MONEY, PERCENT, WEIGHT, Column, Row, Table


def _rows(takeoff: Takeoff) -> Iterator[Row]:
    for line in takeoff.order:
        yield (
            line.load,
            line.category,
            line.item,
            line.profile,
            line.grade,
            line.stock_length_in,
            line.qty_net,
            line.waste_pct,
            line.qty_order,
            line.unit,
            line.board_feet,
            line.weight_lb,
            line.unit_price,
            line.cost,
        )


ORDER = Table(
    file="order.csv",
    columns=(
        Column("load"),
        Column("category"),
        Column("item"),
        Column("profile"),
        Column("grade"),
        Column("stock_length_in", LENGTH),
        Column("qty_net"),
        Column("waste_pct", PERCENT),
        Column("qty_order"),
        Column("unit"),
        Column("board_feet", BOARD_FEET),
        Column("weight_lb", WEIGHT),
        Column("unit_price", MONEY),
        Column("cost", MONEY),
    ),
    rows=_rows,
)
"""One row a line of the order. Board feet, weight and cost are of ``qty_order``; price and cost may be empty."""
