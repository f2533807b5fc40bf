"""Lines of the order."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """One thing to buy for one load. Fields as the columns of ``order.csv``.

    ``qty_net`` is what cutting needs; ``qty_order`` adds the allowance ``waste_pct`` for culls and miscuts,
    rounded up to whole pieces. Board feet, weight and cost are of the ordered quantity.
    """

    load: int
    category: str
    item: str
    """What a yard calls it, such as ``2x10 no2, 14'-0"``."""
    profile: str
    grade: str
    stock_length_in: float | None
    qty_net: int
    waste_pct: float
    qty_order: int
    unit: str
    board_feet: float
    weight_lb: float
    unit_price: float | None
    """[$] a unit; None where the price list has none."""
    special: bool = False
    used_for: tuple[str, ...] = ()
    """What is cut from it, as ``studs`` or ``roof``, what takes most of it first; empty where its name says so."""

    @property
    def cost(self) -> float | None:
        """[$], to the cent; None without a price."""
        return None if self.unit_price is None else round(self.qty_order * self.unit_price, 2)
