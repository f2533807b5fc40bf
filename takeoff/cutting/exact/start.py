"""First plans by best fit, and the mending of plans: no surplus, and the cheapest stick for every content."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction

from takeoff.cutting.best_fit import best_fit
from takeoff.cutting.exact.instance import Instance
from takeoff.cutting.exact.pattern import Content, Pattern, Plan, content_of, is_whole, made_by, plan_of, sticks_used

_Rank = Callable[[int, int], tuple[Fraction | int, ...]]
"""Order in which stocks are opened for a width: capacity and cost of the stock to its rank."""


def first_plans(instance: Instance) -> Iterator[Plan]:
    """Plans by best fit, one for each way of opening sticks; none where the stock runs out."""
    pieces = sorted(
        (i for i, item in enumerate(instance.items) for _ in range(item.qty)), key=lambda i: -instance.items[i].width
    )
    for rank in _ranks(instance):
        uses = _fitted(instance, pieces, rank)
        if uses is not None:
            plan = cheapened(instance, uses)
            if is_whole(instance, plan):
                yield plan


def _ranks(instance: Instance) -> Iterator[_Rank]:
    """Cheapest for its length, cheapest, longest, and each length (or the next longer one)."""
    yield lambda capacity, cost: (Fraction(cost, capacity), -capacity)
    yield lambda capacity, cost: (cost, -capacity)
    yield lambda capacity, cost: (-capacity, cost)
    yield from (_from_length_on(least) for least in dict.fromkeys(stock.capacity for stock in instance.stocks))


def _from_length_on(least: int) -> _Rank:
    return lambda capacity, cost: (int(capacity < least), capacity, cost)


def _fitted(instance: Instance, pieces: Sequence[int], rank: _Rank) -> list[Pattern] | None:
    order = sorted(
        range(len(instance.stocks)),
        key=lambda t: (*rank(instance.stocks[t].capacity, instance.stocks[t].cost), t),
    )
    left = [stock.limit for stock in instance.stocks]
    opened: list[int] = []
    widths = [instance.items[i].width for i in pieces]

    def open_bin(position: int) -> int:
        for t in order:
            room = left[t]
            if instance.stocks[t].capacity >= widths[position] and room != 0:
                left[t] = None if room is None else room - 1
                opened.append(t)
                return instance.stocks[t].capacity
        raise _OutOfStockError

    try:
        bins = best_fit(widths, open_bin)
    except _OutOfStockError:
        return None
    return [Pattern(t, _content(pieces[at] for at in positions)) for t, positions in zip(opened, bins, strict=True)]


class _OutOfStockError(ValueError):
    """No stick is left for a piece."""


def _content(numbers: Iterable[int]) -> Content:
    counts: dict[int, int] = {}
    for i in numbers:
        counts[i] = counts.get(i, 0) + 1
    return content_of(counts)


def cheapened(instance: Instance, patterns: Iterable[Pattern]) -> Plan:
    """A plan of single boards, without surplus, each on the cheapest stick that is left for it."""
    boards = _without_surplus(instance, list(patterns))
    used = sticks_used(instance, ((board, 1) for board in boards))
    left = [None if stock.limit is None else stock.limit - n for stock, n in zip(instance.stocks, used, strict=True)]
    moved = []
    for board in sorted(boards, key=lambda board: (-instance.stocks[board.stock].cost, board)):
        t = _cheapest(instance, board, left)
        for stock, change in ((board.stock, 1), (t, -1)):
            room = left[stock]
            left[stock] = None if room is None else room + change
        moved.append((Pattern(t, board.content), 1))
    return plan_of(moved)


def _cheapest(instance: Instance, board: Pattern, left: Sequence[int | None]) -> int:
    taken = instance.taken(board.content)
    able = [
        t
        for t, stock in enumerate(instance.stocks)
        if stock.capacity >= taken and (left[t] is None or (left[t] or 0) > 0 or t == board.stock)
    ]
    return min(able, key=lambda t: (instance.stocks[t].cost, instance.stocks[t].capacity, t))


def _without_surplus(instance: Instance, boards: list[Pattern]) -> list[Pattern]:
    """Pieces too many are left out where that lets a board change for the cheapest stick, or else leaves most room."""
    made = made_by(instance, ((board, 1) for board in boards))
    for i, wanted in enumerate(instance.demand):
        while made[i] > wanted:
            holding = [at for at, board in enumerate(boards) if any(j == i for j, _ in board.content)]
            at = max(holding, key=lambda at: (_saved(instance, boards[at], i), -at))
            boards[at] = _less_one(boards[at], i)
            made[i] -= 1
    return [board for board in boards if board.content]


def _less_one(board: Pattern, i: int) -> Pattern:
    return Pattern(board.stock, content_of({j: count - (j == i) for j, count in board.content}))


def _saved(instance: Instance, board: Pattern, i: int) -> tuple[int, int]:
    """What leaving a piece out saves, and the room there is then."""
    less = _less_one(board, i)
    plentiful = [None] * len(instance.stocks)
    cost = instance.stocks[_cheapest(instance, less, plentiful)].cost if less.content else 0
    room = instance.stocks[board.stock].capacity - instance.taken(less.content)
    return instance.stocks[board.stock].cost - cost, room
