"""Prices of the items as a certificate of a lower bound, in whole numbers, for anybody to check.

Let each piece of item i be worth v_i, and suppose that no pattern of a stock t to be had in any number is worth more
than the stick costs. Then a cutting costs at least what its pieces are worth. A pattern of a scarce stock may be worth
more, by m_t; at most u_t of these can be cut, so that u_t * m_t is to be taken off.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from takeoff.cutting.exact.instance import Instance
from takeoff.cutting.exact.knapsack import Table, filled_table

_SCALED_COST = 2**27
"""About what the dearest stick costs in the measure of the values: fine enough, and sums stay within 32 bits."""


def scale_for(instance: Instance) -> int:
    """Parts of a cent that values are whole numbers of: a power of two."""
    dearest = max((stock.cost for stock in instance.stocks), default=0)
    return 1 << max(0, (_SCALED_COST // max(1, dearest)).bit_length() - 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificate:
    """What each piece bears of the cost at least."""

    scale: int
    values: tuple[int, ...]
    """Of a piece of each item, in 1/scale of a cent."""
    surplus: tuple[int, ...]
    """What the best pattern of each stock is worth more than the stick costs, in the same measure."""

    def worth(self, instance: Instance) -> int:
        """No cutting costs less: in 1/scale of a cent."""
        pieces = sum(v * b for v, b in zip(self.values, instance.demand, strict=True))
        return pieces - sum(self.surplus[t] * (instance.stocks[t].limit or 0) for t in instance.scarce)

    def bound(self, instance: Instance) -> int:
        """No cutting costs less [cents], a whole plan's cost being a multiple of a step."""
        return max(0, instance.rounded_up(self.worth(instance), self.scale))


def certified(instance: Instance, values: Sequence[int], scale: int, table: Table | None = None) -> Certificate:
    """The certificate of any values: they are scaled down until no pattern in any number is worth more than it costs.

    Args:
        instance: items and stocks.
        values: of the items, in 1/scale of a cent.
        scale: parts of a cent.
        table: of these values with the demand as bounds, where it is at hand.

    Source:
        Farley, A note on bounding a class of linear programming problems, Operations Research 38 (1990).
    """
    table = table or filled_table(instance, values, instance.demand)
    best = [table.best(stock.capacity) for stock in instance.stocks]
    above, below = 1, 1  # the fraction to scale by
    for stock, most in zip(instance.stocks, best, strict=True):
        if stock.limit is None and most * above > stock.cost * scale * below:
            above, below = stock.cost * scale, most
    scaled = tuple(max(0, v) * above // below for v in values)
    return Certificate(
        scale=scale,
        values=scaled,
        surplus=tuple(
            max(0, most * above // below - stock.cost * scale)
            for stock, most in zip(instance.stocks, best, strict=True)
        ),
    )
