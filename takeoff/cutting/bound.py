"""How cheap a cutting of sticks, and how small one of sheets, can be at best."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from takeoff.cutting.groups import Demand, Group
from takeoff.cutting.sheet_groups import guests_of, sharing
from takeoff.cutting.sheet_problem import SheetProblem
from takeoff.geometry.tolerance import TOLERANCE


def material_bound(group: Group) -> int:
    """Cents that no cutting of a group can do without.

    A piece of width w takes w / C of a stick of capacity C, and so bears at least that share of its price. The sum over
    all pieces of the least such share, over the sticks that hold the piece, is a bound: the shares on one stick add up
    to no more than 1. A piece that nests counts as narrow as it is beside a neighbour. A special stick costs what it
    costs.

    A group with a price that isn't known has the bound 0.
    """
    if not group.priced:
        return 0
    shares = (demand.qty * _narrowest(demand) * min(_rates(group, demand.width)) for demand in group.demands)
    return ceil(sum(shares, Fraction(0))) + sum(demand.qty * stick.cost for demand, stick in group.specials)


def _narrowest(demand: Demand) -> int:
    return demand.width - (demand.nest.saving if demand.nest else 0)


def _rates(group: Group, width: int) -> Iterator[Fraction]:
    """Price for each step of capacity of the sticks that hold a width [cents]."""
    return (Fraction(stick.cost, stick.capacity) for stick in group.sticks if stick.capacity >= width)


def area_bound(problem: SheetProblem) -> int:
    """Sheets that no cutting can do without: panels' area over that of the largest sheet, rounded up.

    Products whose pieces share no sheets are rounded up alone. Of those that share, each that is nobody's guest needs
    the sheets of its own area, and all together those of all.
    """
    return sum(_area_bound_of(problem, group) for group in sharing(problem))


def _area_bound_of(problem: SheetProblem, products: tuple[str, ...]) -> int:
    hosts = [product for product in products if not any(product in guests_of(one, problem) for one in products)]
    return max(_rounded(problem, products), sum(_rounded(problem, (host,)) for host in hosts))


def _rounded(problem: SheetProblem, products: tuple[str, ...]) -> int:
    area = sum(piece.qty * piece.area_sqin for piece in problem.pieces if piece.product in products)
    largest = max(offer.length_in * offer.width_in for offer in problem.offers if offer.product in products)
    return ceil((area - TOLERANCE.area) / largest)
