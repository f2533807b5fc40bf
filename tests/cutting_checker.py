"""Checks of cuttings and their proofs that share no code with the cutter: plain whole numbers, no solver."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from functools import cache
from itertools import product
from math import ceil, gcd

from takeoff.cutting.exact.certificate import Certificate
from takeoff.cutting.exact.instance import Instance

TINY = 1e-6


def taken(instance: Instance, counts: tuple[int, ...]) -> int:
    """Capacity that some pieces of each item take; each chain of nesting pieces saves between neighbours."""
    total = sum(item.width * n for item, n in zip(instance.items, counts, strict=True))
    for chain, saving in enumerate(instance.savings):
        members = sum(n for item, n in zip(instance.items, counts, strict=True) if item.chain == chain)
        total -= saving * max(0, members - 1)
    return total


def contents(instance: Instance) -> list[tuple[int, ...]]:
    """Everything that fits into the longest stock."""
    longest = max(stock.capacity for stock in instance.stocks)
    ranges = [range(item.qty + 1) for item in instance.items]
    return [counts for counts in product(*ranges) if any(counts) and taken(instance, counts) <= longest]


def least_cost(instance: Instance) -> int | None:
    """The least cost by trying everything; None where the stock doesn't suffice."""
    fitting = [(counts, taken(instance, counts)) for counts in contents(instance)]
    limits = tuple(stock.limit for stock in instance.stocks)

    @cache
    def least(rest: tuple[int, ...], left: tuple[int | None, ...]) -> float:
        if not any(rest):
            return 0
        first = next(i for i, n in enumerate(rest) if n)
        best = float("inf")
        for counts, width in fitting:
            if not counts[first] or any(n > r for n, r in zip(counts, rest, strict=True)):
                continue
            after = tuple(r - n for n, r in zip(counts, rest, strict=True))
            for t, stock in enumerate(instance.stocks):
                if stock.capacity >= width and left[t] != 0:
                    fewer = tuple(n - 1 if u == t and n is not None else n for u, n in enumerate(left))
                    best = min(best, stock.cost + least(after, fewer))
        return best

    answer = least(instance.demand, limits)
    return None if answer == float("inf") else int(answer)


def most_worth(instance: Instance, values: tuple[int, ...]) -> list[int]:
    """The most that pieces on one stick can be worth, for every capacity: no piece more often than wanted."""
    capacity = max(stock.capacity for stock in instance.stocks)
    best = [0] * (capacity + 1)
    for i in (i for i, item in enumerate(instance.items) if item.chain is None):
        best = _with_item(best, instance.items[i].width, values[i], instance.items[i].qty)
    for chain, saving in enumerate(instance.savings):
        within = [None] * min(saving, capacity + 1) + best[: max(0, capacity + 1 - saving)]
        for i in (i for i, item in enumerate(instance.items) if item.chain == chain):
            within = _with_item(within, instance.items[i].width - saving, values[i], instance.items[i].qty)
        best = [max(a, b) if b is not None else a for a, b in zip(best, within, strict=True)]
    return best


def _with_item(best: list, width: int, value: int, qty: int) -> list:
    for _ in range(min(qty, len(best) // width)):
        added = [
            None if room < width or best[room - width] is None else best[room - width] + value
            for room in range(len(best))
        ]
        after = [max((v for v in pair if v is not None), default=None) for pair in zip(best, added, strict=True)]
        if after == best:
            break
        best = after
    return best


def check_certificate(instance: Instance, certificate: Certificate) -> int:
    """Check that the prices bear the bound they claim; gives that bound, not rounded up, in 1/scale of a cent."""
    assert all(isinstance(value, int) and value >= 0 for value in certificate.values)
    bound = sum(value * item.qty for value, item in zip(certificate.values, instance.items, strict=True))
    worth = most_worth(instance, certificate.values)
    for stock, surplus in zip(instance.stocks, certificate.surplus, strict=True):
        above = worth[stock.capacity] - stock.cost * certificate.scale
        if stock.limit is None:
            assert above <= 0
        else:
            assert surplus >= max(0, above)
            bound -= surplus * stock.limit
    step = gcd(*(stock.cost for stock in instance.stocks)) or 1
    assert certificate.bound(instance) == max(0, ceil(Fraction(bound, certificate.scale * step)) * step)
    return bound


def check_boards(problem, cutting) -> None:
    """Check that the boards give exactly the pieces, within their lengths and within what is to be had."""
    wanted, cut = Counter(), Counter()
    for piece in problem.pieces:
        wanted[piece.load, piece.profile, piece.grade, piece.mark, piece.length_in] += piece.qty
    for board in cutting.boards:
        for one in board.cuts:
            cut[board.load, board.profile, board.grade, one.mark, one.length_in] += 1
        used = sum(one.length_in - one.lap_in for one in board.cuts) + problem.kerf_in * (len(board.cuts) - 1)
        assert used <= board.stock_length_in - 2 * board.trim_in + TINY
    assert cut == wanted
    for on_hand in (True, False):
        used = Counter(_kind(board) for board in cutting.boards if board.on_hand == on_hand)
        for kind, count in used.items():
            limits = [o.limit for o in problem.offers if (*_kind(o), o.on_hand) == (*kind, on_hand)]
            assert None in limits or not limits or count <= sum(limits)


def _kind(of) -> tuple[object, ...]:
    """Profile, grade and length of an offer or a board."""
    length_in = of.stock_length_in if hasattr(of, "stock_length_in") else of.length_in
    return of.profile, of.grade, length_in
