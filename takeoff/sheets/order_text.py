"""The order as a message to a yard: one line an item, load by load."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from takeoff.catalog.roles import load_words
from takeoff.model.order import OrderLine
from takeoff.model.takeoff import Takeoff
from takeoff.order.weight_limits import trips

_UNIT = 2
"""Letters that a unit has: ``lb``, ``ft``; pieces have none."""


def order_txt(takeoff: Takeoff) -> bytes:
    """The message, without prices; quantities have their allowances."""
    return ("\n".join(_lines(takeoff)) + "\n").encode()


def _lines(takeoff: Takeoff) -> Iterator[str]:
    yield f"{takeoff.job}: order"
    wide = max((len(str(line.qty_order)) for line in takeoff.order), default=1)
    for load, lines in groupby(takeoff.order, key=lambda line: line.load):
        of_load = tuple(lines)
        yield ""
        weight = sum(line.weight_lb for line in of_load)
        yield f"Load {load}, {load_words(load)} ({weight:,.0f} lb{_trips(weight, takeoff.settings.truck_lb)}):"
        yield from (_line(line, wide) for line in of_load)


def _trips(weight_lb: float, truck_lb: float | None) -> str:
    """How often the truck comes, where that is more than once."""
    least = 1 if truck_lb is None else trips(weight_lb, truck_lb)
    return f", {least} trips at the least" if least > 1 else ""


def _line(line: OrderLine, wide: int) -> str:
    unit = f" {'' if line.unit == 'each' else line.unit:<{_UNIT}}"
    special = " (special order)" if line.special else ""
    return f"{line.qty_order:>{wide}}{unit} {line.item}{special}{used_for(line)}"


def used_for(line: OrderLine) -> str:
    """Where it is used, in brackets; nothing where its name says so."""
    told = [name for name in line.used_for if name.removesuffix("s") != line.grade]
    return f" [{', '.join(told)}]" if told else ""
