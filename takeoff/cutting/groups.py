"""A lumber problem in whole numbers: one group for each load, profile and grade, since only those share sticks.

A saw takes its kerf between pieces, so n pieces need n - 1 kerfs if they end flush. With the width of a piece
w = length + kerf and the capacity of a stick C = length + kerf, that is: sum of w <= C. It holds with a rest, too;
a rest thinner than the blade is dust. A precut stud is a piece that fills its stick, with nothing to cut.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from takeoff.cutting.costs import compared_costs
from takeoff.cutting.natural import natural_key
from takeoff.cutting.nests import Nest, nest_of, nest_order
from takeoff.cutting.problem import LumberProblem, Offer
from takeoff.cutting.steps import cents, steps_down, steps_up, whole_feet_up
from takeoff.model.stock import Piece

Part = tuple[int, Nest | None]
"""All that matters of a piece where it is cut: its width, and how it nests."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stick:
    """A stock length of a group. ``cost`` is its price in cents, or stands in for it where that isn't ``known``."""

    length_in: float
    capacity: int
    cost: int
    known: bool
    special: bool = False
    limit: int | None = None
    on_hand: bool = False
    trim_in: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """Equal pieces of a group, over all buildings."""

    mark: str
    length_in: float
    width: int
    qty: int
    nest: Nest | None = None
    """How it nests with its like; None where its ends aren't slanted and parallel."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Pieces that may share sticks, and those sticks."""

    load: int
    profile: str
    grade: str
    sticks: tuple[Stick, ...]
    """On sale, shortest first."""
    demands: tuple[Demand, ...]
    """That a stick on sale holds: widest first, then by mark."""
    specials: tuple[tuple[Demand, Stick], ...]
    """Longer than any stick on sale, each piece with a stick of its own."""
    max_lengths: int | None = None
    least_leftover_in: float = 0.0

    @property
    def parts(self) -> tuple[Part, ...]:
        """Width and nest of every single piece, widest first."""
        return tuple((demand.width, demand.nest) for demand in self.demands for _ in range(demand.qty))

    @property
    def priced(self) -> bool:
        """Whether the price of every stick is known."""
        return all(stick.known for stick in (*self.sticks, *(stick for _, stick in self.specials)))


def groups_of(problem: LumberProblem) -> tuple[Group, ...]:
    """The groups of a problem, by load, profile and grade, whatever the order of its pieces and offers."""
    keys = {(piece.load, piece.profile, piece.grade) for piece in problem.pieces}
    return tuple(_group(problem, *key) for key in sorted(keys, key=lambda key: (key[0], natural_key(key[1]), key[2])))


def _group(problem: LumberProblem, load: int, profile: str, grade: str) -> Group:
    kerf = steps_up(problem.kerf_in)
    offers = tuple(offer for offer in problem.offers if (offer.profile, offer.grade) == (profile, grade))
    sticks = _sticks([offer for offer in offers if not offer.special], kerf)
    specials = _Specials(
        prices={offer.length_in: offer.price_usd for offer in offers if offer.special},
        trim_in=max((offer.trim_in for offer in offers), default=0.0),
        kerf=kerf,
    )
    pieces = [p for p in problem.pieces if (p.load, p.profile, p.grade) == (load, profile, grade)]
    demands = _demands(pieces, kerf, problem.kerf_in)
    longest = max((stick.capacity for stick in sticks), default=0)
    longest_on_sale = max((stick.capacity for stick in sticks if not stick.on_hand), default=0)
    # What only sticks on hand are long enough for may need a special one after all, when those run out.
    backing = {
        special.length_in: special
        for demand in demands
        if longest_on_sale < demand.width <= longest
        for special in (specials.stick(demand),)
    }
    return Group(
        load=load,
        profile=profile,
        grade=grade,
        sticks=tuple(sorted((*sticks, *backing.values()), key=lambda stick: (stick.capacity, stick.cost))),
        demands=tuple(demand for demand in demands if demand.width <= longest),
        specials=tuple((demand, specials.stick(demand)) for demand in demands if demand.width > longest),
        max_lengths=problem.max_lengths,
        least_leftover_in=problem.least_leftover_in,
    )


def _demands(pieces: list[Piece], kerf: int, kerf_in: float) -> tuple[Demand, ...]:
    counted: Counter[tuple[str, float, Nest | None]] = Counter()
    for piece in pieces:
        counted[piece.mark, piece.length_in, nest_of(piece, kerf_in)] += piece.qty
    demands = (
        Demand(mark=mark, length_in=length_in, width=steps_up(length_in) + kerf, qty=qty, nest=nest)
        for (mark, length_in, nest), qty in counted.items()
    )
    return tuple(sorted(demands, key=_widest_first))


def _widest_first(demand: Demand) -> tuple[object, ...]:
    return (-demand.width, natural_key(demand.mark), -demand.length_in, nest_order(demand.nest))


def _sticks(offers: list[Offer], kerf: int) -> tuple[Stick, ...]:
    bought = [offer for offer in offers if not offer.on_hand]
    costs = compared_costs([offer.length_in for offer in bought], [offer.price_usd for offer in bought])
    # A cent more for a price that has to be guessed: at equal cost what is known is preferred.
    guessed = int(any(offer.price_usd is not None for offer in bought))
    weighed = ((o, cost + guessed * (o.price_usd is None)) for o, cost in zip(bought, costs, strict=True))
    priced = [*weighed, *((offer, 0) for offer in offers if offer.on_hand)]
    sticks = (_stick(offer, cost, kerf) for offer, cost in priced)
    usable = (stick for stick in sticks if stick.capacity > kerf and stick.limit != 0)
    return tuple(sorted(usable, key=lambda stick: (stick.capacity, stick.cost, stick.length_in, not stick.on_hand)))


def _stick(offer: Offer, cost: int, kerf: int) -> Stick:
    return Stick(
        length_in=offer.length_in,
        capacity=steps_down(offer.length_in) - 2 * steps_up(offer.trim_in) + kerf,
        cost=cost,
        known=offer.on_hand or offer.price_usd is not None,
        limit=offer.limit,
        on_hand=offer.on_hand,
        trim_in=offer.trim_in,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Specials:
    """Sticks longer than any on sale, of one profile and grade."""

    prices: dict[float, float | None]
    trim_in: float
    kerf: int

    def stick(self, demand: Demand) -> Stick:
        """The stick to ask for."""
        length_in = whole_feet_up(demand.length_in + 2 * self.trim_in)
        price_usd = self.prices.get(length_in)
        return Stick(
            length_in=length_in,
            capacity=steps_down(length_in) - 2 * steps_up(self.trim_in) + self.kerf,
            cost=0 if price_usd is None else cents(price_usd),
            known=price_usd is not None,
            special=True,
            trim_in=self.trim_in,
        )
